/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_COMMON_DAY_H
#define SILLET_MODEL_COMMON_DAY_H

#include <stdbool.h>

#include "base/status.h"
#include "base/strbuf.h"

/* Days of the Gregorian calendar: as a profile keeps them, and as people type them. */

struct day {
    int year, month, day; /* 1 to 12, 1 to 31 */
};

/* Whether the calendar has it, from the year 0 to 9999. */
bool day_is_real(const struct day *day);

/* Reads "2026-03-02" at the front of a text, whatever follows. False, *ret_day untouched, where
 * that is not there or is no day of the calendar. */
bool day_parse(const char *text, struct day *ret_day);

/* Appends it so, "2026-03-02". */
void day_add(const struct day *day, struct strbuf *out);

/* Appends it for a person: "Monday, 2 March 2026". */
void day_add_words(const struct day *day, struct strbuf *out);

/* Days since the first of March of the year 0, and the day that many days after it. */
int day_number(const struct day *day);
struct day day_of_number(int number);

/* Why a typed day was refused. */
struct day_fault {
    char words[100]; /* a sentence: what is wrong; what is accepted */
};

/* What is typed of days: such that have been, or such that are to come. */
enum day_way { DAY_LAST, DAY_NEXT };

/* Whether a day is typed as so many days from today, "yesterday" or "14", not by its date. */
bool day_is_counted(const char *text, enum day_way way);

/*
 * Reads a day as people type it:
 *   today, yesterday, and their beginnings; 0, -1, -14: today, and so many days back
 *   tomorrow; 1, 14, +14: so many days on; only where days are to come
 *   2026-6-24, 2026.6.24, 2026/6/24, 20260624: the year first
 *   24.6.2026, 24.6.26, 24.6.: points, the day first; without a year the last such day, or the next
 *   24 June 2026, jun 24: with a month's name, or the first three letters of it or more
 *   6/24/2026, 24/6/26, 24-6-2026: where only one of the two can be the month
 * A comma counts as a point. `today` is the day of the clock. STATUS_SYNTAX for what is no day
 * or could be two, STATUS_RANGE for one that the calendar does not have.
 */
enum status day_read(const char *text, const struct day *today, enum day_way way,
                     struct day *ret_day, struct day_fault *ret_fault);

#endif
