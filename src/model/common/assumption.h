/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_COMMON_ASSUMPTION_H
#define SILLET_MODEL_COMMON_ASSUMPTION_H

#include "model/common/spread.h"

/* What is assumed, and how surely, in one table (assumption_table.h). */
enum assumption_id {
#define ASSUMPTION(id, ...) ASSUME_##id,
#include "model/common/assumption_table.h"
#undef ASSUMPTION
    ASSUMPTION_COUNT_
};

struct assumption {
    double value, u; /* u: standard uncertainty */
    bool is_share;
};

const struct assumption *assumption_get(enum assumption_id id);

/* A number that is known as surely as that row says. */
struct assumed assumption_of(double *number, enum assumption_id id);

#endif
