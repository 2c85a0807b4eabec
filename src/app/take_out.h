/* SPDX-License-Identifier: MIT */
#ifndef SILLET_APP_TAKE_OUT_H
#define SILLET_APP_TAKE_OUT_H

#include "app/app_inside.h"

/*
 * Passes and visits that were begun or typed by mistake are taken out, after a question that says
 * what would go, in one step of undo. The passes behind it move up, for a pass is compared with the
 * one before it; visits keep their numbers, for sheets that were handed over bear them.
 */

/* Asks about the pass, or the visit, that the history leaf looks at; elsewhere about the visit in
 * hand. */
void turn_pass_out(struct turn *turn);
void turn_visit_out(struct turn *turn);

/* Whether there is such a pass or visit to be asked about. */
bool take_out_has_pass(const struct app *app);
bool take_out_has_visit(const struct app *app);

/* The key that answers: Enter takes out, any other one leaves all as it is. False where nothing
 * was asked. */
bool take_out_answer(struct turn *turn, uint32_t key);

#endif
