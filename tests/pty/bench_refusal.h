/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_BENCH_REFUSAL_H
#define SILLET_TESTS_BENCH_REFUSAL_H

#include <stdbool.h>
#include <stddef.h>

#include "bench_command.h"

/* Checks for every file that is not a good profile. Each fails the test if it does not hold. */

/* The program's exit statuses. */
enum { FINDINGS = 1, CANNOT = 3 };

/* Refused by `figures` and by `check`: exit status 3, one sentence that holds `why`. */
void check_refused_commands(const struct bench *bench, const char *path, const char *why);

/* Refused at the terminal: the sentence on the screen that was there, no other screen. */
void check_refused_session(struct bench *bench, const char *path, const char *why);

/* Refused all three ways, the file untouched, nothing left beside it. */
void check_refused(struct bench *bench, const char *path, const char *why);

/*
 * What may be read in part: the commands do not crash, send nothing that steers a terminal
 * and leave the file untouched; with `findings_wanted` check says something.
 */
void check_survives(const struct bench *bench, const char *path, bool findings_wanted);

/* True when the bytes hold that part somewhere. */
bool bytes_hold(const char *bytes, size_t length, const char *part);

#endif
