/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_BENCH_BENCH_VIEW_H
#define SILLET_LEAF_BENCH_BENCH_VIEW_H

#include "session/app.h"
#include "draw/pen.h"

/* The bench leaf between the title strip and the entry line: side view, readings board,
 * moves, in `rows` rows (at least 19). Returns the caution that did not fit there; "" for none.
 */
const char *bench_view_draw(const struct pen *pen, const struct app *app, int row, int rows);

#endif
