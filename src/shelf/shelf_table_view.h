/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHELF_SHELF_TABLE_VIEW_H
#define SILLET_SHELF_SHELF_TABLE_VIEW_H

#include "draw/pen.h"
#include "shelf/shelf_table.h"

/* The table in hand, with its question above it; it scrolls. */
void shelf_table_view_draw(const struct pen *pen, const struct shelf_list *list, int row, int rows);

#endif
