/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHEET_SHEET_MEASURE_H
#define SILLET_SHEET_SHEET_MEASURE_H

#include "model/figure/bench_row.h"
#include "sheet/sheet_parts.h"

/* Private to sheet: what the tables of readings share. */

/* A row of the bench, and what its readings are taken with. */
struct sheet_measure {
    enum bench_row_id id;
    const struct bench_row *row;
    enum field_measure gauge;
};

struct sheet_measure sheet_measure_of(const struct sheet_maker *maker, int id);

/* What a row reads as found or as left, by which of the maker's two passes `derived` is: on a
 * string, or with string 0 at an end. Absent if it was not read, or if work was done on it since.
 */
struct maybe sheet_reading_of(const struct sheet_maker *maker, const struct derived *derived,
                              const struct bench_row *row, enum bench_end end, int string);

/* Adds "action at fret 12, /64 in (mm)". */
void sheet_add_measure_name(const struct sheet_maker *maker, const struct sheet_measure *measure,
                            enum bench_end end, struct strbuf *out);

/* Adds a cell with a reading and what stands before it, such as "over "; an empty one if it is
 * absent. */
void sheet_add_reading(const struct sheet_maker *maker, const struct sheet_measure *measure,
                       const char *before, struct maybe read);

#endif
