/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_FILING_H
#define SILLET_SESSION_FILING_H

#include "session/turn.h"

/* Filing readings in the record and taking them out again. */

/* Files what goes with the first reading of a pass, in the open step: the pass's time, its label,
 * how its nut gaps are read. */
enum status turn_open_pass(struct turn *turn);

/* Warns if the rod was turned further than a quarter turn without a reading. It was done, so it is
 * filed, but rods break that way. */
void turn_mind_turns(struct turn *turn, double turns);

/* Files the entry in the cell in hand; false, with a warning, if it is refused or held. */
bool turn_take_entry(struct turn *turn);

/* The same for the last value that is offered for the cell in hand, as it was typed; again_in_hand
 * must have one. */
bool turn_take_again(struct turn *turn);

/* Takes the reading out of the cell in hand. */
void turn_clear_cell(struct turn *turn);
bool turn_can_clear(const struct app *app);
void turn_add_cleared(const struct app *app, struct strbuf *out);

#endif
