/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_BENCH_BENCH_ACTIONS_H
#define SILLET_LEAF_BENCH_BENCH_ACTIONS_H

#include "session/turn.h"

/* The bench's own commands. */

/* Moves the target of the row in hand by one step of its gauge, up (by = 1) or down (-1):
 * the bass one or the treble one, whichever end the string in hand is nearer to. */
void bench_nudge(struct turn *turn, int by);

/* Whether the row in hand has a target to move, and it may be. */
bool bench_can_nudge(const struct app *app);

/* Puts the reading of the pass before into the entry line, where it is not measured yet:
 * Enter takes it, like anything typed. */
void bench_begin_from_before(struct turn *turn);
bool bench_has_before(const struct app *app);

/* Ends the pass in hand: the next one is begun, or taken in hand where it is there already. */
void bench_begin_pass(struct turn *turn);
bool bench_can_begin_pass(const struct app *app);

/* Nut gaps read open, or with the string held on fret 3. */
void bench_toggle_method(struct turn *turn);

#endif
