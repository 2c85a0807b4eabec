/* SPDX-License-Identifier: MIT */
#include "model/setup/move_believed.h"

static struct believed as_believed(bool known, const struct estimated *estimated)
{
    if (!known)
        return (struct believed){.u = 0};
    return (struct believed){.mm = {.value = estimated->mean, .given = true},
                             .u = 2 * estimated->deviation};
}

void move_keep_believed(const struct setup *setup, const struct belief *belief,
                        struct move_set *moves)
{
    struct estimated mm;

    moves->relief = as_believed(belief_relief(belief, setup, &mm), &mm);
    for (int s = 1; s <= belief->strings; s++) {
        moves->gap[s] = as_believed(belief_gap(belief, setup, s, &mm), &mm);
        moves->held[s] = as_believed(belief_held_gap(belief, setup, s, &mm), &mm);
        moves->action[s] = as_believed(belief_action(belief, setup, s, &mm), &mm);
    }
    moves->by_passes = true;
    for (int row = 0; row < BELIEF_ROWS_; row++)
        for (int s = 0; s <= belief->strings; s++) {
            moves->questioned[row][s] = belief->questioned[row][s];
            moves->holds[row][s] = belief->holds[row][s];
        }
}

static struct maybe mean_of(bool known, const struct estimated *estimated)
{
    return known ? maybe_given(estimated->mean) : maybe_absent();
}

void move_foresee(const struct belief *plan, const struct setup *setup, struct move *move)
{
    struct estimated mm;

    move->relief_then = mean_of(belief_relief(plan, setup, &mm), &mm);
    for (int s = 1; s <= setup->board.strings; s++) {
        move->gap_then[s] = mean_of(belief_gap(plan, setup, s, &mm), &mm);
        move->held_then[s] = mean_of(belief_held_gap(plan, setup, s, &mm), &mm);
        move->action_then[s] = mean_of(belief_action(plan, setup, s, &mm), &mm);
    }
}
