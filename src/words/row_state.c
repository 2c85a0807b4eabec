/* SPDX-License-Identifier: MIT */
#include "words/row_state.h"

#include <math.h>

#include "model/setup/bench_goal.h"
#include "words/amount.h"

const char *row_verdict_word(enum row_verdict verdict)
{
    static const char *const words[] = {
        [VERDICT_NONE] = "",       [VERDICT_GOOD] = "good", [VERDICT_NEAR] = "near",
        [VERDICT_HIGH] = "high",   [VERDICT_LOW] = "low",   [VERDICT_MIXED] = "mixed",
        [VERDICT_AGAIN] = "again",
    };
    return words[verdict];
}

/* One more amount of a row's move comes to its verdict: what has to come down is high. */
static enum row_verdict joined(enum row_verdict so_far, double change_mm)
{
    const enum row_verdict here = change_mm < 0 ? VERDICT_HIGH : VERDICT_LOW;

    if (so_far == VERDICT_NONE || so_far == VERDICT_GOOD || so_far == here)
        return here;
    return VERDICT_MIXED;
}

static struct maybe wanted_at(const struct bench_row *row, const struct record *record,
                              const struct setup *setup, enum bench_end end)
{
    return row->goal == GOAL_LEAST ? maybe_given(setup->exposure_low_mm)
                                   : bench_goal_at(row, record, end);
}

/* A gap that is read held down is wanted so too, as far as the board and the targets tell. */
static void add_target(const struct bench_row *row, const struct record *record,
                       const struct setup *setup, const struct shop_units *units,
                       struct row_state *state)
{
    const enum unit unit = field_bare_unit(field_get(row->field[END_BASS]), units);
    struct strbuf text = STRBUF(state->target), bare = STRBUF(state->target_bare);
    const char *behind = "";
    struct maybe bass = wanted_at(row, record, setup, END_BASS);
    struct maybe treble = wanted_at(row, record, setup, END_TREBLE);

    if (!bass.given && !treble.given)
        return;
    if (bench_goal_is_held(row, setup)) {
        const struct maybe low = bench_goal_read(row, record, setup, setup->board.strings);
        const struct maybe high = bench_goal_read(row, record, setup, 1);

        behind = low.given && high.given ? " held" : " open";
        bass = low.given && high.given ? low : bass;
        treble = low.given && high.given ? high : treble;
    }
    amount_add_range(&bare, amount_on_rule(maybe_or(bass, treble.value), unit),
                     amount_on_rule(maybe_or(treble, bass.value), unit), unit);
    strbuf_add(&text, state->target_bare);
    amount_add_unit(&text, unit);
    strbuf_add(&text, behind);
    strbuf_add(&bare, behind);
}

/* A relief that no rod moves is called what it is. */
static enum row_verdict judge_rod(const struct setup *setup, const struct move *rod)
{
    if (!rod->amount.known)
        return VERDICT_NONE;
    /* One that is right and waits for a reset is right all the same. */
    if ((rod->state == MOVE_GOOD || rod->state == MOVE_WAITS) && !rod->amount.off)
        return VERDICT_GOOD;
    if (rod->state == MOVE_GOOD && move_rod_turns(setup, rod))
        return VERDICT_NEAR;
    return joined(VERDICT_NONE, rod->amount.value);
}

/* What is off its tolerance and left all the same: near, or beyond doubt what it is. */
static enum row_verdict judge_left(const struct move *move)
{
    enum row_verdict verdict = VERDICT_NONE;

    for (int s = 1; s <= STRINGS_MAX; s++)
        if (move->string[s].off && fabs(move->string[s].value) > move->string[s].u)
            verdict = joined(verdict, move->string[s].value);
    if (verdict != VERDICT_NONE)
        return verdict;
    return move_is_off(move) ? VERDICT_NEAR : VERDICT_GOOD;
}

/* What is off beyond doubt counts where nothing is done about it now. Of what is put off the
 * strings that are off count; which these are is no longer said by `due`. */
static enum row_verdict judge_strings(const struct move *move, double tolerance_mm)
{
    enum row_verdict verdict = move->state == MOVE_UNKNOWN ? VERDICT_NONE : VERDICT_GOOD;

    for (int s = 1; s <= STRINGS_MAX && move->state >= MOVE_WAITS; s++) {
        const struct move_amount *amount = &move->string[s];

        if (amount->known && setup_is_off(amount->value, fmax(tolerance_mm, amount->u)) &&
            (amount->due || amount->off || move->state == MOVE_WAITS))
            verdict = joined(verdict, amount->value);
    }
    return verdict == VERDICT_GOOD ? judge_left(move) : verdict;
}

/* What is believed of a string, as the row's gauge reads it. */
static struct believed read_on(const struct bench_row *row, const struct derived *derived,
                               int string)
{
    const struct move_set *moves = &derived->moves;
    struct believed read = row->move == MOVE_SLOTS ? moves->gap[string] : moves->action[string];

    if (bench_goal_is_held(row, &derived->setup))
        read.mm = moves->held[string].mm;
    return read;
}

/* Whether a plain comparison of what is believed with what is wanted says the same as the verdict:
 * a good row nothing beyond its tolerance and doubt, another one something that way. */
