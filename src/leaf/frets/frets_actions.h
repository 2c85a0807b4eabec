/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_FRETS_FRETS_ACTIONS_H
#define SILLET_LEAF_FRETS_FRETS_ACTIONS_H

#include "session/turn.h"

/* What the keys of the frets leaf do. */

/* The note looked at on the headroom map, of the string in hand; -1 where none is known. */
int frets_note(const struct app *app);
bool frets_has_note(const struct app *app);

/* Looks at the next note (1) or the one before (-1); past the first and the last stands the
 * tightest again. */
void frets_step_note(struct turn *turn, int by);

#endif
