/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_TAKE_OUT_H
#define SILLET_SESSION_TAKE_OUT_H

#include "session/turn.h"

/*
 * Passes and visits that were begun or typed by mistake are taken out, after a question that says
 * what would go, in one step of undo. The passes behind it move up, for a pass is compared with the
 * one before it; visits keep their numbers, for sheets that were handed over bear them.
 */

/* Asks about the pass, or the visit, that the history leaf looks at; elsewhere about the visit in
 * hand. */
void take_out_pass(struct turn *turn);
void take_out_visit(struct turn *turn);

/* Whether there is such a pass or visit, and it may be taken out. */
bool take_out_has_pass(const struct app *app);
bool take_out_has_visit(const struct app *app);

#endif
