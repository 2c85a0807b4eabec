/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_PITCH_CENTS_VIEW_H
#define SILLET_LEAF_PITCH_CENTS_VIEW_H

#include "session/app.h"
#include "draw/pen.h"

/*
 * The cents of the string in hand along its frets, in `rows` rows (at least 5): a heading,
 * the predicted and the best curve, the readings as marks, the zero line, the
 * band that counts as in tune, and the fret numbers. `fret` is the one in hand, 0 for none.
 */
void cents_view_draw(const struct pen *pen, const struct app *app, int fret, int row, int rows);

#endif
