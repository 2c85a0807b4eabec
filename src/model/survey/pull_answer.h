/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SURVEY_PULL_ANSWER_H
#define SILLET_MODEL_SURVEY_PULL_ANSWER_H

#include "base/status.h"

/* How far a neck bends for a newton: what is believed beforehand, and what it was seen to do. */

struct pull_answer {
    double mm_per_n;
    double u_mm_per_n; /* standard uncertainty, > 0 */
};

/* One change of pull whose relief was read before and after, with no turn of the rod between. */
struct pull_seen {
    double pull_change_n;
    double bend_change_mm; /* + more relief */
    double u_mm;           /* standard uncertainty of that change, > 0 */
};

/*
 * Both together, each by one over the square of its uncertainty: a change of 0 N says nothing, a
 * great one much. Without `seen` it is the prior. STATUS_DOMAIN for a number that is not finite
 * or an uncertainty not above 0, STATUS_RANGE on overflow.
 * Source: weighted mean, JCGM 100:2008 (GUM), with the slope through the origin for each of them.
 */
enum status pull_answer_combine(const struct pull_answer *prior, const struct pull_seen *seen,
                                int count, struct pull_answer *ret_answer);

#endif
