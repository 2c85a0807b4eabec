/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHELF_SHELF_PANE_H
#define SILLET_SHELF_SHELF_PANE_H

#include "draw/pen.h"
#include "shelf/shelf_list.h"

/* The one in hand without opening it: strings, tuning, relief, action, gaps and saddle as it was
 * last left, what is wanted, and what comes next; or as an earlier visit left it (shelf_visit.h).
 * It stands beside the list where the screen is wide, else a key shows it in the list's place. */

/* The columns it takes beside the list; 0 where there is no room for it. */
int shelf_pane_columns(int frame_columns);

void shelf_pane_draw(const struct pen *pen, const struct shelf_list *list, int row, int rows,
                     int column);

#endif
