/* SPDX-License-Identifier: MIT */
#ifndef SILLET_APP_LINEEDIT_H
#define SILLET_APP_LINEEDIT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* One line being typed: characters go to the end, Backspace takes the last one away. */
enum { LINEEDIT_MAX = 400 };

struct lineedit {
    char text[LINEEDIT_MAX + 1]; /* UTF-8, terminated */
    size_t length;
};

void lineedit_clear(struct lineedit *line);
bool lineedit_is_empty(const struct lineedit *line);

/* Adds a character; false when it does not fit any more. */
bool lineedit_add(struct lineedit *line, uint32_t rune);

/* Begins with a text; false, the line empty, when it does not fit. */
bool lineedit_set(struct lineedit *line, const char *text);

/* Takes the last character away; false when there is none. */
bool lineedit_backspace(struct lineedit *line);

#endif
