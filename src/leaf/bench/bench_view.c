/* SPDX-License-Identifier: MIT */
#include "leaf/bench/bench_view.h"

#include "leaf/bench/board_view.h"
#include "leaf/bench/moves_view.h"
#include "leaf/bench/side_view.h"

enum {
    PICTURE_MIN = 7, /* heading, five rows of dots, fret numbers */
    PICTURE_MAX = 20,
    MOVES_MIN = 7,  /* heading and two lines for each of three moves */
    MOVES_MAX = 13, /* the same for four, with their cautions */
};

/* The rows for the picture: its minimum and half of the rows that the smallest layout leaves. */
static int picture_rows(int rows, const struct board_grid *grid)
{
    const int moves = MOVES_MIN + (grid->staggered ? 2 : 0);
    const int spare = rows - PICTURE_MIN - BOARD_VIEW_ROWS - moves;
    int picture = PICTURE_MIN + (spare > 0 ? spare / 2 : spare);

    /* Rows that the moves do not need go to the picture. */
    if (rows - picture - BOARD_VIEW_ROWS > MOVES_MAX)
        picture = rows - BOARD_VIEW_ROWS - MOVES_MAX;
    return picture < PICTURE_MAX ? picture : PICTURE_MAX;
}

const char *bench_view_draw(const struct pen *pen, const struct app *app, int row, int rows)
{
    const struct board_grid grid = board_grid_for(app, pen->frame->columns);
    const int picture = picture_rows(rows, &grid);
    const int moves = rows - picture - BOARD_VIEW_ROWS;

    side_view_draw(pen, app, row, picture);
    board_view_draw(pen, app, &grid, row + picture);
    return moves_view_draw(pen, app, &grid, row + picture + BOARD_VIEW_ROWS, moves)
               ? ""
               : moves_view_caution(app);
}
