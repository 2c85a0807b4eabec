/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TERM_BRUSH_H
#define SILLET_TERM_BRUSH_H

#include <stdbool.h>

#include "draw/frame.h"

/*
 * What the terminal writes with: a place, where the next character goes, and a look that it gets.
 * To move the one and change the other takes more bytes than most of what is written, so both are
 * done by the shortest of several ways. All is kept until it is sent.
 */

enum { BRUSH_LOOKS_MAX = 32, BRUSH_LOOK_BYTES = 96, BRUSH_PLAIN = 0 };

/* The bytes that begin a look: after any other, and after the plain one or any other that has less
 * of the same. */
struct brush_look {
    char bytes[BRUSH_LOOK_BYTES], from_plain[BRUSH_LOOK_BYTES];
    int length, from_plain_length;
    unsigned long attributes; /* of curses */
    bool coloured;
    bool marks_blanks; /* a blank looks otherwise than a plain one */
};

/* Look 0 is the plain one. */
void brush_open(const struct brush_look *looks, int count);

/* Takes it up where nothing is known of the terminal but its size. */
void brush_begin(int columns);

/* A row's cells: their `role` is the number of a look, BRUSH_PLAIN for every blank that looks like
 * a plain one. */

bool brush_is_plain_blank(const struct cell *cell);

/* Whether such a blank may be written in this look; false for one below 0. */
bool brush_blanks_in(int look);

/* The columns of the character that begins at a column. */
int brush_width(const struct cell *cells, int column);

/* To a cell; `cells` are those of its row, as the terminal shows them or is about to. */
void brush_move(int row, int column, const struct cell *cells);

/* Writes the cell that it is on. Returns the column after it. */
int brush_put(const struct cell *cells, int column);

/* Blanks a row from a column on; the terminal must be able to (terminfo_traits). */
void brush_clear_row(int row, int column, const struct cell *cells);

/* Blanks all; false if the terminal cannot. */
bool brush_clear_screen(void);

/* Takes the plain look, and shows or hides the cursor. */
void brush_put_down(bool cursor_shown);

/* Sends all in one write. False if the terminal did not take it. */
bool brush_send(void);

#endif
