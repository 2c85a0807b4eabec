/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHELF_SHELF_JOURNAL_VIEW_H
#define SILLET_SHELF_SHELF_JOURNAL_VIEW_H

#include "draw/pen.h"
#include "shelf/shelf_list.h"

/* Draws the journal (shelf_journal.h), from list->help_top lines on. */
void shelf_journal_view_draw(const struct pen *pen, const struct shelf_list *list, int row,
                             int rows);

#endif
