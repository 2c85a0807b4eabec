/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHELF_SHELF_FOOT_VIEW_H
#define SILLET_SHELF_SHELF_FOOT_VIEW_H

#include "draw/pen.h"
#include "shelf/shelf_list.h"

/* The last rows of the shelf: what is said, what is typed, and the keys. */

enum { SHELF_FOOT_ROWS = 3 };

/* Draws them from `row` on. The cursor goes to what is typed unless the list has it. */
void shelf_foot_view_draw(const struct pen *pen, const struct shelf_list *list, int row);

#endif
