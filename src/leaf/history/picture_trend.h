/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_HISTORY_PICTURE_TREND_H
#define SILLET_LEAF_HISTORY_PICTURE_TREND_H

#include "leaf/history/history.h"
#include "picture/picture.h"

/*
 * Draws a row of the history over time, in days and in the row's unit: bass as the main line,
 * treble beside it, a post at the pass `at`. Its ticks are the first and the last pass that it
 * shows. False if it has nothing to show.
 */
bool picture_trend(struct picture *ret_picture, const struct history *history, enum history_row row,
                   int at, const struct shop_units *units);

#endif
