/* SPDX-License-Identifier: MIT */
#ifndef SILLET_UI_FRETS_VIEW_H
#define SILLET_UI_FRETS_VIEW_H

#include "app/app.h"
#include "ui/pen.h"

/* The frets leaf in `rows` rows (at least 19): the headroom map with what was heard, what
 * explains it, and the crowns with what levelling takes off them. */
void frets_view_draw(const struct pen *pen, const struct app *app, int row, int rows);

#endif
