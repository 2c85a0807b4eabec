/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_STRINGS_STRINGS_ACTIONS_H
#define SILLET_LEAF_STRINGS_STRINGS_ACTIONS_H

#include "session/turn.h"

/* What the keys of the strings leaf do; `by` is 1 for the next, -1 for the one before. */
void strings_step_tuning(struct turn *turn);
void strings_step_set(struct turn *turn);
void strings_step_semitone(struct turn *turn, int by);
void strings_take_what_if(struct turn *turn);
void strings_drop_what_if(struct turn *turn);

/* Whether there is anything to do them with. */
bool strings_has_strings(const struct app *app);
bool strings_can_take_what_if(const struct app *app);
bool strings_can_drop_what_if(const struct app *app);

/* Takes a tuning or a set out of the what-if where it is on already; whether it was. */
bool strings_leave_what_is_on(struct app *app, bool tuning);

#endif
