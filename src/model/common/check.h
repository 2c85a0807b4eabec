/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_COMMON_CHECK_H
#define SILLET_MODEL_COMMON_CHECK_H

#include <math.h>
#include <stdbool.h>

#include "base/status.h"

/* The guards at the door of the model's formulas. All are false for NaN. */

static inline bool check_is_positive(double value)
{
    return isfinite(value) && value > 0;
}

static inline bool check_is_not_negative(double value)
{
    return isfinite(value) && value >= 0;
}

static inline bool check_is_within(double value, double least, double most)
{
    return value >= least && value <= most;
}

/* Hands a result out only when it is a number: STATUS_RANGE after an overflow. */
static inline enum status check_give(double value, double *ret_value)
{
    if (!isfinite(value))
        return STATUS_RANGE;
    *ret_value = value;
    return STATUS_OK;
}

#endif
