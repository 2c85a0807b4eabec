/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHELF_SHELF_VIEW_H
#define SILLET_SHELF_SHELF_VIEW_H

#include "shelf/shelf_list.h"
#include "draw/frame.h"

/* Composes the shelf into a frame of any size, as ui_compose does for a leaf. */
void shelf_view_compose(const struct shelf_list *list, bool utf8, struct frame *frame);

/* How many instruments a frame with that many rows lists at once. For shelf_list's rows. */
int shelf_view_rows(int frame_rows);

#endif
