/* SPDX-License-Identifier: MIT */
#include "model/setup/move_find.h"

#include <math.h>
#include <string.h>

#include "model/setup/bar_moves.h"
#include "model/setup/move_believed.h"
#include "model/setup/move_need.h"
#include "model/setup/move_shape.h"
#include "model/setup/pass_read.h"
#include "model/setup/rocker.h"
#include "model/setup/string_target.h"

struct finder {
    const struct setup *setup;
    const struct setup *level; /* the same once the frets that the rocker found high are level */
    struct belief plan;        /* as it will be once the moves found so far are made */
    bool rod_first; /* the rod is to be turned, or to be looked at: nobody knows yet how well it
                       does what it should */
};

/* What was just found good is not taken up again for a reading that fell on the other side of a
 * gauge's step. */
static double tolerance_of(const struct finder *finder, enum belief_row row, double mm)
{
    return finder->plan.settled[row] ? MOVE_SETTLED * mm : mm;
}

static bool is_off(double off, double tolerance, double deviation)
{
    return setup_is_off(off, fmax(tolerance + MOVE_DOUBT * deviation, MOVE_SURE * deviation));
}

/* Off, whether that can be told or not. */
static bool is_near(double off, double tolerance, double deviation)
{
    return setup_is_off(off, tolerance + MOVE_NEAR * deviation);
}

/* A rod that is not to be turned is no order: where it is at its end, the relief is left as it is,
 * and the others are reckoned with that; where it shows nothing yet, or went the wrong way, that is
 * seen to first, and nothing is cut meanwhile. */
static void stop_rod(struct finder *finder, struct move *move)
{
    if (move->stop == ROD_SILENT) {
        move->state = MOVE_WAITS;
        move->waits = WAIT_OTHER_WORK;
        finder->rod_first = false;
    } else if (move->stop == ROD_LOOSE || move->stop == ROD_STRAYED) {
        move->state = MOVE_UNKNOWN;
        move->needs = move->stop == ROD_LOOSE ? NEED_ROD_NUT : NEED_ROD_WAY;
    } else {
        return;
    }
    move->amount.due = false;
}

/* Whether the least that a hand turns, an eighth, brings the relief nearer to its target, where it
 * is known what a turn does. */
static bool is_worth_turning(const struct survey_rod *rod, double change_mm)
{
    const double least_turn = 0.125;

    return !rod->sure || fabs(change_mm) > least_turn / 2 * fabs(rod->fit.per_turn_mm);
}

/* Relief is what it reads once the frets are level. */
static void find_rod(struct finder *finder, struct move *move)
{
    const struct setup *setup = finder->level;
    const double target = setup->relief_target_mm.value;
    const struct survey_rod *rod = &finder->plan.rod;
    struct estimated relief;

    move->holds = setup_rod_turns(setup) && !(rod->known && rod->answer == ROD_ANSWERS_NO_LONGER);
    if (!setup->relief_target_mm.given || !isfinite(target) ||
        !belief_relief(&finder->plan, setup, &relief))
        return;
    move->stop = survey_rod_stop(rod, target - relief.mean);
    /* Who says on Intake that none turns has looked. */
    if (!setup_rod_turns(setup))
        move->stop = ROD_SILENT;
    move->way = rod->way;
    const bool turns = move_rod_turns(setup, move);
    const double own_mm = tolerance_of(finder, BELIEF_RELIEF, setup->relief_tolerance_mm);
    const double tolerance = turns ? own_mm : fmax(own_mm, MOVE_NO_ROD_MM);
    move->amount = (struct move_amount){
        .known = true,
        .value = target - relief.mean,
        .u = 2 * relief.deviation,
        .off = is_near(relief.mean - target, setup->relief_tolerance_mm, relief.deviation),
        .due = is_off(relief.mean - target, tolerance, relief.deviation) &&
               is_worth_turning(rod, target - relief.mean)};
    move->state = move->amount.due ? MOVE_DUE : MOVE_GOOD;
    move->most_u = move->amount.due ? move->amount.u : 0;
    finder->rod_first = move->amount.due && turns;
    if (move->amount.due && move->stop != ROD_SILENT)
        belief_turn_rod(&finder->plan, setup, target, BELIEF_RELIEF_MM);
    if (move->amount.due)
        stop_rod(finder, move);
}

