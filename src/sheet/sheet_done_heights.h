/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHEET_SHEET_DONE_HEIGHTS_H
#define SILLET_SHEET_SHEET_DONE_HEIGHTS_H

#include "sheet/sheet_parts.h"

/* Private to sheet: what was done to the heights of the strings, at the nut and at the saddle. */

/* By the words of a plan that was marked done: on which strings, and which way. */
void sheet_say_slots_done(const struct sheet_maker *maker, const char *plan, struct strbuf *out);
void sheet_say_saddle_done(const struct sheet_maker *maker, const char *plan, struct strbuf *out);

/* By the numbers that a tech typed, as the model takes them after the pass `before`: what they did,
 * and by how much. False, nothing appended, where the text has words of its own, or does not tell
 * up from down. */
bool sheet_say_numbers_done(const struct sheet_maker *maker, enum move_kind kind,
                            struct place before, int line, const char *text, struct strbuf *out);

#endif
