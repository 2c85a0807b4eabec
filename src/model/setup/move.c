/* SPDX-License-Identifier: MIT */
#include "model/setup/move.h"

#include <math.h>

struct finder {
    const struct setup *setup;
    const struct figures *figures;
    const struct move_choice *choice;
    enum reset_verdict reset;
};

enum figure_id move_figure(enum move_kind kind)
{
    static const enum figure_id figures[MOVE_COUNT_ + 1] = {
#define MOVE(id, own_, name_, owner_name_, figure_, ...) [MOVE_##id] = FIGURE_##figure_,
#include "model/reading/move_table.h"
#undef MOVE
        [MOVE_COUNT_] = FIGURE_RELIEF,
    };
    return figures[kind];
}

bool move_is_by_string(enum move_kind kind)
{
    return figure_info(move_figure(kind))->per == PER_STRING;
}

static bool any_given(const struct maybe *read, int strings)
{
    for (int s = 1; s <= strings; s++)
        if (read[s].given)
            return true;
    return false;
}

/* What stands between a move and its amount: the next thing to measure first. */
static enum move_need find_need(const struct setup *setup)
{
    if (!setup->has_board || !setup->board.has_relief)
        return NEED_BOARD;
    if (setup->relief_count == 0)
        return NEED_RELIEF;
    if (!setup->relief_target_mm.given)
        return NEED_RELIEF_TARGET;
    if (!any_given(setup->nut_gap_mm, setup->board.strings))
        return NEED_GAP;
    if (!any_given(setup->action_mm, setup->board.strings))
        return NEED_ACTION;
    return NEED_TARGETS;
}

static enum move_state state_of(const struct move_amount *amount)
{
    if (!amount->known)
        return MOVE_UNKNOWN;
    if (!amount->due)
        return MOVE_GOOD;
    return fabs(amount->value) > amount->u ? MOVE_DUE : MOVE_WITHIN;
}

static struct move_amount amount_of(const struct figure *figure, bool due)
{
    if (figure->known == KNOWN_ABSENT)
        return (struct move_amount){.known = false};
    return (struct move_amount){.known = true, .due = due, .value = figure->value, .u = figure->u};
}

/* The amount of a move that has but one. */
static void set_amount(struct move *move, struct move_amount amount)
{
    move->amount = amount;
    move->state = state_of(&amount);
    move->most_u = amount.due ? amount.u : 0;
}

static void find_reset(const struct finder *finder, struct move *move)
{
    if (finder->reset == RESET_NECK)
        set_amount(move, amount_of(&finder->figures->at[FIGURE_ANGLE][0], true));
    else if (finder->reset == RESET_SADDLE)
        move->state = MOVE_GOOD;
    if (move->state == MOVE_UNKNOWN)
        move->needs = NEED_EXPOSURE;
}

static void find_rod(const struct finder *finder, struct move *move)
{
    const struct maybe *target = &finder->setup->relief_target_mm;
    struct move_amount amount =
        amount_of(&finder->figures->at[FIGURE_RELIEF][0], finder->choice->rod);

    amount.known = amount.known && target->given;
    amount.value = target->value - amount.value;
    set_amount(move, amount);
}

/* One more string comes to a move's state: one amount beyond doubt makes the whole move due. */
static void add_string(struct move *move, int string, struct move_amount amount)
{
    const enum move_state state = state_of(&amount);

    move->string[string] = amount;
    if (state > move->state)
        move->state = state;
    if (!amount.known)
        return;
    move->any_up = move->any_up || amount.value > 0;
    move->any_down = move->any_down || amount.value < 0;
    if (amount.due)
        move->most_u = fmax(move->most_u, amount.u);
}

static void find_slots(const struct finder *finder, struct move *move)
{
    for (int s = 1; s <= finder->setup->board.strings; s++)
        add_string(move, s,
                   amount_of(&finder->figures->at[FIGURE_SLOT_CHANGE][s], finder->choice->slot[s]));
}

/* On posts or wheels an inner string has no height of its own: what the outer two need is made. */
static void find_saddle(const struct finder *finder, struct move *move)
{
    for (int s = 1; s <= finder->setup->board.strings; s++) {
        const bool own = setup_has_own_height(finder->setup, s), off = finder->choice->saddle[s];

        add_string(move, s, amount_of(&finder->figures->at[FIGURE_SADDLE_CHANGE][s], off && own));
        move->inner_follow = move->inner_follow || (off && !own);
    }
}

void move_set_find(const struct setup *setup, const struct figures *figures,
                   const struct move_choice *choice, enum reset_verdict reset,
                   struct move_set *ret_moves)
{
    const struct finder finder = {
        .setup = setup, .figures = figures, .choice = choice, .reset = reset};

    *ret_moves = (struct move_set){0};
#define MOVE(id, own_, ...) find_##own_(&finder, &ret_moves->move[MOVE_##id]);
#include "model/reading/move_table.h"
#undef MOVE
    for (int kind = MOVE_ROD; kind < MOVE_COUNT_; kind++)
        if (ret_moves->move[kind].state == MOVE_UNKNOWN)
            ret_moves->move[kind].needs = find_need(setup);
}

void move_set_mark(struct move_set *moves, struct place place)
{
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        moves->move[kind].done_by = work_mark_line(place, (enum move_kind)kind);
}

bool move_is_done(const struct move *move)
{
    return move->done_by > 0 && (move->state == MOVE_DUE || move->state == MOVE_WITHIN);
}

bool move_is_open(const struct move *move)
{
    return move->state == MOVE_DUE && move->done_by == 0;
}

int move_set_count(const struct move_set *moves, bool (*is_such)(const struct move *move))
{
    int count = 0;

    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        count += is_such(&moves->move[kind]);
    return count;
}

bool move_is_missed(const struct move *move)
{
    return move->state == MOVE_UNKNOWN && move->needs != NEED_EXPOSURE;
}

enum move_verdict move_set_verdict(const struct move_set *moves)
{
    if (move_is_open(&moves->move[MOVE_RESET]))
        return MOVES_RESET;
    if (move_set_count(moves, move_is_open) > 0)
        return MOVES_WORK;
    if (move_set_count(moves, move_is_missed) > 0 || move_set_count(moves, move_is_done) > 0)
        return MOVES_MEASURE;
    return MOVES_READY;
}

const char *move_verdict_name(enum move_verdict verdict)
{
    static const char *const names[] = {
        [MOVES_READY] = "ready",
        [MOVES_WORK] = "work",
        [MOVES_RESET] = "reset",
        [MOVES_MEASURE] = "measure",
    };
    return names[verdict];
}
