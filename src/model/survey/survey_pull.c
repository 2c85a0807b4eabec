/* SPDX-License-Identifier: MIT */
#include "model/survey/survey_pull.h"

#include <math.h>
#include <string.h>

#include "model/common/assumption.h"
#include "model/reading/record_access.h"
#include "model/survey/pull_answer.h"
#include "model/survey/pulls_seen.h"

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

/* Half of what a share of that kind comes to over two standard uncertainties (spread.h). */
static double share_u(enum assumption_id id)
{
    return sinh(2 * assumption_get(id)->u) / 2;
}

/* What is believed of the neck before it was seen to answer. */
static struct pull_answer believe(const struct record *record, const struct derived *derived,
                                  bool *ret_by_kind)
{
    const struct figure *bend = &derived->figures.at[FIGURE_RELIEF_PREDICTED][0];
    const struct maybe total_n = figures_get(&derived->figures, FIGURE_TENSION_TOTAL, 0);
    const double rod_u = setup_rod_turns(&derived->setup) ? assumption_get(ASSUME_ROD_TAKES)->u : 0;
    struct pull_answer answer;

    *ret_by_kind = bend->known == KNOWN_ABSENT || !total_n.given || !(total_n.value > 0);
    answer.mm_per_n = *ret_by_kind ? kind_mm_per_n(record) : bend->value / total_n.value;
    answer.u_mm_per_n = *ret_by_kind ? share_u(ASSUME_KIND) * answer.mm_per_n
                                     : hypot(bend->u / 2 / total_n.value, rod_u * answer.mm_per_n);
    return answer;
}

/* Standard uncertainty of a change of pull. */
static double change_u_n(const struct pull_change *change)
{
    const double before_n = change->before_n.value, after_n = change->after_n.value;

    return assumption_get(ASSUME_PULL)->u *
           (change->other_strings ? hypot(before_n, after_n) : fabs(after_n - before_n));
}

static void find_bend(const struct record *record, const struct derived *derived,
                      const struct pull_change *change, struct survey_pull *pull)
{
    const double more_n = change->after_n.value - change->before_n.value;
    const struct pull_answer prior = believe(record, derived, &pull->by_kind);
    struct pull_seen seen[PULLS_SEEN_MAX];
    struct pull_answer answer = prior;

    pull->seen = pulls_seen_find(record, &prior, seen);
    if (pull_answer_combine(&prior, seen, pull->seen, &answer) != STATUS_OK)
        pull->seen = 0;
    pull->bend_change_mm = maybe_finite(answer.mm_per_n * more_n);
    pull->bend_u_mm = 2 * hypot(answer.u_mm_per_n * more_n, answer.mm_per_n * change_u_n(change));
}

/* The actions as if a rod moved the relief to where it is wanted. */
static void act_at(const struct derived *derived, double relief_mm, struct figures *figures)
{
    struct setup setup = derived->setup;

    setup.relief_target_mm = maybe_given(relief_mm);
    setup.relief_tolerance_mm = 0;
    moves_solve(&setup, NULL, figures, NULL, NULL);
}

/* Its +- is the reading's, and what the bend's does to it. */
static void find_action(const struct derived *derived, struct survey_pull *pull)
{
    struct figures middle = {0}, more = {0};

    act_at(derived, pull->relief_mm.value, &middle);
    act_at(derived, pull->relief_mm.value + pull->bend_u_mm, &more);
    for (int s = 1; s <= derived->setup.board.strings; s++) {
        const struct figure *now = &derived->figures.at[FIGURE_ACTION][s];
        const struct maybe then = figures_get(&middle, FIGURE_ACTION_AFTER_ROD, s);
        const struct maybe then_more = figures_get(&more, FIGURE_ACTION_AFTER_ROD, s);

        pull->action_mm[s] = then;
        if (then.given && then_more.given && now->known != KNOWN_ABSENT)
            pull->action_u_mm[s] = maybe_finite(hypot(then_more.value - then.value, now->u));
    }
}

void survey_pull(const struct record *record, const struct derived *derived,
                 const struct pull_change *change, struct survey_pull *ret_pull)
{
    const struct figure *relief = &derived->figures.at[FIGURE_RELIEF][0];

    *ret_pull = (struct survey_pull){.by_kind = false};
    if (!derived->setup.has_board || !change->before_n.given || !change->after_n.given)
        return;
    find_bend(record, derived, change, ret_pull);
    if (!ret_pull->bend_change_mm.given || relief->known == KNOWN_ABSENT)
        return;
    ret_pull->relief_mm = maybe_finite(relief->value + ret_pull->bend_change_mm.value);
    ret_pull->relief_u_mm = maybe_finite(hypot(ret_pull->bend_u_mm, relief->u));
    if (ret_pull->relief_mm.given && ret_pull->relief_u_mm.given)
        find_action(derived, ret_pull);
}
