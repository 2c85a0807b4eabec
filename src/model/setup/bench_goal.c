/* SPDX-License-Identifier: MIT */
#include "model/setup/bench_goal.h"

#include "model/setup/belief_line.h"
#include "model/setup/string_target.h"

struct maybe bench_goal_at(const struct bench_row *row, const struct record *record,
                           enum bench_end end)
{
    if (row->goal == GOAL_NONE)
        return maybe_absent();
    return record_entered_or_fallback(record, reading_key_one(row->target[end]));
}

struct maybe bench_goal_on(const struct bench_row *row, const struct record *record,
                           const struct setup *setup, int string)
{
    if (row->over_bridge && setup->outfit.from_fret[string] > 0)
        return string_target_action(setup, string);
    const struct maybe bass = bench_goal_at(row, record, END_BASS);
    const struct maybe treble = bench_goal_at(row, record, END_TREBLE);

    return setup_target_at(&bass, &treble, &setup->outfit, string);
}

bool bench_goal_is_held(const struct bench_row *row, const struct setup *setup)
{
    return row->read_held && setup->nut_method == NUT_HELD_3;
}

struct maybe bench_goal_read(const struct bench_row *row, const struct record *record,
                             const struct setup *setup, int string)
{
    const struct maybe goal = bench_goal_on(row, record, setup, string);
    const struct maybe action = string_target_action(setup, string);

    if (!bench_goal_is_held(row, setup))
        return goal;
    if (!goal.given || !action.given || !setup->relief_target_mm.given)
        return maybe_absent();
    return belief_line_held_from(setup, string, setup->relief_target_mm.value, goal.value,
                                 action.value);
}
