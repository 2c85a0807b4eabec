/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_NECK_NECK_BEAM_H
#define SILLET_MODEL_NECK_NECK_BEAM_H

#include "base/status.h"
#include "model/neck/neck_section.h"

/*
 * The neck as a beam that the strings bend: how much relief their pull alone makes.
 *
 * Along the middle scale (mean of the outer two) the board's width and the shaft's depth
 * run straight; the neck is free at the nut and held from the heel fret on. The strings'
 * pull T stands a lever e above the neutral axis,
 *
 *   e(x) = board thickness + crown height + (mean height of the strings over the crowns) - y0,
 *
 * so the moment is M = T e and the neck bends up by
 *
 *   w(x) = integral from x to x_h of (M/EI)(xi - x) dxi,   0 from the heel on.
 *
 * The relief is the gap under the chord through the low and the high relief end. Heights
 * are over the curve of the crowns as it stands, spots left out; on a multi-scale board
 * every string is taken at the same share of its own scale.
 * Source: Euler-Bernoulli bending with small slopes; Gere, Mechanics of Materials.
 * Left out: shear, creep, the rod's own pull. Numerically good to 1e-9.
 */

enum { NECK_BEAM_STRINGS_MAX = 32 };

struct neck_beam_string {
    double scale_mm;         /* > 0 */
    double saddle_x_mm;      /* Ls = scale + setback, > 0 */
    double nut_height_mm;    /* N over the chord */
    double saddle_height_mm; /* S over the chord */
};

struct neck_beam {
    struct neck_make make;

    /* Stations on the middle scale, mm from the nut. */
    double scale_mm;      /* > 0 */
    double first_fret_mm; /* x_1, in front of the heel */
    double low_end_mm;    /* x_a, >= 0 */
    double high_end_mm;   /* x_b, beyond x_a */
    double heel_mm;       /* x_h, beyond x_1 */
    double relief_mm;     /* the relief fret, x_a to x_b */
    double last_fret_mm;  /* beyond x_b where there is a fall-away */

    double width_nut_mm;   /* at x = 0, > 0 */
    double width_join_mm;  /* at x_b, > 0 */
    double shaft_first_mm; /* at x_1, > 0 */
    double shaft_heel_mm;  /* at x_h, > 0 */
    double crown_height_mm;

    /* The crowns and strings as they stand. */
    double curvature_per_mm; /* kappa of the neck curve */
    double fall_away_mm;     /* at the last fret, 0 for none */
    double tension_total_n;  /* >= 0 */
    int string_count;        /* 1 to NECK_BEAM_STRINGS_MAX */
    const struct neck_beam_string *strings;
};

/*
 * All of these: STATUS_ABSENT without strings, STATUS_DOMAIN for a number that is not
 * finite or outside the ranges above, or where a cut leaves no shaft (neck_section.h);
 * STATUS_RANGE on overflow. x from 0 to the high end or the heel, the farther one.
 */

/* Neutral axis and EI at x. Does not look at the strings. */
enum status neck_beam_find_section(const struct neck_beam *beam, enum neck_slot slot, double x_mm,
                                   struct section_stiffness *ret_section);

/* The lever e at x, mm. */
enum status neck_beam_find_lever(const struct neck_beam *beam, enum neck_slot slot, double x_mm,
                                 double *ret_lever_mm);

/* The bend w at x, mm, up positive. STATUS_NOT_CONVERGED when the integral does not
 * settle to 1e-11 of itself (a shaft that tapers to next to nothing). */
enum status neck_beam_find_bend(const struct neck_beam *beam, enum neck_slot slot, double x_mm,
                                double *ret_bend_mm);

/* The relief that the strings' pull makes with a slack rod, mm; failures as above. */
enum status neck_beam_find_relief(const struct neck_beam *beam, enum neck_slot slot,
                                  double *ret_relief_mm);

/* The same from one panel, so to four figures or so and several times as fast, for a beam that is
 * tried many times over. */
enum status neck_beam_find_relief_about(const struct neck_beam *beam, enum neck_slot slot,
                                        double *ret_relief_mm);

/* Under this the wood behind a slot is a warning (memory). */
#define NECK_BEAM_LEAST_WOOD_MM 3.0

/* Least wood between the bottom of a cut and the back of the shaft from fret 1 to the
 * heel, mm; negative where the cut is through. Depths of the shaft > 0, of the cut >= 0. */
enum status neck_beam_find_wood_left(double shaft_first_mm, double shaft_heel_mm, double cut_mm,
                                     double *ret_wood_mm);

/* Where a router's stop goes for a rod and its cap: height + cap + what the layers of
 * tape lift the jig off the neck. All >= 0. */
enum status neck_beam_find_stop_depth(double rod_height_mm, double rod_cap_mm, double tape_layers,
                                      double tape_thickness_mm, double *ret_stop_mm);

/* Torque coefficient of a dry steel bolt: Shigley, Bolts (from memory). */
#define NECK_TENON_TORQUE_FACTOR 0.2

struct neck_tenon {
    double edge_mm;            /* wood between the bolt and the end of the grain, > 0 */
    double thickness_mm;       /* > 0 */
    double shear_strength_mpa; /* along the grain, > 0 */
    double bolt_diameter_mm;   /* > 0 */
    double bolt_torque_nm;     /* > 0 */
};

/*
 * Safety against shearing out the short grain in front of a cross bolt: two planes,
 * 2 x edge x thickness x strength, over the preload torque/(K diameter).
 * Source: T = K F d, Shigley, Mechanical Engineering Design, Bolts (from memory).
 */
enum status neck_tenon_find_safety(const struct neck_tenon *tenon, double *ret_safety);

/* How likely the short grain gives way before the bolt is tight. */
enum neck_risk { NECK_RISK_LOW, NECK_RISK_SOME, NECK_RISK_HIGH, NECK_RISK_FAILS };

/*
 * What a safety above is worth. Shear strength scatters by 14 % from piece to piece (Wood Handbook
 * FPL-GTR-190, ch. 5, from memory), a bolt's preload by 30 % at the same torque (Shigley, Bolts,
 * from memory), and the stress at the bolt is about twice the mean along the plane (our estimate):
 * low from 2 x 1.3/(1 - 2 x 0.14) = 3.6 on, high under 2, fails under 1.
 */
enum neck_risk neck_tenon_judge(double safety);

/* "low risk", "some risk", "high risk", "too weak". */
const char *neck_risk_name(enum neck_risk risk);

#endif
