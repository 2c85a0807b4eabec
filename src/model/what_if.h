/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_WHAT_IF_H
#define SILLET_MODEL_WHAT_IF_H

#include "base/status.h"

/*
 * What another tuning or another set of strings would do to the pull on the neck.
 */

/* One string as far as its pull goes. */
struct what_if_string {
    double mass_kg_per_m;
    double length_mm;
    double hz;
};

/* One string before and after. */
struct what_if_pull {
    double before_n, after_n;
    double change_n;
    double share_before, share_after; /* of the total pull */
};

struct what_if_load {
    double before_n, after_n; /* all strings together */
    double change_n;
    /* The share by which the neck's bend grows with the pull, dT/T: relief moves by about
     * this times the relief that the strings make. */
    double relief_change_ratio;
};

/*
 * Retunes strings: f becomes f 2^(semitones/12); semitones may have a fraction.
 * `count` >= 0 strings from `strings` into ret_strings, which may be the same array.
 * STATUS_DOMAIN when a pitch does not come out positive and finite; then none is written.
 */
enum status what_if_retune(const struct what_if_string *strings, const double *semitones, int count,
                           struct what_if_string *ret_strings);

/*
 * Compares the pull of `count` >= 1 strings before and after (another tuning, another
 * set); ret_pulls, `count` long, may be NULL. STATUS_ABSENT when a mass, length or pitch
 * is 0 (not known): a total that leaves a string out would mislead. STATUS_DOMAIN for
 * negative, infinite or NaN ones.
 */
enum status what_if_compare(const struct what_if_string *before, const struct what_if_string *after,
                            int count, struct what_if_pull *ret_pulls,
                            struct what_if_load *ret_load);

#endif
