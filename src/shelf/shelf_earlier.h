/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHELF_SHELF_EARLIER_H
#define SILLET_SHELF_SHELF_EARLIER_H

#include "shelf/shelf_list.h"

/* The list of earlier states that the shelf's menu opens. */

/* Shows them, the newest in hand; if there are none, says when there will be. They must stay valid
 * while the shelf is in SHELF_EARLIER. */
void shelf_earlier_take(struct shelf_list *list, const struct shelf_earlier *earlier, size_t count);

/* Takes the one `by` further down in hand; stops at the ends. */
void shelf_earlier_move(struct shelf_list *list, int by);

/* The first one on a page of that many rows that shows the one in hand. */
size_t shelf_earlier_top(const struct shelf_list *list, size_t rows);

#endif
