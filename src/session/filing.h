/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_FILING_H
#define SILLET_SESSION_FILING_H

#include "session/turn.h"

/* Readings taken into the record and out of it. */

/* What the first reading of a pass brings along, in the step that is open: the pass's time, its
 * label, how its nut gaps are read. */
enum status turn_open_pass(struct turn *turn);

/* Takes the entry into the cell in hand; false, with a warning, when it cannot be. */
bool turn_take_entry(struct turn *turn);

/* Takes the reading of the cell in hand out. */
void turn_clear_cell(struct turn *turn);
bool turn_can_clear(const struct app *app);
void turn_add_cleared(const struct app *app, struct strbuf *out);

#endif
