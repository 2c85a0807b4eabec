/* SPDX-License-Identifier: MIT */
#ifndef SILLET_UI_SHELF_VIEW_H
#define SILLET_UI_SHELF_VIEW_H

#include "app/shelf_list.h"
#include "ui/frame.h"

/* Composes the shelf into a frame of any size, like ui_compose. */
void shelf_view_compose(const struct shelf_list *list, bool utf8, struct frame *frame);

/* How many instruments such a frame lists at once: for shelf_list's rows. */
int shelf_view_rows(int frame_rows);

#endif
