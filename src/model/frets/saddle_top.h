/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_FRETS_SADDLE_TOP_H
#define SILLET_MODEL_FRETS_SADDLE_TOP_H

#include "base/maybe.h"
#include "base/status.h"
#include "model/frets/board.h"

/*
 * How the saddle's tops have to lie for the strings to follow the curve across the board. The
 * crowns lie on a cone whose radius grows evenly from the nut to the board's end, with a straight
 * crest; with one radius it is a cylinder. Each string runs over the chord of the crowns under it,
 * extended to the saddle.
 */

struct saddle_top_plan {
    const struct board *board;             /* has_curve */
    int treble, bass;                      /* the outer two of its strings */
    double radius_nut_mm, radius_end_mm;   /* both > 0; both 0: flat */
    double end_mm;                         /* where the second holds, on the middle scale */
    double nut_mm[STRINGS_MAX + 1];        /* where each string's line crosses nut and saddle, */
    double saddle_mm[STRINGS_MAX + 1];     /* from below the crest */
    double over_chord_mm[STRINGS_MAX + 1]; /* of each string's top, over its own chord */
};

/* The cone's radius at a distance from the nut on the middle scale, also beyond the board: R_nut +
 * (R_end - R_nut) x / end. */
double saddle_top_radius_at_mm(const struct saddle_top_plan *plan, double x_mm);

/*
 * How far each string's top stands over the straight line through the tops of the outer two; these
 * are 0. STATUS_DOMAIN for fewer than two strings, a board without a curve, a cone that ends before
 * the saddle or is narrower than the strings, or what is no number.
 */
enum status saddle_top_heights(const struct saddle_top_plan *plan,
                               double ret_over_mm[STRINGS_MAX + 1]);

/* Over this a straightedge shows no curve between the outer strings. */
#define SADDLE_TOP_FLAT_MM 3000

/*
 * The radius of the circle through the outer two tops that fits those between best: with d its
 * centre's depth under their line and w half their distance, the d with the least sum of
 * (h² + 2 h d - (w² - y²))², R = sqrt(w² + d²). Negative for a hollow top; absent where it is flat
 * or no string lies between the outer two.
 */
struct maybe saddle_top_circle_mm(int treble, int bass, const double saddle_mm[STRINGS_MAX + 1],
                                  const double over_mm[STRINGS_MAX + 1]);

#endif
