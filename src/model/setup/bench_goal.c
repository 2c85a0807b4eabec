/* SPDX-License-Identifier: MIT */
#include "model/setup/bench_goal.h"

#include "model/setup/belief_line.h"

struct maybe bench_goal_at(const struct bench_row *row, const struct record *record,
                           enum bench_end end)
{
    if (row->goal == GOAL_NONE)
        return maybe_absent();
    return record_entered_or_fallback(record, reading_key_one(row->target[end]));
}

struct maybe bench_goal_on(const struct bench_row *row, const struct record *record,
                           const struct outfit *outfit, int string)
{
    const struct maybe bass = bench_goal_at(row, record, END_BASS);
    const struct maybe treble = bench_goal_at(row, record, END_TREBLE);

    return setup_target_at(&bass, &treble, outfit, string);
}

bool bench_goal_is_held(const struct bench_row *row, const struct setup *setup)
{
    return row->read_held && setup->nut_method == NUT_HELD_3;
}

struct maybe bench_goal_read(const struct bench_row *row, const struct record *record,
                             const struct setup *setup, int string)
{
    const struct outfit *outfit = &setup->outfit;
    const struct maybe goal = bench_goal_on(row, record, outfit, string);
    const struct maybe action = setup_target_at(&setup->action_target_bass_mm,
                                                &setup->action_target_treble_mm, outfit, string);

    if (!bench_goal_is_held(row, setup))
        return goal;
    if (!goal.given || !action.given || !setup->relief_target_mm.given)
        return maybe_absent();
    return belief_line_held_from(setup, string, setup->relief_target_mm.value, goal.value,
                                 action.value);
}
