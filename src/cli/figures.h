/* SPDX-License-Identifier: MIT */
#ifndef SILLET_CLI_FIGURES_H
#define SILLET_CLI_FIGURES_H

#include <stdio.h>

#include "cli/report.h"
#include "model/derive.h"

/*
 * Prints every figure as INI, nine significant digits, absent figures left out, what the
 * model found as comments in front. The stream's errors are the caller's to check.
 */
void figures_print(const struct derived *derived, FILE *out);

/* `sillet figures FILE`: EXIT_FINDINGS when the profile holds an error or an impossible
 * geometry; what could be computed is printed all the same. */
enum exit_code figures_command(const char *path);

#endif
