/* SPDX-License-Identifier: MIT */
#include "model/setup/move_need.h"

static bool any(const bool *has, int from, int to)
{
    for (int i = from; i <= to; i++)
        if (has[i])
            return true;
    return false;
}

/* Read, and of no string stale. */
static bool is_read(const struct belief *belief, enum belief_row row)
{
    if (row == BELIEF_RELIEF)
        return belief->has[row][0] && belief->fresh[row][0];
    return any(belief->has[row], 1, belief->strings) && belief_stale(belief, row) == 0;
}

/* Read in this pass, but not as the others. */
static bool is_questioned(const struct belief *belief, enum belief_row row)
{
    for (int s = 0; s <= belief->strings; s++)
        if (belief->questioned[row][s] == QUESTIONED_HERE)
            return true;
    return false;
}

/* What stands between a move and its amount: the next thing to measure first. */
static enum move_need find_need(const struct setup *setup, const struct belief *belief)
{
    static const enum move_need needs[BELIEF_ROWS_] = {
        [BELIEF_RELIEF] = NEED_RELIEF, [BELIEF_GAP] = NEED_GAP, [BELIEF_ACTION] = NEED_ACTION};

    if (!belief->known)
        return NEED_BOARD;
    for (int row = 0; row < BELIEF_ROWS_; row++) {
        if (!is_read(belief, (enum belief_row)row))
            return is_questioned(belief, (enum belief_row)row) ? NEED_AGAIN : needs[row];
        if (row == BELIEF_RELIEF && !setup->relief_target_mm.given)
            return NEED_RELIEF_TARGET;
    }
    return NEED_TARGETS;
}

static bool any_fresh(const struct belief *belief, enum belief_row row)
{
    return any(belief->fresh[row], 1, belief->strings);
}

void move_ask(const struct setup *setup, const struct belief *belief, struct move *move,
              enum move_kind kind)
{
    const int gap = belief_stale(belief, BELIEF_GAP), action = belief_stale(belief, BELIEF_ACTION);

    if (kind != MOVE_ROD && move->state == MOVE_GOOD && (gap > 0 || action > 0))
        move->state = MOVE_UNKNOWN;
    if (move->state != MOVE_UNKNOWN || move->needs != NEED_NOTHING)
        return;
    move->needs = find_need(setup, belief);
    if (move->needs == NEED_GAP && any_fresh(belief, BELIEF_GAP))
        move->need_on = gap;
    if (move->needs == NEED_ACTION && any_fresh(belief, BELIEF_ACTION))
        move->need_on = action;
}