/* What is wanted on a string; absent where a target of gap, action or relief is missing. */
struct wanted {
    struct maybe gap, action;
};

static struct wanted find_wanted(const struct setup *setup, int string)
{
    const struct wanted wanted = {.gap = string_target_gap(setup, string),
                                  .action = string_target_action(setup, string)};

    if (!setup->relief_target_mm.given || !wanted.gap.given || !wanted.action.given)
        return (struct wanted){.gap = maybe_absent()};
    return wanted;
}

/* A cut stops short by what is not known, and is larger than that: wood comes off again, never on.
 * A fill is not made on a guess of what the rod will do. */
static struct move_amount slot_amount(const struct finder *finder, int string)
{
    const struct setup *setup = finder->level;
    const struct wanted wanted = find_wanted(setup, string);
    struct estimated gap;

    if (!wanted.gap.given || !outfit_has_slot(&setup->outfit, string) ||
        !belief_gap_at_action(&finder->plan, setup, string, wanted.action.value, &gap))
        return (struct move_amount){.known = false};
    const double per_gap = belief_slot_per_gap(setup, string), off = gap.mean - wanted.gap.value;
    const double tolerance = tolerance_of(finder, BELIEF_GAP, setup->gap_tolerance_mm);
    const bool asks = off < 0 ? setup_is_off(off, tolerance + MOVE_FILL_DOUBT * gap.deviation)
                              : is_off(off, tolerance, gap.deviation);
    const bool sure = off < 0 ? !finder->rod_first : off > MOVE_CUT_DOUBT * gap.deviation;
    struct move_amount amount = {
        .known = true,
        .off = is_near(off, setup->gap_tolerance_mm, gap.deviation),
        .due = asks && sure,
        .unsure = asks && !sure &&
                  (finder->rod_first || gap.deviation > MOVE_STALE * pass_read_gap_mm(setup)),
        .value = -off * per_gap,
        .u = 2 * gap.deviation * per_gap};
    if (amount.due && off > 0)
        amount.value += MOVE_SHORT * gap.deviation * per_gap;
    return amount;
}

/* One more string comes to a move's state. */
static void add_string(struct move *move, int string, struct move_amount amount)
{
    const enum move_state state = amount.due ? MOVE_DUE : MOVE_GOOD;

    move->string[string] = amount;
    if (!amount.known)
        return;
    if (state > move->state)
        move->state = state;
    move->any_up = move->any_up || (amount.due && amount.value > 0);
    move->any_down = move->any_down || (amount.due && amount.value < 0);
    if (amount.due)
        move->most_u = fmax(move->most_u, amount.u);
}

/* Half the slots or more are low: one shim under the nut, or a new nut, for all of them. Of a zero
 * fret one string is enough: nothing is put on a crown. */
static void find_raise(const struct setup *setup, struct move *move)
{
    int low = 0;
    double most = 0;

    for (int s = 1; s <= setup->board.strings; s++)
        if (move->string[s].due && move->string[s].value > 0) {
            low++;
            most = fmax(most, move->string[s].value);
        }
    /* A zero fret is one crown under all strings. */
    if (low == 0 || !(setup->outfit.zero_fret || 2 * low >= setup->board.strings))
        return;
    move->raise = maybe_given(most);
    move->any_down = false;
    for (int s = 1; s <= setup->board.strings; s++)
        move->string[s].due = move->string[s].due && move->string[s].value > 0;
}

/* A shim lifts all strings, and some higher than they should be: the next pass reads by how much,
 * and files them. */
static void raise_all(struct finder *finder, struct move *move)
{
    const struct outfit *outfit = &finder->setup->outfit;

    for (int s = 1; s <= outfit->strings; s++)
        if (outfit_is_read(outfit, s) && outfit_has_slot(outfit, s))
            belief_work_slot(&finder->plan, s, move->raise.value);
    for (int s = 1; s <= outfit->strings; s++) {
        const struct move_amount amount = slot_amount(finder, outfit->read_as[s]);

        move->too_high[s] = amount.due && amount.value < 0;
    }
}

