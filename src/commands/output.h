/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_OUTPUT_H
#define SILLET_COMMANDS_OUTPUT_H

#include "commands/report.h"

/* The file that a command writes with -o. */

/* Writes it whole; EXIT_CANNOT after a message. */
enum exit_code output_write(const char *output, const char *bytes, size_t length);

#endif
