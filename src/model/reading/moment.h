/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_MOMENT_H
#define SILLET_MODEL_READING_MOMENT_H

#include "base/maybe.h"
#include "model/reading/record.h"

/* When things were done, as days since the first of March of the year 0 with their fraction:
 * for putting visits, passes and work in order and on an axis. Gregorian throughout. */

/*
 * A date "2026-03-02" with a time "10:42" or "10:42:07"; a time that brings its own date
 * ("2026-03-03T10:42") has it count instead. `time` NULL is the day's beginning; `date` NULL
 * is allowed with a time that has its own. Absent for any other text.
 */
struct maybe moment_find(const char *date, const char *time);

/* When a pass or a work line was, from the time under `key` and its visit's date; the date
 * alone serves where no time is given and `key` names a pass. */
struct maybe moment_of(const struct record *record, const struct reading_key *key);

/* A day of a visit, under FIELD_VISIT_DATE or another of its dates; absent if none was entered. */
struct maybe moment_of_day(const struct record *record, enum field_id date, int visit);

#endif
