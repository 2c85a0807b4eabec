/* SPDX-License-Identifier: MIT */
#include "model/setup/belief_line.h"

#include <math.h>

#include "model/setup/neck_curve.h"

/* The terms of every function here, in this order. */
enum { TERM_CURVATURE, TERM_SLOT, TERM_SADDLE };

int belief_slot(int string)
{
    return 2 * string - 1;
}

int belief_saddle(int string)
{
    return 2 * string;
}

static struct linear constant(int string, double mm)
{
    return (struct linear){
        .constant = mm, .unknown = {BELIEF_CURVATURE, belief_slot(string), belief_saddle(string)}};
}

/* Heights over the chord. */

static struct linear crown(const struct setup *setup, int string, int fret)
{
    struct linear height = constant(string, neck_curve_flat_height_mm(setup, string, fret));

    height.part[TERM_CURVATURE] = setup->board.bend[string][fret];
    return height;
}

/* The slot rides on the neck, the saddle stands on the body. */
static struct linear nut(const struct setup *setup, int string)
{
    struct linear height = crown(setup, string, setup->board.start_fret[string]);

    height.part[TERM_SLOT] = 1;
    return height;
}

static struct linear saddle(const struct setup *setup, int string)
{
    struct linear height = constant(string, 0);

    height.part[TERM_CURVATURE] = -setup->board.saddle_ride[string];
    height.part[TERM_SADDLE] = 1;
    return height;
}

/* a + share (b - a) */
static struct linear between(struct linear a, struct linear b, double share)
{
    a.constant += share * (b.constant - a.constant);
    for (int t = 0; t < LINEAR_TERMS; t++)
        a.part[t] += share * (b.part[t] - a.part[t]);
    return a;
}

static struct linear minus(struct linear a, struct linear b)
{
    a.constant -= b.constant;
    for (int t = 0; t < LINEAR_TERMS; t++)
        a.part[t] -= b.part[t];
    return a;
}

static struct linear over(const struct setup *setup, int string, int fret)
{
    const struct board *board = &setup->board;
    const double share = board->station_mm[string][fret] / board->contact_mm[string];

    return minus(between(nut(setup, string), saddle(setup, string), share),
                 crown(setup, string, fret));
}

/* What crowns off the curve add to a gap under the straightedge, which rests on two of them and is
 * read over a third. Several reliefs leave what each crown stands off by to the curve. */
static double relief_of_spots_mm(const struct setup *setup)
{
    const struct board *board = &setup->board;
    const double *x = board->station_mm[LANE_MIDDLE];
    const int low = board->end_low, high = board->end_high, fret = board->relief_fret;
    const double share = (x[fret] - x[low]) / (x[high] - x[low]);

    if (setup->relief_count > 1 || !isfinite(share))
        return 0;
    return (1 - share) * setup->spot_mm[low].value + share * setup->spot_mm[high].value -
           setup->spot_mm[fret].value;
}

struct linear belief_line_relief(const struct setup *setup)
{
    struct linear gap = constant(1, relief_of_spots_mm(setup));

    gap.part[TERM_CURVATURE] = neck_curve_relief_mm(&setup->board, 1);
    return gap;
}

struct linear belief_line_gap(const struct setup *setup, int string)
{
    return over(setup, string, board_gap_fret(&setup->board, string));
}

/* What is left at fret 1 with the string held down on fret 3. */
struct linear belief_line_held_gap(const struct setup *setup, int string)
{
    const double *x = setup->board.station_mm[string];
    const int gap = board_gap_fret(&setup->board, string);
    const int hold = board_hold_fret(&setup->board, string);

    return minus(between(nut(setup, string), crown(setup, string, hold), x[gap] / x[hold]),
                 crown(setup, string, gap));
}

struct linear belief_line_action(const struct setup *setup, int string)
{
    return over(setup, string, setup->board.action_fret);
}

struct linear belief_line_gap_at(const struct setup *setup, int string, double action_mm)
{
    const int fret = setup->board.action_fret;
    const double *x = setup->board.station_mm[string];
    const int gap = board_gap_fret(&setup->board, string);
    struct linear to = crown(setup, string, fret);

    to.constant += action_mm;
    return minus(between(nut(setup, string), to, x[gap] / x[fret]), crown(setup, string, gap));
}

struct maybe belief_line_held_from(const struct setup *setup, int string, double relief_mm,
                                   double gap_mm, double action_mm)
{
    const struct board *board = &setup->board;

    if (!setup->has_board || !board->has_relief || board->action_fret < 2 ||
        board->frets < board_hold_fret(board, string))
        return maybe_absent();
    const double kappa = neck_curve_kappa_for(board, relief_mm);
    const struct linear open = belief_line_gap_at(setup, string, action_mm);
    const struct linear held = belief_line_held_gap(setup, string);
    const double slot =
        (gap_mm - open.constant - open.part[TERM_CURVATURE] * kappa) / open.part[TERM_SLOT];

    return maybe_finite(held.constant + held.part[TERM_CURVATURE] * kappa +
                        held.part[TERM_SLOT] * slot);
}
