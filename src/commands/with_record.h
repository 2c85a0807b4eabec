/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_WITH_RECORD_H
#define SILLET_COMMANDS_WITH_RECORD_H

#include "commands/report.h"
#include "model/reading/record.h"

/* The work of a command on a record; `options` are the command's own. */
typedef enum exit_code record_work(const void *options, const struct record *record);

/* Opens a profile for reading, prints its problems from a severity on to stderr and does the work
 * on its record. EXIT_CANNOT if it cannot be opened; EXIT_FINDINGS if the work succeeds on a file
 * with errors. */
enum exit_code with_record(const char *path, enum problem_severity least, record_work *work,
                           const void *options);

#endif
