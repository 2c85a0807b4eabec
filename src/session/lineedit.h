/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_LINEEDIT_H
#define SILLET_SESSION_LINEEDIT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* One line being typed: characters go to the cursor, Backspace takes the one before it away. */
enum { LINEEDIT_MAX = 400 };

struct lineedit {
    char text[LINEEDIT_MAX + 1]; /* terminated; UTF-8, but for what a text began with */
    size_t length;
    size_t cursor; /* the byte that the next character goes before, never inside a character */
};

void lineedit_clear(struct lineedit *line);
bool lineedit_is_empty(const struct lineedit *line);

/* Puts a character in at the cursor; false when it does not fit any more. */
bool lineedit_add(struct lineedit *line, uint32_t rune);

/* Begins with a text, the cursor at its end; false, the line empty, when it does not fit. */
bool lineedit_set(struct lineedit *line, const char *text);

/* Takes the character before the cursor away, or the one behind it, or a byte that belongs to
 * none; false when there is none. */
bool lineedit_backspace(struct lineedit *line);
bool lineedit_delete(struct lineedit *line);

/* Moves the cursor by Left, Right, Home and End, and clears the line by Ctrl-U; false for any
 * other key. */
bool lineedit_move(struct lineedit *line, uint32_t key);

#endif
