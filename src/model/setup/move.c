/* SPDX-License-Identifier: MIT */
#include "model/setup/move.h"

#include <math.h>

#include "model/setup/move_find.h"
#include "model/setup/move_reset.h"
#include "model/setup/survey_rod.h"

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

enum figure_id move_explained(const struct outfit *outfit, enum move_kind kind)
{
    return outfit->lap ? FIGURE_TENSION : move_figure(kind);
}

bool move_is_by_string(enum move_kind kind)
{
    return figure_info(move_figure(kind))->per == PER_STRING;
}

/* --- what waits --- */

void move_put_off(struct move *move, enum move_wait waits, int strings)
{
    if (move->state == MOVE_UNKNOWN)
        return;
    move->state = MOVE_WAITS;
    move->waits = waits;
    move->amount.due = false;
    for (int s = 1; s <= strings; s++)
        move->string[s].due = false;
    move->raise.given = false;
}

/* What is due, and not done since, waits; what is known of it is kept. */
static void wait_open(struct move_set *moves, enum move_kind kind, enum move_wait waits)
{
    if (move_is_open(&moves->move[kind]))
        move_put_off(&moves->move[kind], waits, STRINGS_MAX);
}

/* Whether the relief has yet to be brought to its target by the rod. */
static bool is_rod_first(const struct setup *setup, const struct move *rod)
{
    return (rod->state == MOVE_DUE && setup_rod_turns(setup)) || move_is_rod_looked_at(rod);
}

/* What a turn does is not known, or only of other necks, and no more than this is asked of it, mm:
 * half a turn of most (memory). */
#define MOVE_ROD_SMALL_MM 0.2

/* How the action follows the rod is foreseen, not read. A turn goes back again, a reset does not:
 * one that would be due after the rod is an outlook, and the saddle that asks for it waits. All
 * wait for a rod that was turned and has not shown yet that it brings the relief anywhere. */
static void wait_for_rod(const struct setup *setup, const struct belief *belief,
                         struct move_set *moves)
{
    const struct move *rod = &moves->move[MOVE_ROD];
    const bool resets = moves->move[MOVE_RESET].state == MOVE_DUE;
    const bool guessed = !belief->rod.sure && fabs(rod->amount.value) > MOVE_ROD_SMALL_MM;

    if (!is_rod_first(setup, rod))
        return;
    wait_open(moves, MOVE_RESET, WAIT_ROD);
    for (int kind = MOVE_SLOTS; kind <= MOVE_SADDLE; kind++)
        if (resets || guessed || rod->stop != ROD_MAY_TURN)
            wait_open(moves, (enum move_kind)kind, WAIT_ROD);
}

void move_set_find(const struct setup *setup, const struct figures *figures,
                   const struct belief *belief, struct move_set *ret_moves)
{
    struct move *move = ret_moves->move;

    move_find_work(setup, belief, ret_moves);
    move_find_reset(setup, figures, belief, ret_moves);
    wait_for_rod(setup, belief, ret_moves);
    if (move[MOVE_RESET].state == MOVE_DUE)
        for (int kind = MOVE_ROD; kind < MOVE_COUNT_; kind++)
            if (move[kind].waits != WAIT_OTHER_WORK)
                move_put_off(&move[kind], WAIT_RESET, setup->board.strings);
}

void move_set_turns(struct move_set *moves, double per_turn_mm)
{
    struct move *rod = &moves->move[MOVE_ROD];

    if (!rod->amount.due || per_turn_mm == 0)
        return;
    rod->turns = maybe_given(rod->amount.value / per_turn_mm);
    rod->per_turn = maybe_given(per_turn_mm);
}

void move_set_turns_of_others(struct move_set *moves, const struct rod_prior *others)
{
    struct move *rod = &moves->move[MOVE_ROD];

    if (others->necks < ROD_NECKS_LEAST)
        return;
    move_set_turns(moves, others->per_turn_mm);
    if (!rod->turns.given)
        return;
    rod->others = *others;
    rod->turns.value = fmax(-ROD_TURN_OF_OTHERS, fmin(ROD_TURN_OF_OTHERS, rod->turns.value));
}