/* Where one slot is filled, all that are low are: they are one piece of work. */
static void join_fills(const struct finder *finder, struct move_amount amount[STRINGS_MAX + 1])
{
    const struct setup *setup = finder->setup;
    const double tolerance = tolerance_of(finder, BELIEF_GAP, setup->gap_tolerance_mm);
    bool any = false;

    for (int s = 1; s <= setup->board.strings; s++)
        any = any || (amount[s].due && amount[s].value > 0);
    for (int s = 1; s <= setup->board.strings && any; s++) {
        const double per_gap = belief_slot_per_gap(setup, s);

        amount[s].due = amount[s].due ||
                        (amount[s].known && amount[s].value > 0 &&
                         is_off(amount[s].value / per_gap, tolerance, amount[s].u / 2 / per_gap));
    }
}

/* Nothing is due, but something would be if it were known better: after the rod everything is read
 * again, and so is what it is foreseen to leave off its tolerance; else the gap is, once more, or
 * the action, where it was taken from others. */
static void find_unsure(const struct finder *finder, struct move *move)
{
    for (int s = 1; s <= finder->setup->board.strings; s++) {
        const struct move_amount *amount = &move->string[s];

        if (move->state == MOVE_DUE || !(amount->unsure || (finder->rod_first && amount->off)))
            continue;
        move->state = finder->rod_first ? MOVE_WAITS : MOVE_UNKNOWN;
        move->waits = finder->rod_first ? WAIT_ROD : WAIT_NOTHING;
        move->any_up = move->any_up || amount->value > 0;
        move->any_down = move->any_down || amount->value < 0;
        if (finder->rod_first)
            continue;
        move->needs = finder->plan.own[BELIEF_ACTION][s] ? NEED_GAP : NEED_ACTION;
        move->need_on = s;
        move->tells_more = true;
    }
}

/* The first string of a course stands for the others, which get what it gets. */
static void find_slots(struct finder *finder, struct move *move)
{
    const struct setup *setup = finder->setup;
    struct move_amount amount[STRINGS_MAX + 1] = {{.known = false}};

    for (int s = 1; s <= setup->board.strings; s++)
        if (setup->outfit.read_as[s] == s)
            amount[s] = slot_amount(finder, s);
    join_fills(finder, amount);
    for (int s = 1; s <= setup->board.strings; s++)
        add_string(move, s, amount[setup->outfit.read_as[s]]);
    find_raise(setup, move);
    find_unsure(finder, move);
    if (move->raise.given)
        raise_all(finder, move);
    for (int s = 1; s <= setup->board.strings && !move->raise.given; s++)
        if (amount[s].due)
            belief_work_slot(&finder->plan, s, amount[s].value);
}

/* What one string asks of the saddle; `due` where it is off beyond tolerance and doubt. */
static struct move_amount saddle_amount(const struct finder *finder, int string)
{
    const struct setup *setup = finder->level;
    const struct wanted wanted = find_wanted(setup, string);
    struct estimated action;

    if (!wanted.action.given || !belief_action(&finder->plan, setup, string, &action))
        return (struct move_amount){.known = false};
    const double per_action = belief_saddle_per_action(setup, string);
    const double off = action.mean - wanted.action.value;
    return (struct move_amount){
        .known = true,
        .off = is_near(off, setup->action_tolerance_mm, action.deviation),
        /* A saddle that is raised again is no loss, so that its tolerance is no wider for doubt. */
        .due =
            setup_is_off(off, fmax(tolerance_of(finder, BELIEF_ACTION, setup->action_tolerance_mm),
                                   MOVE_SURE * action.deviation)),
        .value = -off * per_action,
        .u = 2 * action.deviation * per_action};
}

/* A blank is not cut along a line of which one end was taken from the other strings: the outer
 * string whose action has to be read first; 0 for none. */
static int find_unread_end(const struct finder *finder)
{
    const struct outfit *outfit = &finder->setup->outfit;
    const int treble = outfit->read_as[1], bass = outfit->read_as[outfit->strings];

    if (finder->setup->bridge != BRIDGE_BLANK)
        return 0;
    if (!finder->plan.own[BELIEF_ACTION][bass])
        return bass;
    return finder->plan.own[BELIEF_ACTION][treble] ? 0 : treble;
}

