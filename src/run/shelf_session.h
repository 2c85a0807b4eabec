/* SPDX-License-Identifier: MIT */
#ifndef SILLET_RUN_SHELF_SESSION_H
#define SILLET_RUN_SHELF_SESSION_H

#include "commands/report.h"

/*
 * `sillet`: the instruments on file in a folder (NULL: the data folder), until the user quits;
 * instruments are opened from there and return there. The folder need not exist: the first
 * new instrument creates it. EXIT_CANNOT if the terminal cannot be used, or the last save of
 * an instrument failed.
 */
enum exit_code shelf_session_command(const char *folder);

#endif
