/* SPDX-License-Identifier: MIT */
#ifndef SILLET_APP_BENCH_ACTIONS_H
#define SILLET_APP_BENCH_ACTIONS_H

#include "app/app_inside.h"

/* The bench's own commands. */

/* Moves the target of the row in hand by one step of its gauge, up (by = 1) or down (-1):
 * the bass one or the treble one, whichever end the string in hand is nearer to. */
void bench_nudge(struct turn *turn, int by);

/* Whether the row in hand has a target to move. */
bool bench_can_nudge(const struct app *app);

/* Puts the reading of the pass before into the entry line, where it is not measured yet:
 * Enter takes it, like anything typed. */
void bench_begin_from_before(struct turn *turn);

#endif