static void ask_action(struct move *move, int string)
{
    move->state = MOVE_UNKNOWN;
    move->needs = NEED_ACTION;
    move->need_on = string;
    move->tells_more = true;
}

/* A saddle that is cut or shimmed is not turned back. It waits for the rod that makes it doubtful,
 * for an outer string, or for the string that nobody read and that is known least; else it is left.
 */
static void doubt_saddle(const struct finder *finder, const struct move_amount *amount,
                         struct move *move)
{
    const struct setup *setup = finder->setup;

    if (finder->rod_first) {
        move->state = MOVE_WAITS;
        move->waits = WAIT_ROD;
        return;
    }
    if (find_unread_end(finder) > 0) {
        ask_action(move, find_unread_end(finder));
        return;
    }
    for (int s = 1; s <= setup->board.strings; s++) {
        if (setup->outfit.read_as[s] != s || !amount[s].known ||
            finder->plan.own[BELIEF_ACTION][s] ||
            (move->need_on > 0 && amount[s].u <= amount[move->need_on].u))
            continue;
        ask_action(move, s);
    }
}

/* Whether a string is moved once the saddle is due. A blank's one piece of work moves all that it
 * has an amount for, and a side of posts or wheels the whole side; a screw is turned for its own
 * string alone, so not by less than can be told. */
static bool is_moved(const struct finder *finder, const struct move *move, int string,
                     const struct move_amount *amount)
{
    if (!amount->known || !setup_has_own_height(finder->setup, string))
        return false;
    if (finder->setup->bridge == BRIDGE_SCREW)
        return amount->due || fabs(amount->value) > amount->u;
    return !move->saddle_work.known || amount->value != 0;
}

/* One string off beyond doubt makes the whole saddle due. On posts or wheels an inner string has no
 * height of its own: what the outer two need is made. */
static void find_saddle(struct finder *finder, struct move *move)
{
    const struct setup *setup = finder->setup;
    struct move_amount amount[STRINGS_MAX + 1] = {{.known = false}};
    double mm[STRINGS_MAX + 1] = {0};
    bool asked = false;

    for (int s = 1; s <= setup->board.strings; s++) {
        amount[s] = saddle_amount(finder, s);
        if (amount[s].due && setup_has_own_height(setup, s))
            asked = true;
        else
            move->inner_follow = move->inner_follow || amount[s].due;
    }
    const bool due =
        asked && find_unread_end(finder) == 0 && move_shape_saddle(setup, move, amount);

    for (int s = 1; s <= setup->board.strings; s++) {
        amount[s].due = due && is_moved(finder, move, s, &amount[s]);
        mm[s] = amount[s].due ? amount[s].value : 0;
        add_string(move, s, amount[s]);
    }
    if (asked && !due)
        doubt_saddle(finder, amount, move);
    setup_carry_inner(setup, mm);
    belief_work_saddle(&finder->plan, mm);
}

void move_find_work(const struct setup *setup, const struct belief *belief,
                    struct move_set *ret_moves)
{
    struct setup level;
    struct finder finder = {.setup = setup, .level = rocker_level(setup, &level), .plan = *belief};

    *ret_moves = (struct move_set){0};
    if (setup->outfit.lap) {
        bar_moves_find(setup, ret_moves);
        return;
    }
    ret_moves->move[MOVE_SLOTS].undone = belief->undone[BELIEF_GAP];
    ret_moves->move[MOVE_SADDLE].undone = belief->undone[BELIEF_ACTION];
    if (belief->known)
        move_keep_believed(setup, belief, ret_moves);
    find_rod(&finder, &ret_moves->move[MOVE_ROD]);
    move_foresee(&finder.plan, setup, &ret_moves->move[MOVE_ROD]);
    find_slots(&finder, &ret_moves->move[MOVE_SLOTS]);
    move_foresee(&finder.plan, finder.level, &ret_moves->move[MOVE_SLOTS]);
    find_saddle(&finder, &ret_moves->move[MOVE_SADDLE]);
    move_foresee(&finder.plan, finder.level, &ret_moves->move[MOVE_SADDLE]);
    for (int kind = MOVE_ROD; kind < MOVE_COUNT_; kind++)
        if (move_is_measured((enum move_kind)kind))
            move_ask(setup, belief, &ret_moves->move[kind], (enum move_kind)kind);
}
