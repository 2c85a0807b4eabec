/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_FRETS_LAYOUT_H
#define SILLET_MODEL_FRETS_LAYOUT_H

#include "base/status.h"

/* Where things go on a board: fret table, side dots and inlays, string spread. */

enum { LAYOUT_FRETS_MAX = 64, LAYOUT_STRINGS_MAX = 32 };

/* A line of the fret table, all in mm. */
struct layout_fret {
    double from_nut_mm;
    double from_previous_mm;
    double dot_mm; /* side dot or inlay: midway between this fret and the one before */
};

/*
 * The fret table of one string from its stations x_mm[0 .. last] (0 at the nut, strictly
 * rising; board.h computes them). ret_fret holds last + 1; [0] is all zero. STATUS_ABSENT
 * without stations, STATUS_DOMAIN for last outside 1 .. LAYOUT_FRETS_MAX or for stations
 * that do not rise or are not finite.
 * Source of the dot rule: common practice, no published source.
 */
enum status layout_list_frets(int last_fret, const double *x_mm, struct layout_fret *ret_fret);

/* How the strings share the width. */
enum layout_rule {
    LAYOUT_EQUAL_GAPS,    /* the same air between neighbouring string edges */
    LAYOUT_EQUAL_CENTRES, /* the same distance between string centres */
};

/*
 * String centres across a nut, mm from its bass edge, string 1 (the treble) in [0].
 * width: of the nut; margin_bass, margin_treble: edge of the nut to the edge of the outer
 * string, under either rule; gauge_mm[0 .. strings - 1]: diameters, string 1 first. A
 * single string goes midway between the margins. STATUS_ABSENT without gauges,
 * STATUS_DOMAIN for strings outside 1 .. LAYOUT_STRINGS_MAX, a width or gauge that is not
 * positive, a margin that is negative; STATUS_RANGE when the strings would touch.
 * Source: common practice, no published source.
 */
enum status layout_spread_nut(double width_mm, double margin_bass_mm, double margin_treble_mm,
                              enum layout_rule rule, int strings, const double *gauge_mm,
                              double *ret_centre_mm);

/*
 * The same at a saddle, from the distance `span_mm` between the centres of the outer
 * strings: ret_centre_mm is measured from the centre of the bass string, so that
 * [strings - 1] is 0 and [0] is the span. Two strings at least.
 */
enum status layout_spread_saddle(double span_mm, enum layout_rule rule, int strings,
                                 const double *gauge_mm, double *ret_centre_mm);

#endif
