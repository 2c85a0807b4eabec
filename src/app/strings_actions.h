/* SPDX-License-Identifier: MIT */
#ifndef SILLET_APP_STRINGS_ACTIONS_H
#define SILLET_APP_STRINGS_ACTIONS_H

#include "app/app_inside.h"

/* The commands of the strings leaf: COMMAND_TUNING to COMMAND_WHAT_IF_DROP. */
void turn_strings(struct turn *turn, enum command_id command);

#endif
