/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_FIGURES_COMMAND_H
#define SILLET_COMMANDS_FIGURES_COMMAND_H

#include "commands/figures_options.h"
#include "commands/printer.h"
#include "commands/report.h"
#include "model/derive/derive.h"

/* Prints every figure as INI, without the absent ones, after the model's findings as
 * comments. */
void figures_print(const struct derived *derived, struct printer *printer);

/* `sillet figures`: EXIT_FINDINGS if the profile holds an error or an impossible geometry;
 * what could be computed is printed all the same. EXIT_USAGE, with nothing printed, if a tuning
 * or set is for another number of strings. */
enum exit_code figures_command(const struct figures_options *options);

#endif
