/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_WITH_RECORD_H
#define SILLET_COMMANDS_WITH_RECORD_H

#include "commands/report.h"
#include "model/record.h"

/* What a command makes of a record; `options` are its own. */
typedef enum exit_code record_work(const void *options, const struct record *record);

/* Opens a profile for reading, names its errors on stderr and does the work on its record.
 * EXIT_CANNOT where it cannot be opened; EXIT_FINDINGS for good work on a file with errors. */
enum exit_code with_record(const char *path, record_work *work, const void *options);

#endif
