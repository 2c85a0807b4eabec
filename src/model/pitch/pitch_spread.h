/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_PITCH_PITCH_SPREAD_H
#define SILLET_MODEL_PITCH_PITCH_SPREAD_H

#include "model/pitch/pitch_assumption.h"

/*
 * How far the predictions for one string can be off, from what each of their sources can be off:
 * the expanded uncertainty U about the value shown, that of k = 2 (95.45 %).
 *
 * A source x that is off moves a prediction by a x + b x^2, the parabola through two tries. Its
 * cumulants follow from the moments of the source's own distribution; those of independent sources
 * add up; and U is the least with P(-U <= sum <= U) = 95.45 % by Edgeworth's series to the fourth
 * cumulant. Where all are straight and normal that is 2 sqrt(sum (a_i u_i)^2); a wide flat source
 * narrows it, and one that can be off to one side only shifts and skews it.
 *
 * Sources: JCGM 100:2008 (GUM), 4.3, 5.1.2, 6.2, G.1 to G.4 and F.2.4.5 (an offset that is not
 * taken off widens U); Edgeworth's series: Abramowitz and Stegun, 26.2.48 (from memory).
 */

enum pitch_outcome {
    OUTCOME_SETBACK,      /* fret 12 in tune */
    OUTCOME_SETBACK_BEST, /* with the best nut advance over frets 1 to 12 */
    OUTCOME_NUT_BEST,
    OUTCOME_OPEN, /* + n: cents at fret n of the string as it stands */
    OUTCOME_COUNT_ = OUTCOME_OPEN + INTONATION_FRETS_MAX + 1
};

/* NaN where it is not known. */
struct pitch_outcomes {
    double at[OUTCOME_COUNT_];
};

/* What the model predicts for a string. */
void pitch_predict(const struct pitch_case *string, struct pitch_outcomes *ret_outcomes);

/* The same for a string that is little off one of which it is known: setbacks and nut advance by
 * one step from there, wrong by less than a hundredth of the step. */
void pitch_predict_near(const struct pitch_case *string, const struct pitch_outcomes *centre,
                        struct pitch_outcomes *ret_outcomes);

/* The same beside a string `known`, whose outcomes are `there`: what both share is taken over. */
void pitch_predict_beside(const struct pitch_case *string, const struct pitch_outcomes *centre,
                          const struct pitch_case *known, const struct pitch_outcomes *there,
                          struct pitch_outcomes *ret_outcomes);

enum { PITCH_CUMULANTS = 4 };

struct pitch_spread {
    struct pitch_outcomes centre;
    double cumulant[OUTCOME_COUNT_][PITCH_CUMULANTS];
};

/* Begun about a centre, the values shown. */
void pitch_spread_begin(const struct pitch_outcomes *centre, struct pitch_spread *spread);

/* Takes in a source of which `tries` are what it would make of the outcomes at the two points of
 * its shape, and `middle` at none. */
void pitch_spread_add(struct pitch_spread *spread, enum pitch_assumption_shape shape,
                      const struct pitch_outcomes *middle,
                      const struct pitch_outcomes tries[PITCH_ASSUMPTION_POINTS]);

/* Takes in that two sources multiply: the outcomes with the one off, with the other, and with both
 * (GUM 5.1.2, note: the term of second order). `share` is the product of both variances over the
 * squares of what they were off by. */
void pitch_spread_add_product(struct pitch_spread *spread, const struct pitch_outcomes *middle,
                              const struct pitch_outcomes *one, const struct pitch_outcomes *other,
                              const struct pitch_outcomes *both, double share);

/* Takes in that the outcomes are off by a known amount that is not taken off. */
void pitch_spread_shift(struct pitch_spread *spread, const struct pitch_outcomes *there);

/* U of an outcome; infinite where a source may take it away altogether, 0 where it is not
 * known. */
double pitch_spread_u(const struct pitch_spread *spread, int outcome);

#endif