double move_turns_at_once(const struct move *rod, bool *ret_is_all)
{
    const double eighths = 8, turns = fabs(rod->turns.value) * eighths;
    const bool is_own = rod->others.necks == 0;
    const double least = is_own ? 1 : 0, too_far = is_own ? 0.25 : 1e-6;
    const double now = fmin(fmax(least, floor(turns + too_far)), ROD_TURN_AT_ONCE * eighths);

    *ret_is_all = is_own && fabs(rod->amount.value) * (1 - now / turns) <= rod->amount.u;
    return now / eighths;
}

struct maybe move_rod_share(const struct move *rod, bool rod_turns, struct maybe turned)
{
    bool is_all;

    if (!rod_turns)
        return maybe_given(1);
    /* Who does not know what a turn does turns until the relief is right; one that was tried, and
     * did not show it, may never get there. */
    if (!rod->turns.given)
        return turned.given || rod->stop != ROD_MAY_TURN ? maybe_absent() : maybe_given(1);
    const double now = copysign(move_turns_at_once(rod, &is_all), rod->turns.value);
    const double made = maybe_or(turned, now);
    /* Who turns as far as was asked, and that is all, turns until the relief is right. */
    if (is_all && fabs(made - now) < 1e-6)
        return maybe_given(1);
    if (!turned.given && now == 0)
        return maybe_absent();
    return maybe_given(made * rod->per_turn.value / rod->amount.value);
}

struct maybe move_part(struct maybe now, struct maybe then, struct maybe share)
{
    if (!now.given || !then.given || !share.given)
        return maybe_absent();
    return maybe_given(now.value + share.value * (then.value - now.value));
}

bool move_waits_for_season(const struct move *move)
{
    return move->state == MOVE_WAITS && move->waits == WAIT_SEASON;
}

/* Once the rod is right the neck is as it was. Where none turns, only time and air bring it back,
 * and reset and relief are off by the season too. */
void move_set_wait_for_season(struct move_set *moves)
{
    const bool holds = moves->move[MOVE_ROD].holds;

    if (holds && moves->move[MOVE_ROD].state != MOVE_DUE)
        return;
    moves->season_first = true;
    for (int kind = holds ? MOVE_SLOTS : 0; kind <= MOVE_SADDLE; kind++)
        if (moves->move[kind].state >= MOVE_WAITS)
            move_put_off(&moves->move[kind], WAIT_SEASON, STRINGS_MAX);
}

void move_set_came_in(struct move_set *moves, const struct setup *setup, int air, bool guessed)
{
    moves->air = air;
    for (int kind = MOVE_SLOTS; kind <= MOVE_SADDLE; kind++)
        if (air != 0 && guessed && is_rod_first(setup, &moves->move[MOVE_ROD]))
            wait_open(moves, (enum move_kind)kind, WAIT_ROD);
}

bool move_set_settles(const struct move_set *moves)
{
    return move_set_count(moves, move_is_open) == 0 &&
           move_set_count(moves, move_waits_for_season) > 0;
}

bool move_is_left(const struct move *move)
{
    return move->state == MOVE_WAITS && move->waits == WAIT_OTHER_WORK;
}

bool move_is_off(const struct move *move)
{
    bool off = move->amount.off;

    for (int s = 1; s <= STRINGS_MAX; s++)
        off = off || move->string[s].off;
    return off;
}

/* Whether a rod that was turned since is not known to have brought the relief to its target, on
 * which the others rest. Nobody knows where the turns are not said, or what they do is not known.
 */
static bool is_rod_unread(const struct move *rod, const struct setup *setup, struct maybe turned)
{
    const struct maybe share = move_rod_share(rod, setup_rod_turns(setup), turned);

    if (!move_is_done(rod) && !(turned.given && turned.value != 0))
        return false;
    return !rod->turns.given || !share.given || !(fabs(share.value - 1) < 1e-6);
}

void move_set_wait_for_reading(struct move_set *moves, const struct setup *setup,
                               struct maybe turned)
{
    if (!moves->restrung && !moves->retuned &&
        !is_rod_unread(&moves->move[MOVE_ROD], setup, turned))
        return;
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        if (kind != MOVE_FRETS) /* crowns stand among their neighbours as they did */
            wait_open(moves, (enum move_kind)kind, WAIT_AGAIN);
}

/* --- what was done --- */

void move_set_mark(struct move_set *moves, struct place place)
{
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        moves->move[kind].done_by = work_mark_line(place, (enum move_kind)kind);
    moves->restrung = work_mark_is_restrung(place);
    moves->retuned = work_mark_is_retuned(place);
}

