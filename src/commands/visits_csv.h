/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_VISITS_CSV_H
#define SILLET_COMMANDS_VISITS_CSV_H

#include <stdbool.h>
#include <stdio.h>

#include "model/reading/record.h"

/*
 * Writes all visits of a record as CSV, one line for each reading and each figure, with these
 * columns:
 *
 *   file, visit, date, pass, pass label, key, name, string, fret, value, unit, plus or minus,
 *   known, as typed
 *
 * `file` is there only if one is given. `pass` is empty for what belongs to the visit as a whole
 * (climate, reason, the work done). Numbers are in one unit for each kind (mm, N, cents ...)
 * whatever they were typed in; "plus or minus" is the expanded uncertainty, k = 2, in the same
 * unit, empty if it is not known; for a reading it follows from the gauge's step. `known`:
 *
 *   entered      a reading
 *   derived      computed from readings
 *   assumed      from the neighbouring strings, or a default
 *   refused      a reading that was not understood; it is only in `as typed`
 *
 * *ret_fault is set to true if a pass holds an impossible geometry, and never cleared. The
 * caller checks the stream for errors.
 */
void visits_csv_print(const char *file, const struct record *record, FILE *out, bool *ret_fault);

/* The line of headings that comes before them. */
void visits_csv_print_headings(bool with_file, FILE *out);

#endif
