/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SETUP_BREAK_ANGLE_H
#define SILLET_MODEL_SETUP_BREAK_ANGLE_H

#include <stdbool.h>

#include "base/status.h"

/*
 * How sharply a string turns over its saddle, and how hard it presses down on it. Behind the saddle
 * it goes down to where it is held, in front it goes down to the nut:
 *
 *   angle = back + front,   force = T (sin back + sin front),   tan back = drop/distance.
 *
 * Square to the line that the drop is measured from: the top of the bridge, or the string itself,
 * where a straightedge on it reaches over the saddle and its own slope is in the drop already.
 * Source: statics of a string without friction.
 */
struct string_break {
    double drop_mm;     /* saddle's peak over where the string is held */
    double distance_mm; /* along the bridge, > 0 */
    double front_rad;   /* string's slope in front, down toward the nut */
    double tilt_rad;    /* of the frets' line against the bridge: it adds to the slope */
    double pull_n;      /* >= 0 */
};

/* STATUS_DOMAIN for a number out of range or not finite. */
enum status break_angle_find(const struct string_break *at, double *ret_angle_rad);
enum status break_angle_find_force(const struct string_break *at, double *ret_force_n);

/* How surely these numbers are known: standard uncertainties. */
struct break_doubt {
    double drop_u_mm, distance_u_mm, tilt_u_rad;
    double pull_share_u; /* as a share */
};

/* Expanded, k = 2. INFINITY where a number that may be so leaves no angle. */
double break_angle_u(const struct string_break *at, const struct break_doubt *doubt);
double break_angle_force_u(const struct string_break *at, const struct break_doubt *doubt);

#endif
