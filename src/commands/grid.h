/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_GRID_H
#define SILLET_COMMANDS_GRID_H

#include <stdbool.h>
#include <stddef.h>

#include "base/strbuf.h"

/* Prints a table to standard output: as CSV, or in columns that line up, where an empty column is
 * left out and a long text is printed whole. */

enum { GRID_COLUMNS_MAX = 32, GRID_TEXT_MAX = 4096 };

struct grid {
    int columns;
    size_t rows;
    const void *of;
    const char *(*heading)(const void *of, int column);
    void (*add)(const void *of, size_t row, int column, struct strbuf *out);
};

void grid_print(const struct grid *grid, bool csv);

#endif
