/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_APP_PLACE_H
#define SILLET_SESSION_APP_PLACE_H

#include "session/app.h"

/* Taking a pass or a leaf in hand. */

/* Takes a pass in hand, at the first cell of every leaf, the entry empty. */
void app_take_pass(struct app *app, int visit, int pass);

/* Takes the last pass that was read; where none was, the first of the last visit. */
void app_take_current(struct app *app);

/* Turns to a leaf, at the cell that was last in hand there in this pass, the entry empty. */
void app_take_leaf(struct app *app, enum leaf leaf);

/* Goes back from a pass or visit that was just begun and is empty. The record does not change, but
 * this is what undo means then. False, nothing done, if there is no such pass in hand. */
bool app_leave_begun(struct app *app);
bool app_can_leave_begun(const struct app *app);

#endif
