/* SPDX-License-Identifier: MIT */
#ifndef SILLET_WORDS_EXPLAIN_ITEM_H
#define SILLET_WORDS_EXPLAIN_ITEM_H

#include "model/derive/derive.h"

/* Lengths of the setup that are neither readings nor figures. */
enum setup_item {
    ITEM_X_FIRST,
    ITEM_X_ACTION,
    ITEM_X_LOW_END,
    ITEM_X_HIGH_END,
    ITEM_X_HEEL,
    ITEM_CONTACT,
    ITEM_REACH,
    ITEM_Z_FIRST,
    ITEM_Z_ACTION,
    ITEM_Z_FIRST_AFTER,
    ITEM_Z_ACTION_AFTER,
    ITEM_ACTION_WANTED,
    ITEM_GAP_WANTED,
};

/* One of them, in mm, for a string or LANE_MIDDLE. Absent where the board, the curve that it lies
 * on or the target is not known. */
struct maybe explain_item(const struct derived *derived, enum setup_item item, int lane);

#endif