bool move_reaches(const struct move_set *moves, const struct setup *setup, enum move_kind kind,
                  int string)
{
    const struct move *move = &moves->move[kind];

    if (move->state != MOVE_DUE || string == 0 || setup->outfit.lap || !move_is_by_string(kind) ||
        move->raise.given || move->whole ||
        (kind == MOVE_SADDLE && !setup_has_own_height(setup, string)))
        return move->state == MOVE_DUE;
    return move->string[string].due;
}

bool move_is_done(const struct move *move)
{
    return move->done_by > 0 && move->state == MOVE_DUE;
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
    return move->state == MOVE_UNKNOWN && move->needs != NEED_EXPOSURE &&
           move->needs != NEED_NOTHING;
}

enum move_kind move_set_last_due(const struct move_set *moves)
{
    enum move_kind last = MOVE_COUNT_;

    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        if (move_is_measured((enum move_kind)kind) && moves->move[kind].state == MOVE_DUE)
            last = (enum move_kind)kind;
    /* Level frets alone move what the gauges read over them. */
    return last == MOVE_COUNT_ && moves->move[MOVE_FRETS].state == MOVE_DUE ? MOVE_SLOTS : last;
}

bool move_waits_for_ear(const struct move *move)
{
    return move->state == MOVE_UNKNOWN &&
           (move->needs == NEED_HEARING || move->needs == NEED_TUNING);
}

bool move_is_asked(const struct move *move)
{
    return move->state >= MOVE_WAITS || move_is_missed(move);
}

/* The slots rest on gaps and actions, and so does the saddle. */
enum questioned move_set_question(const struct move_set *moves, enum move_kind kind,
                                  int *ret_string)
{
    if (kind == MOVE_ROD) {
        *ret_string = 0;
        return moves->questioned[BELIEF_RELIEF][0];
    }
    for (int s = 1; s <= STRINGS_MAX && (kind == MOVE_SLOTS || kind == MOVE_SADDLE); s++)
        for (int row = BELIEF_GAP; row <= BELIEF_ACTION; row++)
            if (moves->questioned[row][s] != QUESTIONED_NOT) {
                *ret_string = s;
                return moves->questioned[row][s];
            }
    return QUESTIONED_NOT;
}

static enum belief_row row_of(enum field_id field)
{
    return field == FIELD_RELIEF    ? BELIEF_RELIEF
           : field == FIELD_NUT_GAP ? BELIEF_GAP
           : field == FIELD_ACTION  ? BELIEF_ACTION
                                    : BELIEF_ROWS_;
}

bool move_set_questions(const struct move_set *moves, enum field_id field, int string)
{
    return row_of(field) < BELIEF_ROWS_ && moves->questioned[row_of(field)][string];
}

bool move_set_tells(const struct move_set *moves, enum field_id field)
{
    return moves->by_passes && row_of(field) < BELIEF_ROWS_;
}

bool move_set_holds(const struct move_set *moves, enum field_id field, int string)
{
    return move_set_tells(moves, field) && moves->holds[row_of(field)][string];
}

bool move_set_is_questioned(const struct move_set *moves)
{
    for (int row = 0; row < BELIEF_ROWS_; row++)
        for (int s = 0; s <= STRINGS_MAX; s++)
            if (moves->questioned[row][s])
                return true;
    return false;
}

enum move_verdict move_set_verdict(const struct move_set *moves)
{
    if (move_is_open(&moves->move[MOVE_RESET]))
        return MOVES_RESET;
    if (move_set_count(moves, move_is_open) > 0)
        return MOVES_WORK;
    if (move_set_count(moves, move_is_missed) > 0 || move_set_count(moves, move_is_done) > 0 ||
        move_set_is_questioned(moves) || moves->restrung || moves->retuned ||
        move_set_settles(moves))
        return MOVES_MEASURE;
    return MOVES_READY;
}

enum reset_verdict move_set_reset(const struct move_set *moves)
{
    switch (moves->move[MOVE_RESET].state) {
    case MOVE_DUE:
        return RESET_NECK;
    case MOVE_GOOD:
        return RESET_SADDLE;
    case MOVE_UNKNOWN:
    case MOVE_WAITS:
        break;
    }
    return RESET_UNKNOWN;
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
