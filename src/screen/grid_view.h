/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SCREEN_GRID_VIEW_H
#define SILLET_SCREEN_GRID_VIEW_H

#include "session/app.h"
#include "draw/pen.h"

/*
 * A table that is too wide or too long for its area on the screen: a window over its columns and
 * rows that moves by half its size, so that it keeps the cell in hand in view and seldom moves.
 */

/* The area for the window, and the width of a column including the blank before it. */
struct grid_room {
    int row, rows, column, width, cell;
};

struct grid {
    struct grid_room room;
    int rows, columns; /* of the whole table */
    int top, left;     /* the first row and column in the window */
    int shown_rows, shown_columns;
};

/* The window over a table of that size that shows (at_row, at_column). */
struct grid grid_fit(const struct grid_room *room, int rows, int columns, int at_row,
                     int at_column);

/* The screen column of a table's column, and the screen row of a row; -1 if it is not
 * in the window. */
int grid_column(const struct grid *grid, int column);
int grid_row(const struct grid *grid, int row);

/* Fret numbers over the columns, starting with `first`, as many as fit; `at` is the one in hand
 * (-1: none). < and > before and after the window show that there are more to either side. */
void grid_draw_numbers(const struct pen *pen, const struct grid *grid, int row, int first, int at);

/* ^ and v before the first and the last row in the window, if there are more rows beyond. */
void grid_draw_more(const struct pen *pen, const struct grid *grid, int column);

/* Draws a reading's cell, flush right: the reading as typed, cut if need be, or the text being
 * typed, or '-' if nothing was read. Puts the cursor there if the cell is in hand. `cell` belongs
 * to the app's route. */
void grid_draw_cell(const struct pen *pen, const struct app *app, const struct route_cell *cell,
                    int row, int column, int width);

/* The same of what is read of a string, or of its course. */
void grid_draw_read(const struct pen *pen, const struct app *app, int string, int row, int column,
                    int width);

/* A string's number and note before its row. */
void grid_draw_string(const struct pen *pen, const struct app *app, int string, int row, int column,
                      int width);

#endif
