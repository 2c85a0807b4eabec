/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_CHANGE_ACTIONS_H
#define SILLET_SESSION_CHANGE_ACTIONS_H

#include "session/turn.h"

/* Makes a correction of the change that the cell in hand holds from the visit in hand on. If it
 * holds none, or while something is typed: files corrections from here on, or changes again. */
void change_toggle(struct turn *turn);
bool change_can_toggle(const struct app *app);
void change_add_toggled(const struct app *app, struct strbuf *out);

#endif
