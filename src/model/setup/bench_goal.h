/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SETUP_BENCH_GOAL_H
#define SILLET_MODEL_SETUP_BENCH_GOAL_H

#include "model/figure/bench_row.h"
#include "model/reading/record_access.h"
#include "model/setup/setup.h"

/* The targets of the bench's rows. */

/* The target of an end, or its fallback if none was entered. */
struct maybe bench_goal_at(const struct bench_row *row, const struct record *record,
                           enum bench_end end);

/* The target on a string (setup_target_at, string_target_action); absent if there is none. */
struct maybe bench_goal_on(const struct bench_row *row, const struct record *record,
                           const struct setup *setup, int string);

/* Whether the row is read with the string held down on fret 3. */
bool bench_goal_is_held(const struct bench_row *row, const struct setup *setup);

/* What the gauge reads on a string that is at all its targets: the target, or what it comes to held
 * down. Absent if that is not known. */
struct maybe bench_goal_read(const struct bench_row *row, const struct record *record,
                             const struct setup *setup, int string);

#endif
