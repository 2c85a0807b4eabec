/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_BENCH_BOARD_GRID_H
#define SILLET_LEAF_BENCH_BOARD_GRID_H

#include "model/figure/bench_row.h"
#include "session/app.h"

/* The columns that the readings board and the moves under it share. */
struct board_grid {
    int label, cell, side; /* widths: row label with its unit, one string, the right part */
    int columns;           /* strings */
    bool staggered;        /* cells are too narrow for amounts, which alternate between two rows */
    int side_column;       /* where the right part begins */
};

struct board_grid board_grid_for(const struct app *app, int columns);

/* The unit of a row's bare numbers, shown behind its label. */
enum unit board_row_unit(const struct app *app, const struct bench_row *row);

/* A reading's text that is too wide for its cell is replaced by its value in the row's unit. */
void board_fit_reading(const struct app *app, const struct reading_key *key, int width,
                       struct strbuf *text);

#endif
