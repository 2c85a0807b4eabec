/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_STRINGS_GAUGE_SOLD_H
#define SILLET_MODEL_STRINGS_GAUGE_SOLD_H

#include "model/strings/tension.h"

struct gauge_pull {
    double gauge_mm; /* 0: none */
    double pull_n;
};

/* The gauge sold that pulls nearest to what is wanted, and those on either side of it. */
struct gauge_sold {
    struct gauge_pull nearest, lighter, heavier;
};

/*
 * From a pull wanted to a gauge that can be bought. The gauges are common practice: plain steel
 * .007 to .026 in, wound .018 to .135 in, nylon .022 to .045 in.
 *
 * Finds the gauge sold, for a string made like `build` on that length at that pitch, whose pull
 * lies nearest to pull_n. STATUS_ABSENT where the string's mass does not follow from
 * its build or there is no list for it (flat-wound, wound nylon); STATUS_RANGE where the nearest
 * still pulls more than a fifth more or less.
 */
enum status gauge_sold_for_pull(const struct string_build *build, double length_mm, double hz,
                                double pull_n, struct gauge_sold *ret_sold);

/* The same build in another gauge: a wound string's core grows as the square root of its gauge, as
 * in the sets of share/sets.csv within 10 %. */
struct string_build gauge_sold_build(const struct string_build *build, double gauge_mm);

#endif
