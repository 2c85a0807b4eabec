/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_MENU_ACTIONS_H
#define SILLET_SESSION_MENU_ACTIONS_H

#include "session/turn.h"

/* Opens the menu of what can be done now. */
void turn_open_menu(struct turn *turn);

#endif
