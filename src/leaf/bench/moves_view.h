/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_BENCH_MOVES_VIEW_H
#define SILLET_LEAF_BENCH_MOVES_VIEW_H

#include "draw/pen.h"
#include "leaf/bench/board_grid.h"

/*
 * The next moves, under the readings board's columns, in `rows` rows: a heading; for each
 * move its amounts and what the gauge reads afterwards, or where that is to be found; then, as far
 * as there is room, the cautions. True if every caution fits.
 */
bool moves_view_draw(const struct pen *pen, const struct app *app, const struct board_grid *grid,
                     int row, int rows);

/* The rows that it takes for the moves of the pass as kept, without the cautions and with them. */
void moves_view_rows(const struct app *app, const struct board_grid *grid, int *ret_least,
                     int *ret_most);

/* The caution of the first move that is due; "" if none is. */
const char *moves_view_caution(const struct app *app);

#endif
