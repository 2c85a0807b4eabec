/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_HAND_OVER_H
#define SILLET_SESSION_HAND_OVER_H

#include "session/turn.h"

/* The instrument goes back to its owner: files today as the day that the visit in hand was handed
 * over, as one step of undo, and wants its sheet written. Asks first while
 * work is left, or a cell is to be read. */
void hand_over_do(struct turn *turn);

/* Whether anything of the visit is on file, and it was not handed over yet. */
bool hand_over_can(const struct app *app);

/* Appends ", 2 moves due", ", not measured since the work" or ", 1 cell not read" while that is so.
 */
void hand_over_add_left(const struct app *app, struct strbuf *out);

#endif
