/* SPDX-License-Identifier: MIT */
#include "words/row_state.h"

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

/* The verdict on a row so far, with one more cell's difference from its target. */
static enum row_verdict joined(enum row_verdict so_far, double off_mm, double tolerance_mm)
{
    enum row_verdict here = VERDICT_GOOD;

    if (setup_is_off(off_mm, tolerance_mm))
        here = off_mm > 0 ? VERDICT_HIGH : VERDICT_LOW;
    if (so_far == VERDICT_NONE || so_far == VERDICT_GOOD || so_far == here)
        return here;
    return here == VERDICT_GOOD ? so_far : VERDICT_MIXED;
}

static void add_target(const struct bench_row *row, const struct record *record,
                       const struct setup *setup, const struct shop_units *units,
                       struct row_state *state)
{
    const enum unit unit = field_bare_unit(field_get(row->field[END_BASS]), units);
    /* A gap may be read held down, but the target is always for the open string. */
    const char *behind = row->read_held && setup->nut_method == NUT_HELD_3 ? " open" : "";
    struct strbuf text = STRBUF(state->target), bare = STRBUF(state->target_bare);
    const struct maybe bass = bench_goal_at(row, record, END_BASS);
    const struct maybe treble = bench_goal_at(row, record, END_TREBLE);

    if (!bass.given && !treble.given)
        return;
    amount_add_range(&bare, amount_on_rule(maybe_or(bass, treble.value), unit),
                     amount_on_rule(maybe_or(treble, bass.value), unit), unit);
    strbuf_add(&text, state->target_bare);
    amount_add_unit(&text, unit);
    strbuf_add(&text, behind);
    strbuf_add(&bare, behind);
}

/* A row that is read once has one figure; else every string that is known counts. */
static enum row_verdict judge_near(const struct bench_row *row, const struct record *record,
                                   const struct derived *derived)
{
    const int strings = derived->setup.board.strings;
    const bool by_string = bench_row_by_string(row);
    const double tolerance_mm = record_or_fallback(record, row->tolerance);
    enum row_verdict verdict = VERDICT_NONE;

    for (int s = 1; s <= (by_string ? strings : 1); s++) {
        const struct maybe is =
            figures_get(&derived->figures, row->judged[END_BASS], by_string ? s : 0);
        const struct maybe wanted = bench_goal_on(row, record, strings, s);

        if (is.given && wanted.given)
            verdict = joined(verdict, is.value - wanted.value, tolerance_mm);
    }
    return verdict;
}

/* Without both ends there is no verdict. */
static enum row_verdict judge_least(const struct bench_row *row, const struct record *record,
                                    const struct derived *derived)
{
    enum row_verdict verdict = VERDICT_GOOD;

    for (int end = 0; end < END_COUNT_; end++) {
        const struct maybe least = bench_goal_at(row, record, (enum bench_end)end);
        const struct maybe is = figures_get(&derived->figures, row->judged[end], 0);

        if (!least.given || !is.given)
            return VERDICT_NONE;
        if (is.value < least.value)
            verdict = VERDICT_LOW;
    }
    return verdict;
}

void row_state_find(const struct record *record, const struct derived *derived,
                    const struct shop_units *units, enum bench_row_id id,
                    struct row_state *ret_state)
{
    const struct bench_row *row = bench_row_get(id);

    *ret_state = (struct row_state){.verdict = VERDICT_NONE};
    if (row->goal == GOAL_NONE)
        return;
    add_target(row, record, &derived->setup, units, ret_state);
    ret_state->verdict = row->goal == GOAL_NEAR ? judge_near(row, record, derived)
                                                : judge_least(row, record, derived);
}
