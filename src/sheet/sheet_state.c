/* SPDX-License-Identifier: MIT */
#include "sheet/sheet_state.h"

#include <math.h>

#include "model/reading/work_since.h"
#include "words/row_state.h"

void sheet_spread_widen(struct sheet_spread *spread, const struct maybe *read,
                        const struct maybe *wanted)
{
    if (!read->given || !wanted->given)
        return;
    spread->over_mm = fmax(spread->over_mm, read->value - wanted->value);
    spread->under_mm = fmax(spread->under_mm, wanted->value - read->value);
}

/* Whether these are the readings as they were left. */
static bool is_last(const struct sheet_maker *maker, const struct derived *derived)
{
    return derived == &maker->left || !sheet_has_both(maker);
}

static void add_word(struct sheet_maker *maker, const struct derived *derived,
                     enum row_verdict verdict, bool now)
{

    char memory[24];
    struct strbuf text = STRBUF(memory);

    maker->says_now = maker->says_now || now;
    maker->says_off = maker->says_off || (is_last(maker, derived) && verdict > VERDICT_GOOD);
    strbuf_add(&text, row_verdict_word(verdict));
    strbuf_add(&text, now ? " now" : "");
    sheet_add_cell(maker->sheet, memory);
}

/* Whether what is still to be done may change a state: not that of the first of several passes. */
static bool is_open(const struct sheet_maker *maker, const struct derived *derived)
{
    return is_last(maker, derived) && move_set_count(&derived->moves, move_is_open) > 0;
}

static enum row_verdict verdict_of(const struct sheet_maker *maker, const struct derived *derived,
                                   enum bench_row_id id)
{
    struct row_state state;

    row_state_find(maker->record, derived, &maker->ask->units, id, &state);
    return state.verdict;
}

/* By the numbers alone, as an owner compares them. */
static enum row_verdict plainly(const struct sheet_spread *spread, double allowed_mm)
{
    const bool over = setup_is_off(spread->over_mm, allowed_mm);
    const bool under = setup_is_off(spread->under_mm, allowed_mm);

    return over && under ? VERDICT_MIXED : over ? VERDICT_HIGH : under ? VERDICT_LOW : VERDICT_GOOD;
}

/* What an owner sees by the numbers; more than a step, which one hand reads and another does not,
 * is off where there is work for it. */
static enum row_verdict said_of(enum row_verdict verdict, const struct sheet_spread *spread,
                                bool has_work, double tolerance_mm, double step_mm)
{
    const enum row_verdict strict = plainly(spread, step_mm);

    if (verdict == VERDICT_NONE || (has_work && verdict > VERDICT_NEAR && verdict == strict))
        return verdict;
    return plainly(spread, tolerance_mm + step_mm);
}

/* Whether the bench says the same, if in a stronger word. */
static bool agrees(enum row_verdict said, enum row_verdict verdict,
                   const struct sheet_spread *spread, double step_mm)
{
    const enum row_verdict word = plainly(spread, step_mm / 2);

    return said == verdict ||
           (said == VERDICT_GOOD && (verdict == VERDICT_NEAR || verdict == word));
}

void sheet_add_state(struct sheet_maker *maker, const struct derived *derived, enum bench_row_id id,
                     const struct sheet_spread *spread)
{
    const struct setup *setup = &maker->left.setup;
    const struct bench_row *row = bench_row_in(&setup->outfit, (int)id);
    const enum row_verdict verdict = verdict_of(maker, derived, id);
    const bool by_rule = field_get(row->field[END_BASS])->measure == MEASURE_RULE;
    const double step_mm = by_rule ? setup->rule_step_mm : setup->feeler_step_mm;

    if (row->goal == GOAL_NONE) {
        add_word(maker, derived, verdict, false);
        return;
    }
    const double tolerance_mm = record_or_fallback(maker->record, row->tolerance);
    const bool has_work = derived->moves.move[row->move].state >= MOVE_WAITS;
    const enum row_verdict said = said_of(verdict, spread, has_work, tolerance_mm, step_mm);
    const bool now = !agrees(said, verdict, spread, step_mm) && is_open(maker, derived);

    if (said == VERDICT_GOOD && is_last(maker, derived))
        maker->says_good |= MOVE_BIT(row->move);
    add_word(maker, derived, said, now);
}

void sheet_add_end_state(struct sheet_maker *maker, const struct derived *derived,
                         enum bench_end end, const struct maybe *read)
{
    const int string = end == END_BASS ? derived->setup.board.strings : 1;
    const struct move *saddle = &derived->moves.move[MOVE_SADDLE];
    const struct move_amount *change = &saddle->string[string];
    const double wanted_mm = derived->setup.exposure_low_mm;
    const double change_mm = saddle->state >= MOVE_WAITS && change->known ? change->value : 0;
    const bool enough = read->value >= wanted_mm;
    const bool enough_then = read->value + change_mm >= wanted_mm;

    if (!read->given)
        sheet_add_cell(maker->sheet, NULL);
    else
        add_word(maker, derived, enough ? VERDICT_GOOD : VERDICT_LOW,
                 enough != enough_then && is_open(maker, derived));
}
