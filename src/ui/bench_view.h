/* SPDX-License-Identifier: MIT */
#ifndef SILLET_UI_BENCH_VIEW_H
#define SILLET_UI_BENCH_VIEW_H

#include "app/app.h"
#include "ui/pen.h"

/* The bench leaf between the title strip and the entry line: side view, readings board,
 * moves, in `rows` rows (at least 19). True when the moves stand with all their cautions. */
bool bench_view_draw(const struct pen *pen, const struct app *app, int row, int rows);

#endif
