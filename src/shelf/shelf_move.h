/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHELF_SHELF_MOVE_H
#define SILLET_SHELF_SHELF_MOVE_H

#include "shelf/shelf_list.h"

/* Moving through whatever the shelf lists at the moment: instruments, starting points, earlier
 * states, its keys. */

void shelf_move(struct shelf_list *list, int by);

/* To the last, or the first. */
void shelf_move_to_end(struct shelf_list *list, bool last);

#endif
