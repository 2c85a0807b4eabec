/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SCREEN_LINE_VIEW_H
#define SILLET_SCREEN_LINE_VIEW_H

#include "session/lineedit.h"
#include "draw/pen.h"

/* Shows a line being typed in `room` columns; if it is longer, the part around its cursor.
 * Returns the columns used; *ret_cursor is the screen column of the cursor. */
int line_view_draw(const struct pen *pen, int row, int column, int room,
                   const struct lineedit *line, int *ret_cursor);

#endif
