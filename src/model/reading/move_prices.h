/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_MOVE_PRICES_H
#define SILLET_MODEL_READING_MOVE_PRICES_H

#include "base/maybe.h"
#include "model/reading/work_mark.h"

/* What the shop asks for each move; `currency` is "" if it does not say. */
struct move_prices {
    char currency[16];
    struct maybe move[MOVE_COUNT_];
};

#endif
