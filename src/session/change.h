/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_CHANGE_H
#define SILLET_SESSION_CHANGE_H

#include "session/app.h"

/*
 * How a reading of the instrument is filed. In the first visit it is what the instrument is like.
 * In a later one it is a change from that visit on, so that the visits before stay as they were;
 * or, with app->correcting, a correction of what they held. Some readings are the same in all
 * visits, and every edit of them is a correction (field_may_change). A setback is read in the pass
 * in hand, and holds from it on: a saddle is moved within a visit.
 */

/* Whether the field can be either in the visit in hand: it may change, and there is a visit
 * before. */
bool change_applies(const struct app *app, enum field_id field);

/* The key that a reading is filed under, for the key of its cell. Keys of a visit stay as they
 * are. And back. */
struct reading_key change_key(const struct app *app, struct reading_key key);
struct reading_key change_cell_key(struct reading_key filed);

/* The change of the cell's reading that the visit in hand made itself, or the setback that its pass
 * in hand read; NULL for none. */
const struct reading *change_made(const struct app *app, const struct reading_key *key);

/* Puts a reading, or with text NULL lets it hold no longer, in the open step of undo; `date` is
 * today's, for a visit that has no reading yet. Fails as undo_put. */
enum status change_put(struct app *app, const char *date, struct reading_key key, const char *text,
                       struct field_fault *ret_fault);

/* Appends how an entry for the key would be filed: ", from this visit on", ", from this pass on" of
 * a setback, ", correction: all visits"; ", all visits" for what cannot change; nothing in the first
 * visit, or pass, or for readings of a visit. */
void change_add_words(const struct app *app, const struct reading_key *key, struct strbuf *out);

#endif
