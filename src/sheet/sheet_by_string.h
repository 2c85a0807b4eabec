/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHEET_SHEET_BY_STRING_H
#define SILLET_SHEET_SHEET_BY_STRING_H

#include "sheet/sheet_measure.h"

/* Private to sheet: the table of the rows with a reading per string. */

/* One of those rows, and which columns there are of it. */
struct sheet_group {
    struct sheet_measure measure;
    bool found, left, wanted;
};

/* All that the page has room for, and how many columns they take; 0 if none was read. */
struct sheet_by_string {
    struct sheet_group group[ROW_COUNT_];
    int count, columns;
};
void sheet_find_by_string(const struct sheet_maker *maker, struct sheet_by_string *ret_table);

/* Adds the table, with the states below its columns. */
void sheet_add_by_string(struct sheet_maker *maker, const struct sheet_by_string *table);

#endif
