/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_REPORT_H
#define SILLET_COMMANDS_REPORT_H

#include <stdio.h>

#include "base/status.h"
#include "store/profile/profile.h"

/* The program's exit codes. */
enum exit_code { EXIT_GOOD = 0, EXIT_FINDINGS = 1, EXIT_USAGE = 2, EXIT_CANNOT = 3 };

/* "sillet: FILE:", with the name in full, so that tools can follow FILE:LINE, and made safe for a
 * terminal. */
void report_begin(const char *path, FILE *out);

/* "sillet: FILE:LINE: what is wrong" for every problem of at least that severity, with the
 * file's name as in report_begin. */
void report_problems(const char *path, const struct problems *problems, enum problem_severity least,
                     FILE *out);

/* One sentence about a file that could not be opened or written; `error` is the errno. */
void report_failure(const char *path, enum status status, int error, FILE *out);

/* Ends what a command printed: `code`, or EXIT_CANNOT, and says so, where standard output did not
 * take it. */
enum exit_code report_printed(enum exit_code code);

/* Adds the same sentence to `out`, without the names of the program and the file. */
void report_words(enum status status, int error, struct strbuf *out);

#endif
