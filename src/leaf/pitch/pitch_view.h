/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_PITCH_PITCH_VIEW_H
#define SILLET_LEAF_PITCH_PITCH_VIEW_H

#include "session/app.h"
#include "draw/pen.h"

/* The pitch leaf in `rows` rows (at least 19): cents by string and fret, the saddle move that
 * they call for, the curve of the string in hand, and its saddle and nut in words. */
void pitch_view_draw(const struct pen *pen, const struct app *app, int row, int rows);

#endif
