/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_VISITS_CSV_H
#define SILLET_COMMANDS_VISITS_CSV_H

#include <stdbool.h>
#include <stdio.h>

#include "model/record.h"

/*
 * Writes all visits of a record as CSV, a line of headings and then one record for each
 * reading and each figure:
 *
 *   visit, date, pass, pass label, key, name, string, fret, value, unit, plus or minus,
 *   known, as typed
 *
 * `pass` is empty for what belongs to the visit as a whole (climate, reason, the work done).
 * Numbers are in one unit for a kind of thing (mm, N, cents ...) whatever they were typed in;
 * "plus or minus" is expanded, k = 2, in the same unit, empty where it is not known; for a
 * reading it is what the gauge's step leaves. `known`:
 *
 *   entered      a reading
 *   derived      computed from readings
 *   assumed      taken from the neighbouring strings, or what holds where nothing is entered
 *   refused      a reading that was not understood; it stands in `as typed` alone
 *
 * *ret_fault, which is only ever set, tells that a pass holds an impossible geometry. The
 * stream's errors are the caller's.
 */
void visits_csv_print(const struct record *record, FILE *out, bool *ret_fault);

#endif
