/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_STRINGS_TENSION_H
#define SILLET_MODEL_STRINGS_TENSION_H

#include <stdbool.h>

#include "base/status.h"
#include "model/strings/string_material.h"

/*
 * A string's mass, core, tension and stress. In every struct 0 means "not given"; a
 * negative, infinite or NaN entry is STATUS_DOMAIN, a needed one that is not given is
 * STATUS_ABSENT. Outputs are untouched on failure and finite on success.
 */

/* In the order in which a profile offers them. */
enum string_build_kind {
    BUILD_PLAIN,
    BUILD_ROUND_WOUND,
    BUILD_FLAT_WOUND,
    BUILD_NYLON,
    BUILD_NYLON_WOUND,
    BUILD_COUNT_
};

/* How a string is made. */
struct string_build {
    enum string_build_kind kind;
    double gauge_mm;                    /* outer diameter */
    double core_mm;                     /* core diameter of a wound string; across flats when hex */
    bool hex_core;                      /* looked at for steel-cored wound strings only */
    enum string_material core_material; /* NONE: steel, or nylon for the nylon builds */
    enum string_material wrap_material; /* wound strings need it for their mass */
    double modulus_mpa;                 /* of the core; 0: the material's */
    double steel_modulus_mpa;           /* of a steel core without modulus_mpa; 0: 203 400 */
};

/* The share of the ring between core and gauge that the wrap of a flat-wound string fills.
 * From memory; under-wraps of round wire lower it. */
#define FLAT_WRAP_FILL 0.95

/* The part of a string that bends and stretches. */
struct string_core {
    double diameter_mm;       /* across flats when hex */
    double area_mm2;          /* A: round pi d^2/4, hex sqrt(3)/2 d^2 */
    double second_moment_mm4; /* I: round pi d^4/64, hex 5 sqrt(3)/144 d^4 */
};

/*
 * The core: the string itself when plain or nylon, else what `core_mm` says, and
 * STATUS_ABSENT without it. STATUS_DOMAIN when the core is not thinner than the gauge.
 * A multifilament core counts as its full circle, so its modulus is that of the bundle.
 */
enum status tension_find_core(const struct string_build *build, struct string_core *ret_core);

/*
 * The core's modulus: entered, else of its material (steel: Shigley, Table 10-5).
 * STATUS_ABSENT for a material whose modulus has to be measured (nylon above all).
 */
enum status tension_find_modulus(const struct string_build *build, double *ret_modulus_mpa);

/*
 * Core and modulus of nylon and fluorocarbon for how far pressing raises the pull. That is a small
 * part of it, so the settled modulus will do, which the pitch cannot be reckoned from; so will, for
 * a wound nylon string whose core is not entered, a core of 0.8 of the gauge (from memory).
 * STATUS_ABSENT for other strings and without a gauge.
 */
enum status tension_find_rough_core(const struct string_build *build, struct string_core *ret_core,
                                    double *ret_modulus_mpa);

/*
 * How much longer a string is at pitch than slack, l; its mass per length is so much less than
 * that of a slack piece. Its pull T = (mu/l) c^2 on a speaking length L at f, c = 2 L f, stretches
 * its slack area A by T/(A E) = l - 1, E the settled modulus of the material. With mu = rho A
 *   l (l - 1) = rho c^2/E,
 * whatever its gauge. 1 for a wound string and for a material that stretches too little to
 * count; else STATUS_ABSENT without length and pitch (0), or where the material is not known.
 */
enum status tension_find_stretch(const struct string_build *build, double length_mm, double hz,
                                 double *ret_stretch);

/*
 * Unit mass from the build, of a slack string:
 *   plain, nylon   rho pi d^2/4
 *   round-wound    rho_c A_core + rho_w (pi w^2/4) sqrt((pi (core + w))^2 + w^2)/w,
 *                  w = (gauge - core)/2: one layer, turn against turn. Two layers of half
 *                  the wire weigh nearly the same. Common practice; a few per cent.
 *   nylon-wound    as round-wound, the multifilament core counted as solid nylon: about
 *                  2 % too heavy. Weigh the string where that matters.
 *   flat-wound     rho_c A_core + FLAT_WRAP_FILL rho_w (pi/4)(gauge^2 - core^2). How much of
 *                  its ring a ribbon fills differs between makes: 5 to 10 % off (from
 *                  memory). Weigh the string, or enter its label, where that matters.
 */
enum status tension_mass_from_build(const struct string_build *build, double *ret_kg_per_m);

/* What can be known about a string's unit mass. */
struct mass_sources {
    double length_mm, hz;                 /* as it is strung, for one that stretches */
    double weigh_mass_g, weigh_length_mm; /* a cut length, weighed slack */
    double label_tension_n, label_scale_mm, label_hz;
    double entered_kg_per_m;
    const struct string_build *build; /* NULL: not known */
};

enum mass_origin { MASS_WEIGHED, MASS_LABEL, MASS_ENTERED, MASS_BUILD };

struct unit_mass {
    double kg_per_m; /* at pitch */
    enum mass_origin origin;
    double stretch; /* what the slack mass was divided by; 1 for a label's and an entered mass */
};

/*
 * Unit mass at pitch from the best source that is complete, in the order of enum mass_origin;
 * a label's is T/(2 L f)^2. A weighed piece and a build are slack: tension_find_stretch
 * brings them to pitch. A source with a part missing is passed over.
 */
enum status tension_find_mass(const struct mass_sources *sources, struct unit_mass *ret_mass);

/*
 * Tension of an ideal string, N: T = mu (2 L f)^2 (Mersenne), L in mm. All > 0; the
 * string's stiffness is left out.
 */
enum status tension_from_pitch(double mass_kg_per_m, double length_mm, double hz,
                               double *ret_tension_n);

/*
 * Least tensile strength of ASTM A228 music wire, MPa: 2211/d^0.145, d in mm (Shigley,
 * Table 10-4), within 2.3 % of the standard's table. STATUS_RANGE outside the fit's
 * 0.10 to 6.5 mm.
 */
enum status tension_wire_strength(double diameter_mm, double *ret_strength_mpa);

/* Above this share of the strength a string may break on the way up. Common practice. */
#define STRESS_SHARE_MAX 0.85

/*
 * T/A_core over the music wire strength of the core. STATUS_ABSENT when the core is
 * unknown or is not of music wire.
 */
enum status tension_stress_share(const struct string_build *build, double tension_n,
                                 double *ret_share);

#endif
