/* SPDX-License-Identifier: MIT */
#ifndef SILLET_APP_STRINGS_ACTIONS_H
#define SILLET_APP_STRINGS_ACTIONS_H

#include "app/app_inside.h"

/* What the keys of the strings leaf do; `by` is 1 for the next, -1 for the one before. */
void strings_step_tuning(struct turn *turn);
void strings_step_set(struct turn *turn);
void strings_step_semitone(struct turn *turn, int by);
void strings_take_what_if(struct turn *turn);
void strings_drop_what_if(struct turn *turn);

/* Takes a tuning or a set out of the what-if where it is on already; whether it was. */
bool strings_leave_what_is_on(struct app *app, bool tuning);

#endif
