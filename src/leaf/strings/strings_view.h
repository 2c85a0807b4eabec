/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_STRINGS_STRINGS_VIEW_H
#define SILLET_LEAF_STRINGS_STRINGS_VIEW_H

#include "session/app.h"
#include "draw/pen.h"

/* The strings leaf in `rows` rows (at least 19): the set as a table with each string's pull and
 * stress; the what-if, if any, beside it; what it means for the neck; the pulls as bars, if there
 * is room. Returns the caution. */
const char *strings_view_draw(const struct pen *pen, const struct app *app, int row, int rows);

#endif
