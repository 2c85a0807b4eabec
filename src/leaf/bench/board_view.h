/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_BENCH_BOARD_VIEW_H
#define SILLET_LEAF_BENCH_BOARD_VIEW_H

#include "leaf/bench/board_under.h"

/* The readings board: a heading with the strings, and the rows, with the lines under them. Also
 * puts the cursor into the cell in hand when nothing is being typed. */
void board_view_draw(const struct pen *pen, const struct app *app, const struct board_grid *grid,
                     const struct board_under *under, int row);

enum { BOARD_VIEW_ROWS = 1 + ROW_COUNT_ }; /* without the lines under them */

#endif
