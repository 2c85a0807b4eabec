/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_SHEET_COMMAND_H
#define SILLET_COMMANDS_SHEET_COMMAND_H

#include "commands/report.h"
#include "commands/sheet_options.h"

/*
 * `sillet sheet`: the sheet that goes back with the instrument, as text to the terminal or as
 * a document into a file. EXIT_FINDINGS if the profile holds an error; the sheet is written
 * all the same. EXIT_USAGE for a visit that is not on file. EXIT_CANNOT if something cannot
 * be read or written, or if a build without cairo is asked for a drawing; no file is begun
 * then.
 */
enum exit_code sheet_command(const struct sheet_options *options);

#endif
