/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_DEMO_COMMAND_H
#define SILLET_COMMANDS_DEMO_COMMAND_H

#include "commands/report.h"

/* Makes the made-up shop in a folder, as the words after `demo` say. A folder that has profiles
 * already is left alone: EXIT_CANNOT, after a message. */
enum exit_code demo_command(int count, char *const *words);

#endif
