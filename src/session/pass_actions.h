/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_PASS_ACTIONS_H
#define SILLET_SESSION_PASS_ACTIONS_H

#include "session/turn.h"

/* Commands that take another pass or visit in hand. */

void turn_begin_visit(struct turn *turn);
bool turn_can_begin_visit(const struct app *app);

/* The pass before (-1) or after (1), from one visit to the next too. */
void turn_look_at(struct turn *turn, int by);
bool turn_has_earlier(const struct app *app);
bool turn_has_later(const struct app *app);

#endif
