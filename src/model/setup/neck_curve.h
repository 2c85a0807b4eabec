/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SETUP_NECK_CURVE_H
#define SILLET_MODEL_SETUP_NECK_CURVE_H

#include "base/status.h"
#include "model/setup/setup.h"

/*
 * The shape of the crowns: one curvature from the nut to the heel fret, straight from
 * there, the fall-away beyond the relief end, and what single crowns stand off by.
 */
struct neck_curve {
    double kappa_per_mm;
    double fall_away_mm;
    double offset_mm[FRETS_MAX + 1]; /* spots read, and what the curve left of the reliefs */
};

/*
 * Fits the curvature to the relief readings: kappa = sum(r rho) / sum(rho^2), rho the gap
 * under the chord at unit curvature; what is left over becomes the crown's offset.
 * STATUS_ABSENT without a relief reading, STATUS_DOMAIN where the board cannot bend or a
 * reading is no number.
 */
enum status neck_curve_fit(const struct setup *setup, struct neck_curve *ret_curve);

/* The relief at the relief fret, mm, of the fitted curve; absent where there is none. */
struct maybe neck_curve_find_relief(const struct setup *setup);

/* Height of a crown over the chord, mm, on a lane; fret 0 is the board's line at the nut. */
double neck_curve_height_mm(const struct neck_curve *curve, const struct board *board, int lane,
                            int fret);

/* The same height without the bend: what the crown stands off by, and the fall-away. */
double neck_curve_flat_height_mm(const struct setup *setup, int lane, int fret);

/* The relief that a curvature gives at the relief fret, mm, and the reverse. has_relief
 * must hold. */
double neck_curve_relief_mm(const struct board *board, double kappa_per_mm);
double neck_curve_kappa_for(const struct board *board, double relief_mm);

#endif
