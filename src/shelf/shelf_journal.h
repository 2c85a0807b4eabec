/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHELF_SHELF_JOURNAL_H
#define SILLET_SHELF_SHELF_JOURNAL_H

#include "shelf/shelf_list.h"

/* What was done on a day, or in a month, to all instruments. */

/* Goes to today. */
void shelf_journal_open(struct shelf_list *list);

/* From the day to its month, and back to that day. */
void shelf_journal_turn(struct shelf_list *list);

/* To the next day or month after it, or the last before it (`by` 1, -1), in which anything was
 * done. False, with a message, if there is none. */
bool shelf_journal_step(struct shelf_list *list, int by);

/* Shows what was done then, in the order of its time; the lines must stay valid while the shelf is
 * in SHELF_JOURNAL. */
void shelf_journal_take(struct shelf_list *list, const struct shelf_journal_line *lines,
                        size_t count);

/* "Friday, 27 November 2026", "November 2026". */
void shelf_journal_add_title(const struct shelf_list *list, struct strbuf *out);

#endif
