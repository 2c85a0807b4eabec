/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_ESTIMATE_H
#define SILLET_MODEL_ESTIMATE_H

#include "model/reading/field.h"

/*
 * What is known of some unknowns from readings that are linear in them: their means, and how the
 * errors of these go together. Readings are taken in one after another, in any order, with the
 * same result as one weighted least-squares fit of them all.
 * Source: R. E. Kalman, "A New Approach to Linear Filtering and Prediction Problems", J. Basic
 * Engineering 82 (1960) 35; the update by one number, from memory.
 */

enum { ESTIMATE_MAX = 1 + 2 * STRINGS_MAX, LINEAR_TERMS = 3 };

struct estimate {
    int count; /* 1 .. ESTIMATE_MAX */
    double mean[ESTIMATE_MAX];
    double covariance[ESTIMATE_MAX][ESTIMATE_MAX];
};

/* A straight-line function of a few of the unknowns. A part of 0 is no term. */
struct linear {
    double constant;
    int unknown[LINEAR_TERMS];
    double part[LINEAR_TERMS];
};

struct estimated {
    double mean, deviation; /* standard deviation */
};

/* `count` unknowns of which nothing is known but that each is within `deviation` of 0. */
void estimate_begin(struct estimate *estimate, int count, const double *deviation);

struct estimated estimate_of(const struct estimate *estimate, const struct linear *function);

/* Takes a reading of `function` in. deviation > 0. */
void estimate_read(struct estimate *estimate, const struct linear *function, double reading,
                   double deviation);

/* One unknown is changed by `by`, give or take `deviation`. */
void estimate_shift(struct estimate *estimate, int unknown, double by, double deviation);

/* All unknowns that `direction` names are less certain by one error that they share, each by its
 * part of it. */
void estimate_blur(struct estimate *estimate, const double *direction, double deviation);

/* One unknown is now this, whatever it was. */
void estimate_set(struct estimate *estimate, int unknown, double mean, double deviation);

#endif
