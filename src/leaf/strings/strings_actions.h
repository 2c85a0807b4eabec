/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_STRINGS_STRINGS_ACTIONS_H
#define SILLET_LEAF_STRINGS_STRINGS_ACTIONS_H

#include "session/turn.h"

/* The commands of the Strings leaf; `by` is 1 for a semitone up, -1 for one down. */
void strings_step_semitone(struct turn *turn, int by);
void strings_step_all(struct turn *turn, int by);
void strings_take_what_if(struct turn *turn);
void strings_drop_what_if(struct turn *turn);

/* Whether there is anything to use them on. */
bool strings_has_strings(const struct app *app);
bool strings_can_take_what_if(const struct app *app);
bool strings_can_drop_what_if(const struct app *app);

/* Opens a step of undo and puts the what-if into the record, if there is one. False, with a warning
 * and nothing changed, if that fails. */
bool strings_put_what_if(struct turn *turn);

/* Takes a tuning or a set out of the what-if if it is on already. Returns whether it was. */
bool strings_leave_what_is_on(struct app *app, bool tuning);

#endif
