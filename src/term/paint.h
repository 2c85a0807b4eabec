/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TERM_PAINT_H
#define SILLET_TERM_PAINT_H

#include <stdbool.h>

#include "term/brush.h"

/*
 * The screen as the terminal shows it, and what has to be sent to change it: as few bytes as that
 * takes, all in one write, so that no half of a change is ever seen. Curses does the rest: it takes
 * the screen over, gives it back, and reads the keys. By itself it would write at each move of the
 * cursor.
 */

/* Before anything is painted. Look 0 is the plain one. */
void paint_open(const struct brush_look *looks, int count);

/* Begins a screen of this size. True if the terminal shows the one before: its rows need not be
 * given again. */
bool paint_begin(int rows, int columns);

/* One row, as wide as the screen. A cell's `role` is the number of its look here, 0 for every blank
 * that looks like a plain one; what else it holds the terminal must be able to show. */
void paint_row(int row, const struct cell *cells);

/* Ends the screen and sends it; a cursor at -1, -1 is hidden. */
void paint_end(int cursor_row, int cursor_column);

/* What the terminal shows is not known any more: the next screen is sent whole. */
void paint_forget(void);

/* Makes the terminal what curses takes it for, before that gives it back. */
void paint_leave(void);

#endif
