/* SPDX-License-Identifier: MIT */
#include "model/setup/bench_goal.h"

#include "model/setup/setup.h"

struct maybe bench_goal_at(const struct bench_row *row, const struct record *record,
                           enum bench_end end)
{
    if (row->goal == GOAL_NONE)
        return maybe_absent();
    return record_entered_or_fallback(record, reading_key_one(row->target[end]));
}

struct maybe bench_goal_on(const struct bench_row *row, const struct record *record, int strings,
                           int string)
{
    const struct maybe bass = bench_goal_at(row, record, END_BASS);
    const struct maybe treble = bench_goal_at(row, record, END_TREBLE);

    return setup_target_at(&bass, &treble, strings, string);
}
