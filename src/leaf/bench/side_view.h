/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_BENCH_SIDE_VIEW_H
#define SILLET_LEAF_BENCH_SIDE_VIEW_H

#include "session/app.h"
#include "draw/pen.h"

/*
 * The neck from the side under one string: the crowns, the string now and after the moves,
 * and a mark where the reading in hand is taken. Heights are exaggerated, and the
 * heading says by how much. Uses `rows` rows: a heading, the picture, the fret numbers.
 */
void side_view_draw(const struct pen *pen, const struct app *app, int row, int rows);

#endif
