/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SCREEN_STRIP_VIEW_H
#define SILLET_SCREEN_STRIP_VIEW_H

#include "session/leaf.h"
#include "draw/pen.h"

/* The parts that every screen has: the leaves' names under the title, the keys in the last row. */

enum { STRIP_SHELF = -1 };

/* The names from column 1 on, the current one (a leaf, or STRIP_SHELF) in brackets; the shelf
 * comes first if there is one. Returns the first column after them. */
int strip_view_names(const struct pen *pen, int row, bool has_shelf, int now);

/* A key's name and what it does, for the key line; returns the columns used. */
int strip_view_key(const struct pen *pen, int row, int column, uint32_t key, const char *hint);

/* True if the terminal is smaller than the smallest layout; then a sentence on the screen says
 * so. */
bool strip_view_too_small(const struct pen *pen);

#endif
