/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_PASS_END_H
#define SILLET_SESSION_PASS_END_H

#include "session/app.h"

/* The stop behind the last cell of a pass. */

/* The first cell of the route that is still to be read; -1 for none. A saddle's exposure that an
 * earlier pass read follows from the moves, and need not be read again. */
int pass_end_find_gap(const struct app *app);

/* How many cells of the bench ought to be read before the instrument goes back, and the first of
 * them: of the rows that were read in this visit, those that were left out, or not read since work
 * changed them. A row that nobody read is not asked for: a job may be a new set of strings alone.
 */
int pass_end_count_unread(const struct app *app, struct route_cell *ret_first);

/* Appends what is to be done now: "all cells done; p or * 4 begins the next pass". */
void pass_end_add_words(const struct app *app, struct strbuf *out);

#endif
