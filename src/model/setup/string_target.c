/* SPDX-License-Identifier: MIT */
#include "model/setup/string_target.h"

#include "model/setup/neck_curve.h"

struct maybe string_target_gap(const struct setup *setup, int string)
{
    return setup_target_at(&setup->gap_target_bass_mm, &setup->gap_target_treble_mm, &setup->outfit,
                           string);
}

/* The height over the frets' chord at x of a string through two others. */
static double on_line(double x1, double u1, double x2, double u2, double x)
{
    return u1 + (u2 - u1) * (x - x1) / (x2 - x1);
}

static struct maybe over_level_bridge(const struct setup *setup, int start, double gap,
                                      double action)
{
    const struct board *board = &setup->board;
    const double *x = board->station_mm[LANE_MIDDLE], bridge = board->contact_mm[LANE_MIDDLE];
    const int first = start + 1, k = board->action_fret;
    struct neck_curve curve = {0};
    double u[FRETS_MAX + 1];

    if (!setup->has_board || k <= first)
        return maybe_absent();
    if (board->has_relief)
        curve.kappa_per_mm = neck_curve_kappa_for(board, maybe_or(setup->relief_target_mm, 0));
    for (int n = 1; n <= k; n++)
        u[n] = neck_curve_height_mm(&curve, board, LANE_MIDDLE, n);
    const double saddle = on_line(x[1], u[1] + gap, x[k], u[k] + action, bridge);

    return maybe_finite(on_line(x[first], u[first] + gap, bridge, saddle, x[k]) - u[k]);
}

struct maybe string_target_action(const struct setup *setup, int string)
{
    const struct maybe action = setup_target_at(
        &setup->action_target_bass_mm, &setup->action_target_treble_mm, &setup->outfit, string);
    const int start = setup->outfit.from_fret[string];

    if (start == 0 || !action.given)
        return action;
    const struct maybe gap = string_target_gap(setup, string);
    return gap.given ? over_level_bridge(setup, start, gap.value, action.value) : action;
}
