/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_NECK_NECK_VIEW_H
#define SILLET_LEAF_NECK_NECK_VIEW_H

#include "session/app.h"
#include "draw/pen.h"

/* The neck leaf in `rows` rows (at least 19): its readings as a form; beside it stiffness,
 * relief, wood left, router stop, tenon and neck angle, and the section at fret 1. Returns
 * the caution. */
const char *neck_view_draw(const struct pen *pen, const struct app *app, int row, int rows);

#endif
