/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SCREEN_GRID_VIEW_H
#define SILLET_SCREEN_GRID_VIEW_H

#include "session/app.h"
#include "draw/pen.h"

/*
 * A table wider or longer than its place on the screen: a window over its columns and rows
 * that moves by half its size, so that the cell in hand is seen and the rest stands still.
 */

/* Where the window stands and how wide a column is, the blank before it included. */
struct grid_room {
    int row, rows, column, width, cell;
};

struct grid {
    struct grid_room room;
    int rows, columns; /* of the whole table */
    int top, left;     /* the first row and column in the window */
    int shown_rows, shown_columns;
};

/* The window over a table of that size in which (at_row, at_column) is seen. */
struct grid grid_fit(const struct grid_room *room, int rows, int columns, int at_row,
                     int at_column);

/* The screen column of a table's column, and the screen row of a row; -1 where it is not
 * in the window. */
int grid_column(const struct grid *grid, int column);
int grid_row(const struct grid *grid, int row);

/* Fret numbers over the columns, the first column's being `first`, as many as find room;
 * `at` is the one in hand (-1: none). < and > where there are more to either side, in the
 * columns before and behind the window. */
void grid_draw_numbers(const struct pen *pen, const struct grid *grid, int row, int first, int at);

/* ^ and v before the first and the last row in the window where there are more beyond. */
void grid_draw_more(const struct pen *pen, const struct grid *grid, int column);

/* A reading's cell of that width, flush right: the reading as typed or as far as it fits,
 * what is being typed, '-' where nothing was read. Puts the cursor there when it is in
 * hand. `cell` belongs to the app's route. */
void grid_draw_cell(const struct pen *pen, const struct app *app, const struct route_cell *cell,
                    int row, int column, int width);

/* A string's number and note before its row. */
void grid_draw_string(const struct pen *pen, const struct app *app, int string, int row, int column,
                      int width);

#endif
