/* SPDX-License-Identifier: MIT */
#ifndef SILLET_CLI_SESSION_H
#define SILLET_CLI_SESSION_H

#include "cli/report.h"

/*
 * `sillet FILE`: an instrument on the terminal, until the tech leaves or the terminal goes.
 * Every accepted reading is saved at once. EXIT_CANNOT when the file cannot be opened, the
 * terminal cannot be used, or the last save failed.
 */
enum exit_code session_command(const char *path);

#endif
