/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_LAYOUT_COMMAND_H
#define SILLET_COMMANDS_LAYOUT_COMMAND_H

#include "commands/report.h"

/*
 * `sillet layout [--paper a4|letter] [--visit N] [--pass N] -o OUT.pdf|OUT.svg FILE [TEMPLATE...]`:
 * templates at true scale. Takes the words after "layout". Without names, draws all that are of use
 * and have their readings; a named one that lacks readings, or shows a reset that no pass asked
 * for, is a finding. OUT is written whole or not at all.
 */
enum exit_code layout_command(int count, char *const *words);

#endif
