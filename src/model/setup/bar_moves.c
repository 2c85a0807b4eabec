/* SPDX-License-Identifier: MIT */
#include "model/setup/bar_moves.h"

#include <math.h>

#include "model/setup/move_find.h"
#include "model/setup/pass_read.h"
#include "model/setup/setup_fill.h"

/* One end of the strings. */
struct end {
    const struct maybe *read, *target;
    struct believed *believed; /* by string; and what is read once the move is made */
    struct maybe *then;
    enum move_need need;
};

static struct move_amount amount_of(const struct setup *setup, double off_mm)
{
    const double deviation = pass_read_once_mm(setup, BELIEF_ACTION);

    return (struct move_amount){
        .known = isfinite(off_mm),
        .due = setup_is_off(off_mm, fmax(setup->height_tolerance_mm, MOVE_SURE * deviation)),
        .value = -off_mm,
        .u = 2 * deviation};
}

static void add_string(struct move *move, int string, struct move_amount amount)
{
    move->string[string] = amount;
    if (!amount.known)
        return;
    if (move->state == MOVE_UNKNOWN || amount.due)
        move->state = amount.due ? MOVE_DUE : MOVE_GOOD;
    move->any_up = move->any_up || (amount.due && amount.value > 0);
    move->any_down = move->any_down || (amount.due && amount.value < 0);
    move->most_u = amount.due ? amount.u : move->most_u;
}

static void find_end(const struct setup *setup, const struct end *end, struct move *move)
{
    const bool sure[STRINGS_MAX + 1] = {false};
    double mm[STRINGS_MAX + 1];
    enum known known[STRINGS_MAX + 1];
    const bool any = setup_fill_strings(end->read, sure, &setup->outfit, mm, known);

    for (int s = 1; any && s <= setup->outfit.strings; s++) {
        if (known[s] == KNOWN_ABSENT)
            continue;
        end->believed[s] = (struct believed){.mm = maybe_finite(mm[s]),
                                             .u = 2 * pass_read_once_mm(setup, BELIEF_ACTION)};
        if (!end->target->given)
            continue;
        const struct move_amount amount = amount_of(setup, mm[s] - end->target->value);
        add_string(move, s, amount);
        end->then[s] = amount.due ? *end->target : end->believed[s].mm;
    }
    if (move->state == MOVE_UNKNOWN)
        move->needs = any ? NEED_HEIGHT_TARGETS : end->need;
}

void bar_moves_find(const struct setup *setup, struct move_set *ret_moves)
{
    struct move *nut = &ret_moves->move[MOVE_SLOTS], *bridge = &ret_moves->move[MOVE_SADDLE];
    const struct end at_nut = {.read = setup->height_nut_mm,
                               .target = &setup->height_nut_target_mm,
                               .believed = ret_moves->gap,
                               .then = nut->gap_then,
                               .need = NEED_HEIGHT_NUT};
    const struct end at_bridge = {.read = setup->height_saddle_mm,
                                  .target = &setup->height_saddle_target_mm,
                                  .believed = ret_moves->action,
                                  .then = bridge->action_then,
                                  .need = NEED_HEIGHT_SADDLE};

    find_end(setup, &at_nut, nut);
    find_end(setup, &at_bridge, bridge);
    for (int s = 1; s <= setup->outfit.strings; s++) {
        nut->action_then[s] = ret_moves->action[s].mm;
        bridge->gap_then[s] = nut->gap_then[s];
    }
}
