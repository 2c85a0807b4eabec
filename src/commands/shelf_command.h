/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_SHELF_COMMAND_H
#define SILLET_COMMANDS_SHELF_COMMAND_H

#include "commands/report.h"

/*
 * `sillet shelf [--shelf FOLDER] [--csv] [WORDS]`: lists the instruments on file, the newest
 * first; with words, only those that match every word. Aligned columns, or CSV with a
 * line of headings. What must not reach a terminal is written as U+FFFD.
 *
 * EXIT_FINDINGS if one that is listed cannot be opened; EXIT_CANNOT if the folder cannot
 * be listed (one given by name has to exist) or the output cannot be written.
 */
enum exit_code shelf_command(int count, char *const *words);

#endif
