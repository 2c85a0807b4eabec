/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TERM_TERMINFO_H
#define SILLET_TERM_TERMINFO_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"

/* What the terminal's terminfo entry says. */

/*
 * The name to start curses with: TERM if it is known here, else a usual one. Sends
 * nothing. STATUS_NOT_FOUND: neither is known; STATUS_DOMAIN: TERM cannot address the
 * cursor.
 */
enum status terminfo_choose(const char **ret_name);

/* Turns bracketed paste on or off; curses must be running. */
void terminfo_mark_pastes(bool on);

/* What is sent while frames are shown; curses must be running. */
enum terminfo_order {
    TERMINFO_TO_CELL,
    TERMINFO_TO_COLUMN, /* of the same row */
    TERMINFO_TO_ROW,    /* in the same column */
    TERMINFO_CLEAR_ALL, /* and to the first cell */
    TERMINFO_CLEAR_ROW, /* from the cursor on; it stays there */
    TERMINFO_CURSOR_ON,
    TERMINFO_CURSOR_OFF,
};

/* Writes the bytes of an order to `out`, at most `size`; returns their number, 0 if the terminal
 * does not know it. */
size_t terminfo_order(enum terminfo_order order, int row, int column, char *out, size_t size);

/* Those of the attributes that show beside the colour, -1 for the terminal's own. */
unsigned long terminfo_attributes(unsigned long attributes, int colour);

/* What makes characters look so: attributes of curses (A_BOLD, A_DIM, A_UNDERLINE, A_REVERSE) and a
 * colour, -1 for the terminal's own. `from_plain`: nothing else is on now; else whatever is on is
 * ended. Returns the number of bytes, at most `size`. */
size_t terminfo_look(unsigned long attributes, int colour, bool from_plain, char *out, size_t size);

struct terminfo_traits {
    bool moves_in_any_look; /* the cursor may be moved while characters do not look plain */
    bool hides_cursor;
    bool keeps_last_cell; /* a character in the last cell of the screen does not scroll it */
    bool clears_rows;
    /* A line feed goes down in the same column, and a backspace back, where there is room. */
    bool feeds_lines, steps_back;
};

/* Curses must be running. */
struct terminfo_traits terminfo_traits(void);

/* Writes the bytes that restore the terminal after a crash to `out`; curses must be running.
 * Returns their number, at most `size`. */
size_t terminfo_rescue(char *out, size_t size);

#endif
