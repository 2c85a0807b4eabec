/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_HISTORY_HISTORY_VIEW_H
#define SILLET_LEAF_HISTORY_HISTORY_VIEW_H

#include "session/app.h"
#include "draw/pen.h"

/*
 * The passes side by side in `rows` rows (at least 19), the newest on the right: readings,
 * rod, climate; what changed up to the pass looked at; the trend of the row looked at, beside
 * that of the wood's moisture; notes on it.
 */
void history_view_draw(const struct pen *pen, const struct app *app, int row, int rows);

#endif
