/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_BENCH_MOVES_VIEW_H
#define SILLET_LEAF_BENCH_MOVES_VIEW_H

#include "leaf/bench/board_view.h"

/*
 * The next moves, under the readings board's columns, in `rows` rows: a heading; for each
 * move its amounts; then, as far as there is room, what the gauge reads afterwards and the
 * cautions. True if every caution fits.
 */
bool moves_view_draw(const struct pen *pen, const struct app *app, const struct board_grid *grid,
                     int row, int rows);

/* The caution of the first move that is due; "" if none is. */
const char *moves_view_caution(const struct app *app);

#endif
