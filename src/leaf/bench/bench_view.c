/* SPDX-License-Identifier: MIT */
#include "leaf/bench/bench_view.h"

#include "leaf/bench/board_view.h"
#include "leaf/bench/moves_view.h"
#include "leaf/bench/side_view.h"

enum {
    PICTURE_LEAST = 4, /* heading, two rows of dots, fret numbers */
    PICTURE_USUAL = 7,
    PICTURE_MAX = 20,
    MOVES_USUAL = 7, /* heading and two lines for each of three moves */
};

/* How the rows are shared out. */
struct bench_rows {
    int picture, moves;
    struct board_under under;
};

/* First every move that is due has its amount and what the gauges read afterwards, for which the
 * picture gives way; then come the lines under the readings, the moves' cautions, and the picture.
 * As typing a reading must not make the screen jump, the moves are those of the pass as kept. */
static struct bench_rows share_out(const struct app *app, const struct board_grid *grid, int rows)
{
    struct bench_rows shared;
    int least, most;

    moves_view_rows(app, grid, &least, &most);
    const int usual = MOVES_USUAL + (grid->staggered ? 2 : 0);
    const int moves = least > usual ? least : usual;
    int spare = rows - BOARD_VIEW_ROWS - PICTURE_USUAL - moves;

    shared.picture = PICTURE_USUAL + (spare < 0 ? spare : 0);
    if (shared.picture < PICTURE_LEAST)
        shared.picture = PICTURE_LEAST;
    board_under_find(app, spare > 0 ? spare : 0, &shared.under);
    spare -= shared.under.rows + (most > moves ? most - moves : 0);
    if (spare > 0)
        shared.picture += spare;
    if (shared.picture > PICTURE_MAX)
        shared.picture = PICTURE_MAX;
    shared.moves = rows - BOARD_VIEW_ROWS - shared.under.rows - shared.picture;
    return shared;
}

const char *bench_view_draw(const struct pen *pen, const struct app *app, int row, int rows)
{
    const struct board_grid grid = board_grid_for(app, pen->frame->columns);
    const struct bench_rows shared = share_out(app, &grid, rows);
    const int board = row + shared.picture;

    side_view_draw(pen, app, row, shared.picture);
    board_view_draw(pen, app, &grid, &shared.under, board);
    return moves_view_draw(pen, app, &grid, row + rows - shared.moves, shared.moves)
               ? ""
               : moves_view_caution(app);
}
