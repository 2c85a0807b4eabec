/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_NECK_NECK_SECTION_H
#define SILLET_MODEL_NECK_NECK_SECTION_H

#include <stdbool.h>

#include "base/status.h"

/*
 * The cross-section of a neck as a composite beam, by the transformed section:
 *
 *   y0 = sum(E A y)/sum(E A),   EI = sum E (I + A (y - y0)^2).
 *
 * Heights y are measured up from the glue line between shaft and fretboard.
 * Source: Gere, Mechanics of Materials, composite beams, transformed-section method.
 */

/* A piece of the section. One taken out (a slot) has a negative modulus. */
struct section_part {
    double modulus_mpa;
    double area_mm2;
    double centroid_mm;
    double inertia_mm4; /* about its own centroid */
};

struct section_stiffness {
    double axis_mm;        /* neutral axis over the glue line */
    double stiffness_nmm2; /* EI about it */
};

/* STATUS_ABSENT without parts, STATUS_DOMAIN for a number that is not finite or when no
 * stiffness is left (sum E A or EI not above 0), STATUS_RANGE on overflow. */
enum status section_compose(const struct section_part *parts, int count,
                            struct section_stiffness *ret_section);

/* A rectangle `width` wide from y = bottom to y = top. */
struct section_part section_rectangle(double modulus_mpa, double width_mm, double bottom_mm,
                                      double top_mm);

/*
 * The half outline |x/(1/2)|^p + y^p = 1 below y = 0, 1 wide and 1 deep: 2 is the half ellipse,
 * less a V, more a U. M_k = 1/p B((k+1)/p, 1 + 1/p), B Euler's beta function: the area is M_0, the
 * moments about the top are M_1 and M_2.
 */
struct section_outline {
    double area, first, second;
};

/* Of an exponent > 0. It takes far longer than what is done with it. */
struct section_outline section_outline_of(double exponent);

/* The same so wide and deep: A = M_0 w d, centroid at -M_1/M_0 d, I = (M_2 - M_1^2/M_0) w d^3. */
struct section_part section_half(const struct section_outline *outline, double modulus_mpa,
                                 double width_mm, double depth_mm);

/* What has become of the truss rod's slot in the shaft. */
enum neck_slot {
    NECK_SLOT_FOUND,  /* empty as far as stiffness goes: a rod in it is not bonded */
    NECK_SLOT_FILLED, /* filled with spline wood */
    NECK_SLOT_RECUT,  /* filled, and a new one cut */
};

/* The woods and sizes that do not change along the neck. */
struct neck_make {
    double board_thickness_mm; /* > 0 */
    double board_modulus_mpa;  /* > 0 */
    double shaft_modulus_mpa;  /* > 0 */
    double fullness;      /* of the shaft's outline: its exponent - 2, 0 a half ellipse, > -2 */
    double slot_width_mm; /* >= 0, 0 for no slot */
    double slot_depth_mm; /* >= 0 */
    double spline_modulus_mpa; /* > 0; looked at only when filled or recut */
    double recut_width_mm;     /* >= 0; looked at only when recut */
    double recut_depth_mm;     /* >= 0 */
};

/* True when the numbers that this state of the slot needs are in range. */
bool neck_make_is_good(const struct neck_make *make, enum neck_slot slot);

/* Of its shaft. */
struct section_outline neck_make_outline(const struct neck_make *make);

/*
 * The section where the board is width_mm wide and the shaft depth_mm deep: its outline,
 * board rectangle on it, slot. A recut takes spline wood out down to the old slot's depth
 * (over its whole width) and shaft wood below. STATUS_DOMAIN for numbers out of range,
 * and where a cut is as deep as the shaft or as wide as the board.
 */
enum status neck_section_find(const struct neck_make *make, const struct section_outline *outline,
                              enum neck_slot slot, double width_mm, double depth_mm,
                              struct section_stiffness *ret_section);

#endif
