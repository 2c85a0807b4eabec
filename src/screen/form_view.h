/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SCREEN_FORM_VIEW_H
#define SILLET_SCREEN_FORM_VIEW_H

#include "session/app.h"
#include "draw/pen.h"

/* The area of a form on the screen. */
struct form_area {
    int row, rows, column, width;
};

/*
 * The leaf's cells as a form, one per row: label, value, and unit or the value assumed
 * instead, with a heading wherever the profile's section changes. Scrolls so that the
 * cell in hand is visible, and puts the cursor there. Only cells first .. last are drawn.
 */
void form_view_draw(const struct pen *pen, const struct app *app, const struct form_area *area,
                    int first, int last);

#endif
