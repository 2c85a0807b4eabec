/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_OUTPUT_H
#define SILLET_COMMANDS_OUTPUT_H

#include "commands/report.h"

/* The file that a command writes with -o. */

/* False, after a message, if it is the very profile that the command reads, by any path or
 * link. NULL means the terminal, and is fine. */
bool output_spares(const char *output, const char *profile);

/* Writes it whole; EXIT_CANNOT after a message. */
enum exit_code output_write(const char *output, const char *bytes, size_t length);

#endif
