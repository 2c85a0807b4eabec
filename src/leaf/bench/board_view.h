/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_BENCH_BOARD_VIEW_H
#define SILLET_LEAF_BENCH_BOARD_VIEW_H

#include "model/figure/bench_row.h"
#include "session/app.h"
#include "draw/pen.h"

/* The columns that the readings board and the moves under it share. */
struct board_grid {
    int label, cell, side; /* widths: row label with its unit, one string, the right part */
    int columns;           /* strings */
    bool staggered;        /* cells are too narrow for amounts, which alternate between two rows */
    int side_column;       /* where the right part begins */
};

struct board_grid board_grid_for(const struct app *app, int columns);

/* The readings board: a heading with the strings, and the rows. Also puts the cursor into
 * the cell in hand when nothing is being typed. */
void board_view_draw(const struct pen *pen, const struct app *app, const struct board_grid *grid,
                     int row);

enum { BOARD_VIEW_ROWS = 1 + ROW_COUNT_ };

#endif
