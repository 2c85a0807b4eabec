/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_NECK_SECTION_VIEW_H
#define SILLET_LEAF_NECK_SECTION_VIEW_H

#include "session/app.h"
#include "screen/form_view.h"
#include "draw/pen.h"

enum { SECTION_VIEW_ROWS_MIN = 5 }; /* heading, three rows of dots, the scale's numbers */

/*
 * The cross-section of the neck at fret 1, in true proportions over a scale in the shop's unit:
 * board, shaft, slot, recut, rod; the size in hand is marked. Draws nothing if the outline is not
 * known.
 */
void section_view_draw(const struct pen *pen, const struct app *app, const struct form_area *area);

#endif
