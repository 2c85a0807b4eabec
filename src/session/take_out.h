/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_TAKE_OUT_H
#define SILLET_SESSION_TAKE_OUT_H

#include "session/turn.h"

/*
 * Takes out passes and visits that were begun or typed by mistake, in one step of undo, after a
 * question that says what would go. The passes after one move up, because a pass is compared with
 * the one before it. Visits keep their numbers, because sheets that were handed over show them.
 */

/* Asks about the pass or the visit looked at on the History leaf; on other leaves, about the visit
 * in hand. */
void take_out_pass(struct turn *turn);
void take_out_visit(struct turn *turn);

/* Whether there is such a pass or visit, and it may be taken out. */
bool take_out_has_pass(const struct app *app);
bool take_out_has_visit(const struct app *app);

#endif
