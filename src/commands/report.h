/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_REPORT_H
#define SILLET_COMMANDS_REPORT_H

#include <stdio.h>

#include "base/status.h"
#include "store/profile.h"

/* The program's exit codes. */
enum exit_code { EXIT_GOOD = 0, EXIT_FINDINGS = 1, EXIT_USAGE = 2, EXIT_CANNOT = 3 };

/* "sillet: FILE:", the name in full and made harmless for a terminal, so that FILE:LINE can
 * be followed. */
void report_begin(const char *path, FILE *out);

/* "sillet: FILE:LINE: what is wrong" for every problem of at least that severity; the
 * file's name is made harmless for a terminal. */
void report_problems(const char *path, const struct profile_problems *problems,
                     enum profile_severity least, FILE *out);

/* One sentence on a file that could not be opened or written; `error` is its errno. */
void report_failure(const char *path, enum status status, int error, FILE *out);

/* The same sentence into `out`, without the program's and the file's name. */
void report_words(enum status status, int error, struct strbuf *out);

#endif
