/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_BENCH_GOAL_H
#define SILLET_MODEL_BENCH_GOAL_H

#include "model/bench_row.h"
#include "model/record_access.h"

/* What the bench's rows are to come to. */

/* What is wanted at an end, its fallback where nothing was entered; not given for nothing. */
struct entered bench_goal_at(const struct bench_row *row, const struct record *record,
                             enum bench_end end);

/* What is wanted on a string (setup_target_at); false for nothing. */
bool bench_goal_on(const struct bench_row *row, const struct record *record, int strings,
                   int string, double *ret_mm);

#endif
