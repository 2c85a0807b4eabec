/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_BENCH_BENCH_ACTIONS_H
#define SILLET_LEAF_BENCH_BENCH_ACTIONS_H

#include "session/turn.h"

/* The bench's own commands. */

/* Moves the target of the row in hand by one step of its gauge, up (by = 1) or down (-1): the bass
 * or the treble target, whichever is nearer to the string in hand. */
void bench_nudge(struct turn *turn, int by);

/* Whether the row in hand has a target, and it may be moved. */
bool bench_can_nudge(const struct app *app);

/* Puts the cell's latest earlier reading into the entry line. It is not a reading of this pass
 * until Enter takes it. */
void bench_begin_from_before(struct turn *turn);
bool bench_has_before(const struct app *app);

/* Files the last values of all cells of the row in hand that are not read yet, in one step of undo:
 * for a tech who has been over the row and found it as it was. Never the relief; in a new visit
 * only once the relief is read; and not after work of which nobody knows what it changed. */
void bench_take_row(struct turn *turn);
bool bench_can_take_row(const struct app *app);

/* Ends the pass in hand: begins the next one, or takes it in hand if it exists. */
void bench_begin_pass(struct turn *turn);
bool bench_can_begin_pass(const struct app *app);

/* Switches between nut gaps read open and with the string held on fret 3. */
void bench_toggle_method(struct turn *turn);

#endif
