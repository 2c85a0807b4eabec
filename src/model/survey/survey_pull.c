/* SPDX-License-Identifier: MIT */
#include "model/survey/survey_pull.h"

#include <math.h>
#include <string.h>

#include "model/neck/neck_beam.h"
#include "model/reading/record_access.h"

/* Wood's modulus scatters by a fifth from board to board (Wood Handbook FPL-GTR-190, ch. 5, gives
 * 22 % as coefficient of variation), and a rod under load carries a part: twice that in all. */
#define BEAM_SHARE_U 0.45
/* Necks of one kind differ by half and more: common practice, no published source. */
#define KIND_SHARE_U 0.7

static const struct {
    const char *kind;
    double mm_per_n;
} kinds[] = {
#define PULL(kind, mm_per_n) {kind, mm_per_n},
#include "model/survey/pull_table.h"
#undef PULL
};

static double kind_mm_per_n(const struct record *record)
{
    char kind[KIND_NAME_SIZE];

    if (record_kind(record, kind))
        for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
            if (strcmp(kinds[i].kind, kind) == 0)
                return kinds[i].mm_per_n;
    return kinds[0].mm_per_n;
}

static void find_bend(const struct record *record, const struct derived *derived, double before_n,
                      double after_n, struct survey_pull *pull)
{
    const struct maybe predicted_mm = figures_get(&derived->figures, FIGURE_RELIEF_PREDICTED, 0);
    double change_mm;

    pull->by_kind = !predicted_mm.given;
    pull->share_u = pull->by_kind ? KIND_SHARE_U : BEAM_SHARE_U;
    if (pull->by_kind)
        pull->bend_change_mm = maybe_finite(kind_mm_per_n(record) * (after_n - before_n));
    else if (neck_beam_scale_relief(predicted_mm.value, before_n, after_n, &change_mm) == STATUS_OK)
        pull->bend_change_mm = maybe_finite(change_mm);
}

/* As if a rod moved the relief so far. */
static void find_action(const struct derived *derived, struct survey_pull *pull)
{
    struct setup setup = derived->setup;
    struct figures figures = {0};

    setup.relief_target_mm = pull->relief_mm;
    setup.relief_tolerance_mm = 0;
    moves_solve(&setup, NULL, &figures, NULL, NULL);
    for (int s = 1; s <= setup.board.strings; s++) {
        const struct maybe now_mm = figures_get(&derived->figures, FIGURE_ACTION, s);

        pull->action_mm[s] = figures_get(&figures, FIGURE_ACTION_AFTER_ROD, s);
        if (pull->action_mm[s].given && now_mm.given)
            pull->action_u_mm[s] = maybe_finite(hypot(
                pull->share_u * (pull->action_mm[s].value - now_mm.value), setup.rule_step_mm / 2));
    }
}

void survey_pull(const struct record *record, const struct derived *derived, struct maybe before_n,
                 struct maybe after_n, struct survey_pull *ret_pull)
{
    const struct maybe relief_mm = figures_get(&derived->figures, FIGURE_RELIEF, 0);

    *ret_pull = (struct survey_pull){.by_kind = false};
    if (!derived->setup.has_board || !before_n.given || !after_n.given)
        return;
    find_bend(record, derived, before_n.value, after_n.value, ret_pull);
    if (!ret_pull->bend_change_mm.given || !relief_mm.given)
        return;
    ret_pull->relief_mm = maybe_finite(relief_mm.value + ret_pull->bend_change_mm.value);
    ret_pull->relief_u_mm = maybe_finite(hypot(ret_pull->share_u * ret_pull->bend_change_mm.value,
                                               derived->setup.feeler_step_mm / 2));
    if (ret_pull->relief_mm.given)
        find_action(derived, ret_pull);
}
