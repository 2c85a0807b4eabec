/* SPDX-License-Identifier: MIT */
#include "sheet/sheet_state.h"

#include <math.h>

#include "words/row_state.h"

void sheet_spread_widen(struct sheet_spread *spread, const struct maybe *read,
                        const struct maybe *wanted)
{
    if (!read->given || !wanted->given)
        return;
    spread->over_mm = fmax(spread->over_mm, read->value - wanted->value);
    spread->under_mm = fmax(spread->under_mm, wanted->value - read->value);
}

static void add_word(struct sheet_maker *maker, enum row_verdict verdict, bool then)
{
    char memory[24];
    struct strbuf text = STRBUF(memory);

    maker->says_then = maker->says_then || then;
    strbuf_add(&text, then ? "then " : "");
    strbuf_add(&text, row_verdict_word(verdict));
    sheet_add_cell(maker->sheet, memory);
}

static enum row_verdict verdict_of(const struct sheet_maker *maker, const struct derived *derived,
                                   enum bench_row_id id)
{
    struct row_state state;

    row_state_find(maker->record, derived, &maker->ask->units, id, &state);
    return state.verdict;
}

/* Less than half a step is not seen on the gauge. */
static bool is_plain(const struct sheet_maker *maker, const struct bench_row *row,
                     enum row_verdict verdict, const struct sheet_spread *spread)
{
    const struct setup *setup = &maker->left.setup;
    const bool by_rule = field_get(row->field[END_BASS])->measure == MEASURE_RULE;
    const double step_mm = by_rule ? setup->rule_step_mm : setup->feeler_step_mm;
    const bool over = spread->over_mm > step_mm / 2, under = spread->under_mm > step_mm / 2;

    switch (verdict) {
    case VERDICT_GOOD:
        return !setup_is_off(fmax(spread->over_mm, spread->under_mm),
                             record_or_fallback(maker->record, row->tolerance) + step_mm);
    case VERDICT_HIGH:
        return over;
    case VERDICT_LOW:
        return under;
    case VERDICT_MIXED:
        return over && under;
    case VERDICT_NONE:
    case VERDICT_AGAIN:
        break;
    }
    return true;
}

void sheet_add_state(struct sheet_maker *maker, const struct derived *derived, enum bench_row_id id,
                     const struct sheet_spread *spread)
{
    const struct bench_row *row = bench_row_in(&maker->left.setup.outfit, (int)id);
    const enum row_verdict verdict = verdict_of(maker, derived, id);

    add_word(maker, verdict, row->goal != GOAL_NONE && !is_plain(maker, row, verdict, spread));
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

    if (!read->given || verdict_of(maker, derived, ROW_EXPOSURE) == VERDICT_NONE)
        sheet_add_cell(maker->sheet, NULL);
    else
        add_word(maker, enough_then ? VERDICT_GOOD : VERDICT_LOW, enough != enough_then);
}
