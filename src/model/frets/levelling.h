/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_FRETS_LEVELLING_H
#define SILLET_MODEL_FRETS_LEVELLING_H

#include <stdbool.h>

#include "base/maybe.h"
#include "base/status.h"

/*
 * Dressing the frets: how much comes off each crown, and how much crown is left. Only the
 * spot offsets e(n) count, what a fret stands off the smooth curve of the neck.
 * Source: common practice, no published source.
 */

enum { LEVELLING_FRETS_MAX = 64 };

/* The least crown that still plays well after dressing, mm (memory). */
#define LEVELLING_LEAST_CROWN_MM 0.6

enum levelling_plan {
    LEVELLING_SPOTS, /* only the high ones: e(n) where it is above 0 */
    LEVELLING_FULL,  /* all to the lowest: e(n) - min e */
};

struct levelling_fret {
    double take_mm; /* comes off, >= 0 */
    struct maybe crown_left_mm;
    bool too_low; /* under the least crown */
};

struct levelling_summary {
    double most_taken_mm; /* 0 when nothing comes off */
    int most_taken_fret;  /* 0 when nothing comes off */
    double least_left_mm;
    int least_left_fret; /* 0 when no crown was measured */
    int too_low_count;
};

/*
 * spot_mm[1 .. last]: spot offsets; crown_mm[1 .. last]: crown heights. [0] is not looked at.
 * ret_fret holds last + 1, [0] is not written. STATUS_ABSENT without spots, STATUS_DOMAIN for last
 * outside 1 .. LEVELLING_FRETS_MAX, a spot that is not finite, a crown that is infinite or
 * negative, a least crown that is not finite or negative; STATUS_RANGE on overflow.
 */
enum status levelling_make_plan(enum levelling_plan plan, int last_fret, const double *spot_mm,
                                const struct maybe *crown_mm, double least_crown_mm,
                                struct levelling_fret *ret_fret,
                                struct levelling_summary *ret_summary);

#endif
