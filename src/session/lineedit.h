/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_LINEEDIT_H
#define SILLET_SESSION_LINEEDIT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* One line being typed: characters are inserted at the cursor, Backspace deletes the one before
 * it. */
enum { LINEEDIT_MAX = 400 };

struct lineedit {
    char text[LINEEDIT_MAX + 1]; /* terminated; UTF-8, except in what lineedit_set was given */
    size_t length;
    size_t cursor; /* the byte that the next character goes before, never inside a character */
};

void lineedit_clear(struct lineedit *line);
bool lineedit_is_empty(const struct lineedit *line);

/* Inserts a character at the cursor; false if it does not fit. */
bool lineedit_add(struct lineedit *line, uint32_t rune);

/* Sets the text, the cursor at its end; false, the line empty, if it does not fit. */
bool lineedit_set(struct lineedit *line, const char *text);

/* Deletes the character before the cursor, or the one after it; a byte of no valid character counts
 * as one. False if there is none. */
bool lineedit_backspace(struct lineedit *line);
bool lineedit_delete(struct lineedit *line);

/* Moves the cursor for Left, Right, Home and End, and clears the line for Ctrl-U; false for any
 * other key. */
bool lineedit_move(struct lineedit *line, uint32_t key);

#endif
