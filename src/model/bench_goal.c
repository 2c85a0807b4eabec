/* SPDX-License-Identifier: MIT */
#include "model/bench_goal.h"

#include "model/setup.h"

struct entered bench_goal_at(const struct bench_row *row, const struct record *record,
                             enum bench_end end)
{
    struct entered target = {.given = false};

    if (row->goal != GOAL_NONE) {
        const struct reading_key key = reading_key_one(row->target[end]);

        target.given = record_value_or_fallback(record, &key, &target.value);
    }
    return target;
}

bool bench_goal_on(const struct bench_row *row, const struct record *record, int strings,
                   int string, double *ret_mm)
{
    const struct entered bass = bench_goal_at(row, record, END_BASS);
    const struct entered treble = bench_goal_at(row, record, END_TREBLE);

    return setup_target_at(&bass, &treble, strings, string, ret_mm);
}
