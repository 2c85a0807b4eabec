/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_UNDO_ACTIONS_H
#define SILLET_SESSION_UNDO_ACTIONS_H

#include "session/turn.h"

/* Undoes the last step (-1) or redoes the next one (1), and says what changed. */
void turn_undo(struct turn *turn, int by);

bool turn_can_undo(const struct app *app);
bool turn_can_redo(const struct app *app);
void turn_add_undone(const struct app *app, struct strbuf *out);
void turn_add_redone(const struct app *app, struct strbuf *out);

#endif
