/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SCREEN_LINE_VIEW_H
#define SILLET_SCREEN_LINE_VIEW_H

#include "session/lineedit.h"
#include "draw/pen.h"

/* Shows a line being typed in `room` columns, of a longer one the part around its cursor.
 * Returns how many columns it took; *ret_cursor is the column of the cursor on the screen. */
int line_view_draw(const struct pen *pen, int row, int column, int room,
                   const struct lineedit *line, int *ret_cursor);

#endif
