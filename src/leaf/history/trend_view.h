/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_HISTORY_TREND_VIEW_H
#define SILLET_LEAF_HISTORY_TREND_VIEW_H

#include "leaf/history/history.h"
#include "draw/pen.h"

struct trend_area {
    int row, rows, column, width;
};

/*
 * One row of the history over time, with the dates spaced to scale: a heading with the unit, the
 * picture with its scale, the first and the last date. A vertical mark shows the pass `at`.
 * `record` has the texts of the dates.
 */
void trend_view_draw(const struct pen *pen, const struct record *record,
                     const struct history *history, enum history_row row, int at,
                     const struct shop_units *units, const struct trend_area *area);

/* The fewest rows in which a trend is drawn. */
enum { TREND_ROWS_MIN = 6 };

#endif
