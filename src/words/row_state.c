/* SPDX-License-Identifier: MIT */
#include "words/row_state.h"

#include <math.h>

#include "model/setup/bench_goal.h"
#include "words/amount.h"

const char *row_verdict_word(enum row_verdict verdict)
{
    static const char *const words[] = {
        [VERDICT_NONE] = "",   [VERDICT_GOOD] = "good",   [VERDICT_HIGH] = "high",
        [VERDICT_LOW] = "low", [VERDICT_MIXED] = "mixed",
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

static void add_target(const struct bench_row *row, const struct record *record,
                       const struct setup *setup, const struct shop_units *units,
                       struct row_state *state)
{
    const enum unit unit = field_bare_unit(field_get(row->field[END_BASS]), units);
    /* A gap may be read held down, but the target is always for the open string. */
    const char *behind = row->read_held && setup->nut_method == NUT_HELD_3 ? " open" : "";
    struct strbuf text = STRBUF(state->target), bare = STRBUF(state->target_bare);
    const bool least = row->goal == GOAL_LEAST;
    const struct maybe bass =
        least ? maybe_given(setup_low_exposure_mm(setup)) : bench_goal_at(row, record, END_BASS);
    const struct maybe treble = least ? bass : bench_goal_at(row, record, END_TREBLE);

    if (!bass.given && !treble.given)
        return;
    amount_add_range(&bare, amount_on_rule(maybe_or(bass, treble.value), unit),
                     amount_on_rule(maybe_or(treble, bass.value), unit), unit);
    strbuf_add(&text, state->target_bare);
    amount_add_unit(&text, unit);
    strbuf_add(&text, behind);
    strbuf_add(&bare, behind);
}

static enum row_verdict judge_rod(const struct move *rod)
{
    if (rod->state == MOVE_UNKNOWN)
        return VERDICT_NONE;
    return rod->state == MOVE_GOOD ? VERDICT_GOOD : joined(VERDICT_NONE, rod->amount.value);
}

/* Of what is put off the strings that are off count; which these are is no longer said by `due`. */
static enum row_verdict judge_strings(const struct move *move, double tolerance_mm)
{
    enum row_verdict verdict = move->state == MOVE_UNKNOWN ? VERDICT_NONE : VERDICT_GOOD;

    for (int s = 1; s <= STRINGS_MAX && move->state >= MOVE_WAITS; s++) {
        const struct move_amount *amount = &move->string[s];

        if (amount->known && setup_is_off(amount->value, fmax(tolerance_mm, amount->u)) &&
            (amount->due || move->state == MOVE_WAITS))
            verdict = joined(verdict, amount->value);
    }
    return verdict;
}

/* Whether a plain comparison of what is believed with what is wanted says the same as the verdict:
 * a good row nothing beyond its tolerance and doubt, another one something that way. */
static bool says_the_same(const struct bench_row *row, const struct record *record,
                          const struct derived *derived, double tolerance_mm,
                          enum row_verdict verdict)
{
    const int strings = derived->setup.board.strings;
    const struct believed *read =
        row->move == MOVE_SLOTS ? derived->moves.gap : derived->moves.action;
    bool high = false, low = false;

    for (int s = 1; s <= strings; s++) {
        const struct maybe wanted = bench_goal_on(row, record, strings, s);

        if (read[s].mm.given && wanted.given &&
            setup_is_off(read[s].mm.value - wanted.value,
                         verdict == VERDICT_GOOD ? tolerance_mm + read[s].u : tolerance_mm / 2)) {
            high = high || read[s].mm.value > wanted.value;
            low = low || read[s].mm.value < wanted.value;
        }
    }
    switch (verdict) {
    case VERDICT_GOOD:
        return !high && !low;
    case VERDICT_HIGH:
        return high;
    case VERDICT_LOW:
        return low;
    case VERDICT_NONE:
    case VERDICT_MIXED:
        break;
    }
    return true;
}

static enum row_verdict judge_exposure(const struct move *reset)
{
    if (reset->state == MOVE_UNKNOWN)
        return VERDICT_NONE;
    return reset->state == MOVE_DUE || reset->little ? VERDICT_LOW : VERDICT_GOOD;
}

void row_state_find(const struct record *record, const struct derived *derived,
                    const struct shop_units *units, enum bench_row_id id,
                    struct row_state *ret_state)
{
    const struct bench_row *row = bench_row_get(id);
    const struct move *move = &derived->moves.move[row->move];

    *ret_state = (struct row_state){.verdict = VERDICT_NONE};
    if (row->goal == GOAL_NONE)
        return;
    add_target(row, record, &derived->setup, units, ret_state);
    if (row->move == MOVE_RESET) {
        ret_state->verdict = judge_exposure(move);
    } else if (row->move == MOVE_ROD) {
        ret_state->verdict = judge_rod(move);
    } else {
        const double tolerance_mm = record_or_fallback(record, row->tolerance);

        ret_state->verdict = judge_strings(move, tolerance_mm);
        ret_state->then = !says_the_same(row, record, derived, tolerance_mm, ret_state->verdict);
    }
}
