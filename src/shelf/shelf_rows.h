/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHELF_SHELF_ROWS_H
#define SILLET_SHELF_SHELF_ROWS_H

#include "shelf/shelf_list.h"
#include "draw/pen.h"

/* The shelf's list: a heading and one row for each instrument found, over the first `columns` of
 * the frame. Puts the cursor on the current one. */
void shelf_rows_draw(const struct pen *pen, const struct shelf_list *list, int row, int rows,
                     int columns);

#endif
