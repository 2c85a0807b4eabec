/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHELF_SHELF_MOVE_H
#define SILLET_SHELF_SHELF_MOVE_H

#include "shelf/shelf_list.h"

/* Moving through whatever the shelf shows at the moment: instruments, starting points, earlier
 * states, its keys. Moves stop at the ends. */

void shelf_move(struct shelf_list *list, int by);

/* Moves to the last one, or to the first. */
void shelf_move_to_end(struct shelf_list *list, bool last);

#endif
