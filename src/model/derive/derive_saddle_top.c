/* SPDX-License-Identifier: MIT */
#include "model/derive/derive_saddle_top.h"

#include <math.h>

#include "model/derive/string_places.h"
#include "model/frets/saddle_top.h"
#include "model/reading/record_access.h"
#include "model/setup/string_target.h"

static void centre(double place_mm[STRINGS_MAX + 1], int strings, int treble, int bass)
{
    const double middle = (place_mm[treble] + place_mm[bass]) / 2;

    for (int s = 1; s <= strings; s++)
        place_mm[s] -= middle;
}

/* The top is that under the strings in the nut's slots: one that starts higher has a notch of its
 * own. The crest is midway between the outer two, at the saddle of all strings. */
static void find_outer(const struct outfit *outfit, struct saddle_top_plan *plan)
{
    plan->treble = 1;
    plan->bass = outfit->strings;
    centre(plan->saddle_mm, outfit->strings, plan->treble, plan->bass);
    while (!outfit_has_slot(outfit, plan->treble))
        plan->treble++;
    while (!outfit_has_slot(outfit, plan->bass))
        plan->bass--;
    centre(plan->nut_mm, outfit->strings, plan->treble, plan->bass);
}

/* All but the heights; false where something is not known. */
static bool plan_board(const struct record *record, const struct setup *setup,
                       const struct string_facts *facts, struct saddle_top_plan *plan)
{
    const struct board *board = &setup->board;
    const struct maybe nut = record_entered_one(record, FIELD_RADIUS_NUT);
    const struct maybe end = record_entered_one(record, FIELD_RADIUS_END);

    if (!setup->has_board || board->strings < 2 || board->frets < 1 || !board->has_curve ||
        !nut.given || !end.given ||
        !string_places_nut(record, facts, &setup->outfit, plan->nut_mm) ||
        !string_places_saddle(record, facts, &setup->outfit, plan->saddle_mm))
        return false;
    plan->board = board;
    plan->radius_nut_mm = nut.value;
    plan->radius_end_mm = end.value;
    plan->end_mm = maybe_or(setup->board_end_mm, board->station_mm[LANE_MIDDLE][board->frets]);
    find_outer(&setup->outfit, plan);
    return true;
}

/* Gap and action at their targets, over a neck that is. */
static bool plan_wanted(const struct setup *setup, struct saddle_top_plan *plan)
{
    const struct board *board = &setup->board;
    const int k = board->action_fret;
    struct neck_curve curve = {0};

    if (!board->has_relief || k < 2 || !setup->relief_target_mm.given)
        return false;
    curve.kappa_per_mm = neck_curve_kappa_for(board, setup->relief_target_mm.value);
    for (int s = 1; s <= board->strings; s++) {
        const struct maybe gap = string_target_gap(setup, s);
        const struct maybe action = string_target_action(setup, s);
        const int first = board_gap_fret(board, s);
        const double x1 = board->station_mm[s][first], xk = board->station_mm[s][k];
        const double u1 = neck_curve_height_mm(&curve, board, s, first) + gap.value;
        const double uk = neck_curve_height_mm(&curve, board, s, k) + action.value;

        if (!gap.given || !action.given)
            return false;
        plan->over_chord_mm[s] = u1 + (uk - u1) * (board->contact_mm[s] - x1) / (xk - x1);
    }
    return true;
}

static bool plan_now(const struct string_lines *lines, struct saddle_top_plan *plan)
{
    for (int s = 1; s <= plan->board->strings; s++) {
        plan->over_chord_mm[s] = lines->now[s].saddle_mm;
        if (!lines->has_now || !lines->now[s].known)
            return false;
    }
    return true;
}

static void put_wanted(const struct saddle_top_plan *plan, struct figures *figures)
{
    double over_mm[STRINGS_MAX + 1];

    if (saddle_top_heights(plan, over_mm) != STATUS_OK)
        return;
    for (int s = plan->treble + 1; s < plan->bass; s++)
        figures_set(figures, FIGURE_SADDLE_OVER, s, over_mm[s], KNOWN_READ);
    const struct maybe radius =
        saddle_top_circle_mm(plan->treble, plan->bass, plan->saddle_mm, over_mm);
    if (radius.given)
        figures_set(figures, FIGURE_SADDLE_RADIUS, 0, radius.value, KNOWN_READ);
    if (plan->radius_nut_mm > 0)
        figures_set(figures, FIGURE_BOARD_RADIUS, 0,
                    saddle_top_radius_at_mm(plan, plan->board->contact_mm[LANE_MIDDLE]),
                    KNOWN_READ);
}

/* That of its top and of the outer two. What they share by the relief is counted too: a little more
 * than it is. */
static double uncertainty_now(const struct saddle_top_plan *plan, const struct figures *figures,
                              int string)
{
    const int treble = plan->treble, bass = plan->bass;
    const struct figure *top = figures->at[FIGURE_SADDLE_HEIGHT];
    const double to_treble = (plan->saddle_mm[string] - plan->saddle_mm[bass]) /
                             (plan->saddle_mm[treble] - plan->saddle_mm[bass]);

    return hypot(top[string].u, hypot(top[treble].u * to_treble, top[bass].u * (1 - to_treble)));
}

static void put_now(const struct saddle_top_plan *plan, struct figures *figures)
{
    double over_mm[STRINGS_MAX + 1];

    if (saddle_top_heights(plan, over_mm) != STATUS_OK)
        return;
    for (int s = plan->treble + 1; s < plan->bass; s++) {
        /* One that is taken from its neighbours says nothing of itself. */
        if (figures->at[FIGURE_SADDLE_HEIGHT][s].known != KNOWN_READ)
            continue;
        figures_set_u(figures, FIGURE_SADDLE_OVER_NOW, s, over_mm[s],
                      uncertainty_now(plan, figures, s));
    }
}

void derive_saddle_top(const struct record *record, const struct setup *setup,
                       const struct string_facts *facts, const struct string_lines *lines,
                       struct figures *figures)
{
    struct saddle_top_plan plan = {.board = NULL};

    if (!plan_board(record, setup, facts, &plan))
        return;
    if (plan_wanted(setup, &plan))
        put_wanted(&plan, figures);
    if (plan_now(lines, &plan))
        put_now(&plan, figures);
}
