/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_CHECK_COMMAND_H
#define SILLET_COMMANDS_CHECK_COMMAND_H

#include "commands/report.h"

/*
 * `sillet check FILE...`: names every problem with file and line, then what the model finds
 * impossible. EXIT_FINDINGS if there is an error or a fault, EXIT_CANNOT if a file
 * cannot be read; EXIT_GOOD with notes and warnings only.
 */
enum exit_code check_command(char *const *paths, int count);

#endif
