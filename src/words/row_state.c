/* SPDX-License-Identifier: MIT */
#include "words/row_state.h"

#include "words/amount.h"

const char *row_verdict_word(enum row_verdict verdict)
{
    static const char *const words[] = {
        [VERDICT_NONE] = "",   [VERDICT_GOOD] = "good",   [VERDICT_HIGH] = "high",
        [VERDICT_LOW] = "low", [VERDICT_MIXED] = "mixed",
    };
    return words[verdict];
}

/* One more difference from its target comes to a row's verdict. */
static enum row_verdict joined(enum row_verdict so_far, double off_mm, double tolerance_mm)
{
    enum row_verdict here = VERDICT_GOOD;

    if (setup_is_off(off_mm, tolerance_mm))
        here = off_mm > 0 ? VERDICT_HIGH : VERDICT_LOW;
    if (so_far == VERDICT_NONE || so_far == VERDICT_GOOD || so_far == here)
        return here;
    return here == VERDICT_GOOD ? so_far : VERDICT_MIXED;
}

static void add_target(struct row_state *state, const struct entered *first,
                       const struct entered *last, enum unit unit, const char *behind)
{
    struct strbuf text = STRBUF(state->target), bare = STRBUF(state->target_bare);

    if (!first->given && !last->given)
        return;
    amount_add_range(&bare, amount_on_rule(first->given ? first->value : last->value, unit),
                     amount_on_rule(last->given ? last->value : first->value, unit), unit);
    strbuf_add(&text, state->target_bare);
    amount_add_unit(&text, unit);
    strbuf_add(&text, behind);
    strbuf_add(&bare, behind);
}

static enum row_verdict judge_strings(const struct derived *derived, enum figure_id id,
                                      const struct entered *bass, const struct entered *treble,
                                      double tolerance_mm)
{
    const int strings = derived->setup.board.strings;
    enum row_verdict verdict = VERDICT_NONE;
    double value, target;

    for (int s = 1; s <= strings; s++)
        if (figures_get(&derived->figures, id, s, &value) &&
            setup_target_at(bass, treble, strings, s, &target))
            verdict = joined(verdict, value - target, tolerance_mm);
    return verdict;
}

static enum row_verdict judge_exposure(const struct derived *derived)
{
    switch (derived->verdict) {
    case RESET_SADDLE:
        return VERDICT_GOOD;
    case RESET_NECK:
        return VERDICT_LOW;
    case RESET_UNKNOWN:
        break;
    }
    return VERDICT_NONE;
}

void row_state_find(const struct derived *derived, const struct shop_units *units,
                    enum board_row row, struct row_state *ret_state)
{
    const struct setup *setup = &derived->setup;
    const struct entered least = {.value = setup->exposure_min_mm, .given = true};
    double relief;

    *ret_state = (struct row_state){.verdict = VERDICT_NONE};
    switch (row) {
    case ROW_RELIEF:
        add_target(ret_state, &setup->relief_target_mm, &setup->relief_target_mm,
                   units->bare[MEASURE_FEELER], "");
        if (setup->relief_target_mm.given &&
            figures_get(&derived->figures, FIGURE_RELIEF, 0, &relief))
            ret_state->verdict = joined(VERDICT_NONE, relief - setup->relief_target_mm.value,
                                        setup->relief_tolerance_mm);
        return;
    case ROW_GAP:
        add_target(ret_state, &setup->gap_target_bass_mm, &setup->gap_target_treble_mm,
                   units->bare[MEASURE_FEELER],
                   /* Gaps may be read held down; what is wanted is always the open one. */
                   setup->nut_method == NUT_HELD_3 ? " open" : "");
        ret_state->verdict =
            judge_strings(derived, FIGURE_GAP_AT_TARGET, &setup->gap_target_bass_mm,
                          &setup->gap_target_treble_mm, setup->gap_tolerance_mm);
        return;
    case ROW_ACTION:
        add_target(ret_state, &setup->action_target_bass_mm, &setup->action_target_treble_mm,
                   units->bare[MEASURE_RULE], "");
        ret_state->verdict =
            judge_strings(derived, FIGURE_ACTION, &setup->action_target_bass_mm,
                          &setup->action_target_treble_mm, setup->action_tolerance_mm);
        return;
    case ROW_EXPOSURE:
        add_target(ret_state, &least, &least, units->bare[MEASURE_DEPTH], "");
        ret_state->verdict = judge_exposure(derived);
        return;
    case ROW_COUNT_:
        return;
    }
}
