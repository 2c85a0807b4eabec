/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_BUILD_RECORD_H
#define SILLET_TESTS_BUILD_RECORD_H

#include "model/derive/derive.h"
#include "model/reading/record.h"

/*
 * Records for tests, written like a profile but with the section on every line: section, blank,
 * key, " = ", value; blank lines are skipped. A line that names no field, or whose value
 * is refused, fails the test. In a change "absent" is what it is in a profile.
 */

/* A new record with these lines. The caller ends it with record_done. */
void build_record(struct record *ret_record, const char *lines);

/* Adds lines to a record, replacing readings that it already has. */
void build_record_add(struct record *record, const char *lines);

/* Adds one reading under a key, its value in mm. */
void build_record_put_mm(struct record *record, struct reading_key key, double value_mm);

/* What is derived from a record with `lines` and `more`, in its current pass. */
struct derived build_derived(const char *lines, const char *more);

/* Takes "section key" out; fails the test if it is not there. */
void build_record_drop(struct record *record, const char *line);

/* A six-string of 24.9 in scale with 19 frets and a screw bridge, in its first pass, with every
 * set-up reading and target: relief, nut gap and action are high, the saddle is enough. */
extern const char build_record_full[];

#endif
