/* SPDX-License-Identifier: MIT */
#ifndef SILLET_APP_HISTORY_ACTIONS_H
#define SILLET_APP_HISTORY_ACTIONS_H

#include "app/app_inside.h"

/* A command on the history leaf, which has no cells to move between; false for one that
 * means what it means everywhere. */
bool turn_history(struct turn *turn, enum command_id command);

#endif
