/* SPDX-License-Identifier: MIT */
#ifndef SILLET_WORDS_PITCH_WORDS_H
#define SILLET_WORDS_PITCH_WORDS_H

#include "base/strbuf.h"
#include "words/pitch_plan.h"

/* The plan for saddle and nut in words. */

/* Appends what comes before all of it, ", wait: the season moved the neck"; nothing where nothing
 * does. */
void pitch_add_wait(const struct pitch_plan *plan, struct strbuf *out);

/* Appends "+1.48 ±0.21" (plus: back), "leave it", "look again", or nothing if no cents were read;
 * "read again" once its saddle was moved.
 * The unit is in the column's heading. */
void pitch_add_short(const struct pitch_move *move, const struct shop_units *units,
                     struct strbuf *out);

/* Appends the move in full, with the reading it rests on and whether it is worth making. */
void pitch_add_move(const struct pitch_plan *plan, int string, const struct shop_units *units,
                    struct strbuf *out);

/* Appends what moving saddle and nut together would do, from all frets read; else what is
 * missing. */
void pitch_add_fit(const struct pitch_plan *plan, int string, const struct shop_units *units,
                   struct strbuf *out);

/* Appends the setback predicted for the targets, and the best compromise; else what is missing. */
void pitch_add_predicted(const struct derived *derived, int string, const struct shop_units *units,
                         struct strbuf *out);

/* Appends where the string leaves the saddle now, and where after the move that is due; without
 * the setback that it is not known. */
void pitch_add_contact(const struct pitch_move *move, const struct shop_units *units,
                       struct strbuf *out);

/* Appends whether the saddle is wide enough; nothing where its width is not known. */
void pitch_add_saddle(const struct pitch_plan *plan, const struct shop_units *units,
                      struct strbuf *out);

/* Whether it is not. */
bool pitch_saddle_is_narrow(const struct pitch_plan *plan);

/* A caution for moving the saddle; "" if no move is due. */
const char *pitch_caution(const struct pitch_plan *plan);

#endif
