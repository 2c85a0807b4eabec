/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_FRETS_FRETS_ACTIONS_H
#define SILLET_LEAF_FRETS_FRETS_ACTIONS_H

#include "session/turn.h"

/* The commands of the Frets leaf. */

/* The note looked at on the headroom map, on the string in hand; -1 if none is known. */
int frets_note(const struct app *app);
bool frets_has_note(const struct app *app);

/* Looks at the next note (1) or the one before (-1); past the first and the last comes the tightest
 * again. */
void frets_step_note(struct turn *turn, int by);

/* Files the crown in hand, else the one before it on the route, on all frets that have none yet, as
 * one step of undo. */
void frets_fill_crowns(struct turn *turn);
bool frets_can_fill_crowns(const struct app *app);

/* Appends ": 1.1 mm on 17 frets". */
void frets_add_fill(const struct app *app, struct strbuf *out);

/* On entering the leaf, takes the spot in hand that a move asks the rocker for. */
void frets_settle(struct app *app, bool entering);

#endif
