/* SPDX-License-Identifier: MIT */
#ifndef SILLET_UI_OVERLAY_VIEW_H
#define SILLET_UI_OVERLAY_VIEW_H

#include "app/app.h"
#include "ui/pen.h"

/* The keys, from the command table; or how the figure beside the cell in hand comes about.
 * Fills the rows between the title strip and the key line. */
void overlay_view_draw(const struct pen *pen, const struct app *app, int row, int rows);

#endif
