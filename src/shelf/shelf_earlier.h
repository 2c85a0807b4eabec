/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHELF_SHELF_EARLIER_H
#define SILLET_SHELF_SHELF_EARLIER_H

#include "shelf/shelf_list.h"

/* The list of earlier states that the shelf's menu opens. */

/* Shows them, the newest in hand; where there are none, says when there will be. They have to
 * stay while the shelf is in SHELF_EARLIER. */
void shelf_earlier_take(struct shelf_list *list, const struct shelf_earlier *earlier, size_t count);

/* Takes another one in hand, `by` further down. */
void shelf_earlier_move(struct shelf_list *list, int by);

/* The first of them on a page of so many rows, so that the one in hand is on it. */
size_t shelf_earlier_top(const struct shelf_list *list, size_t rows);

#endif