static bool says_the_same(const struct bench_row *row, const struct record *record,
                          const struct derived *derived, double tolerance_mm,
                          enum row_verdict verdict)
{
    bool high = false, low = false;

    for (int s = 1; s <= derived->setup.board.strings; s++) {
        const struct maybe wanted = bench_goal_read(row, record, &derived->setup, s);
        const struct believed read = read_on(row, derived, s);

        if (read.mm.given && wanted.given &&
            setup_is_off(read.mm.value - wanted.value,
                         verdict == VERDICT_GOOD || verdict == VERDICT_NEAR ? tolerance_mm + read.u
                                                                            : tolerance_mm / 2)) {
            high = high || read.mm.value > wanted.value;
            low = low || read.mm.value < wanted.value;
        }
    }
    switch (verdict) {
    case VERDICT_GOOD:
    case VERDICT_NEAR:
        return !high && !low;
    case VERDICT_HIGH:
        return high;
    case VERDICT_LOW:
        return low;
    case VERDICT_NONE:
    case VERDICT_MIXED:
    case VERDICT_AGAIN:
        break;
    }
    return true;
}

/* Whether any saddle would run out of travel. */
static bool any_short(const struct derived *derived)
{
    const struct move *saddle = &derived->moves.move[MOVE_SADDLE];

    for (int s = 1; s <= derived->setup.board.strings; s++)
        if (saddle->short_mm[s].given && saddle->string[s].due)
            return true;
    return false;
}

static enum row_verdict judge_exposure(const struct move *reset)
{
    if (reset->state == MOVE_UNKNOWN)
        return VERDICT_NONE;
    return reset->state == MOVE_DUE || reset->little ? VERDICT_LOW : VERDICT_GOOD;
}

/* Other strings bend the neck otherwise than it was read. */
static bool relief_says_the_same(const struct record *record, const struct derived *derived,
                                 enum row_verdict verdict)
{
    const struct maybe read = figures_get(&derived->figures, FIGURE_RELIEF, 0);
    const struct maybe wanted = record_entered_one(record, FIELD_TARGET_RELIEF);
    const double over_mm = read.value - wanted.value;

    if (!read.given || !wanted.given)
        return true;
    switch (verdict) {
    case VERDICT_GOOD:
    case VERDICT_NEAR:
        return !setup_is_off(over_mm, record_or_fallback(record, FIELD_RELIEF_TOLERANCE) +
                                          derived->setup.feeler_step_mm);
    case VERDICT_HIGH:
        return over_mm > derived->setup.feeler_step_mm / 2;
    case VERDICT_LOW:
        return over_mm < -derived->setup.feeler_step_mm / 2;
    case VERDICT_NONE:
    case VERDICT_MIXED:
    case VERDICT_AGAIN:
        break;
    }
    return true;
}

/* Whether what was read of the saddle, before anything is taken off it, says the same; where an
 * earlier pass read it there is nothing to contradict. */
static bool stands_so(const struct setup *setup, enum row_verdict verdict)
{
    const struct maybe bass = setup->exposure_bass_mm, treble = setup->exposure_treble_mm;
    const double least_mm = fmin(maybe_or(bass, treble.value), maybe_or(treble, bass.value));

    return (!bass.given && !treble.given) || verdict == VERDICT_NONE ||
           (verdict == VERDICT_GOOD) == (least_mm >= setup->exposure_low_mm);
}

static bool is_questioned(const struct bench_row *row, const struct derived *derived)
{
    for (int s = 0; s <= STRINGS_MAX; s++)
        if (move_set_questions(&derived->moves, row->field[END_BASS], s))
            return true;
    return false;
}

void row_state_find(const struct record *record, const struct derived *derived,
                    const struct shop_units *units, enum bench_row_id id,
                    struct row_state *ret_state)
{
    const struct bench_row *row = bench_row_in(&derived->setup.outfit, (int)id);
    const struct move *move = &derived->moves.move[row->move];

    *ret_state = (struct row_state){.verdict = VERDICT_NONE};
    if (row->goal == GOAL_NONE)
        return;
    add_target(row, record, &derived->setup, units, ret_state);
    if (row->move == MOVE_RESET) {
        ret_state->verdict = judge_exposure(move);
        ret_state->then = !stands_so(&derived->setup, ret_state->verdict);
        if (ret_state->verdict != VERDICT_LOW && any_short(derived)) {
            ret_state->verdict = VERDICT_LOW;
            ret_state->then = true;
        }
    } else if (row->move == MOVE_ROD) {
        ret_state->verdict = judge_rod(&derived->setup, move);
        ret_state->then = !relief_says_the_same(record, derived, ret_state->verdict);
    } else {
        const double tolerance_mm = record_or_fallback(record, row->tolerance);

        ret_state->verdict = judge_strings(move, tolerance_mm);
        ret_state->then = !says_the_same(row, record, derived, tolerance_mm, ret_state->verdict);
    }
    if ((ret_state->verdict == VERDICT_GOOD || ret_state->verdict == VERDICT_NEAR) &&
        is_questioned(row, derived)) {
        ret_state->verdict = VERDICT_AGAIN;
        ret_state->then = false;
    }
}
