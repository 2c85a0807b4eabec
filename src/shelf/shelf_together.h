/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHELF_SHELF_TOGETHER_H
#define SILLET_SHELF_SHELF_TOGETHER_H

#include "draw/pen.h"
#include "shelf/shelf_list.h"

/* The list of what differs between two versions of the one in hand. */

/* Shows them, the first open one in hand. */
void shelf_together_take(struct shelf_list *list, const struct shelf_together *together);

/* Takes the one `by` further down in hand; stops at the ends. */
void shelf_together_move(struct shelf_list *list, int by);

/* Draws the list, and below it all of the one in hand, in `rows` rows from `row` on. */
void shelf_together_draw(const struct pen *pen, const struct shelf_list *list, int row, int rows);

#endif
