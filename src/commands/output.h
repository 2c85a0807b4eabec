/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_OUTPUT_H
#define SILLET_COMMANDS_OUTPUT_H

#include "commands/report.h"

/* The file that a command was told to write, with -o. */

/* False, after a message, where it is the profile that the command reads, by whatever path or
 * link. NULL, for the terminal, is fine. */
bool output_spares(const char *output, const char *profile);

/* Writes it whole; EXIT_CANNOT after a message. */
enum exit_code output_write(const char *output, const char *bytes, size_t length);

#endif
