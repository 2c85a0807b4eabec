/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_JOURNAL_COMMAND_H
#define SILLET_COMMANDS_JOURNAL_COMMAND_H

#include "commands/report.h"

/* `sillet journal [DAY]`: what was done on a day, or in a month, to all instruments of a folder, in
 * order. A profile that cannot be opened is said, and the others are listed all the same:
 * EXIT_FINDINGS then, EXIT_CANNOT for the folder. `words` are those after the command. */
enum exit_code journal_command(int count, char *const *words);

#endif
