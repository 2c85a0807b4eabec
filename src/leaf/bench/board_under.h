/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_BENCH_BOARD_UNDER_H
#define SILLET_LEAF_BENCH_BOARD_UNDER_H

#include "draw/pen.h"
#include "leaf/bench/board_grid.h"

/*
 * Dim lines under the rows of the readings board, where the screen has room for them. They are of
 * the pass as kept, whatever is being typed.
 */
enum board_under_line {
    UNDER_LEFT,     /* as the latest earlier visit left it */
    UNDER_BELIEVED, /* what all passes of the visit tell, and how sure that is */
    UNDER_THEN,     /* what the gauges read once the moves that are due are made */
    UNDER_COUNT_
};

struct board_under {
    bool line[ROW_COUNT_][UNDER_COUNT_];
    int rows; /* a row that is read once has all its lines in one */
};

/* Which lines have something to say, in at most `most` rows. What comes of the moves goes before
 * what was left, and that before what is believed. */
void board_under_find(const struct app *app, int most, struct board_under *ret_under);

/* Draws a row's lines from screen row `at` on; returns how many rows they took. */
int board_under_draw(const struct pen *pen, const struct app *app, const struct board_grid *grid,
                     const struct board_under *under, enum bench_row_id id, int at);

#endif
