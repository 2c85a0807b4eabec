/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_FRETS_FRETS_VIEW_H
#define SILLET_LEAF_FRETS_FRETS_VIEW_H

#include "session/app.h"
#include "draw/pen.h"

/* The frets leaf in `rows` rows (at least 19): the headroom map with the notes heard, what
 * explains the buzzes, and the crowns with what levelling takes off them. */
void frets_view_draw(const struct pen *pen, const struct app *app, int row, int rows);

#endif
