/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SCREEN_FORM_VIEW_H
#define SILLET_SCREEN_FORM_VIEW_H

#include "session/app.h"
#include "draw/pen.h"

/* Where a form stands on the screen. */
struct form_area {
    int row, rows, column, width;
};

/*
 * The leaf's cells as a form, one row under the other: label, value, unit or what is assumed
 * in its place, with a heading wherever the profile's section changes. Scrolls so that the
 * cell in hand is seen, and puts the cursor there. Only cells first .. last are drawn.
 */
void form_view_draw(const struct pen *pen, const struct app *app, const struct form_area *area,
                    int first, int last);

/* A cell's text as it is shown, and its role. */
enum role form_cell_text(const struct app *app, const struct route_cell *cell, struct strbuf *out);

#endif
