/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SETUP_BENCH_GOAL_H
#define SILLET_MODEL_SETUP_BENCH_GOAL_H

#include "model/figure/bench_row.h"
#include "model/reading/record_access.h"

/* The targets of the bench's rows. */

/* The target of an end, or its fallback if none was entered. */
struct maybe bench_goal_at(const struct bench_row *row, const struct record *record,
                           enum bench_end end);

/* The target on a string (setup_target_at); absent if there is none. */
struct maybe bench_goal_on(const struct bench_row *row, const struct record *record, int strings,
                           int string);

#endif
