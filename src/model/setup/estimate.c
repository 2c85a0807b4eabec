/* SPDX-License-Identifier: MIT */
#include "model/setup/estimate.h"

#include <math.h>

void estimate_begin(struct estimate *estimate, int count, const double *deviation)
{
    *estimate = (struct estimate){.count = count};
    for (int i = 0; i < count; i++)
        estimate->covariance[i][i] = deviation[i] * deviation[i];
}

/* How the error of a function goes with that of one unknown. */
static double shared(const struct estimate *estimate, const struct linear *function, int unknown)
{
    double with = 0;

    for (int t = 0; t < LINEAR_TERMS; t++)
        with += estimate->covariance[unknown][function->unknown[t]] * function->part[t];
    return with;
}

static double variance_of(const struct estimate *estimate, const struct linear *function)
{
    double variance = 0;

    for (int t = 0; t < LINEAR_TERMS; t++)
        variance += function->part[t] * shared(estimate, function, function->unknown[t]);
    return fmax(variance, 0);
}

static double mean_of(const struct estimate *estimate, const struct linear *function)
{
    double mean = function->constant;

    for (int t = 0; t < LINEAR_TERMS; t++)
        mean += function->part[t] * estimate->mean[function->unknown[t]];
    return mean;
}

struct estimated estimate_of(const struct estimate *estimate, const struct linear *function)
{
    return (struct estimated){.mean = mean_of(estimate, function),
                              .deviation = sqrt(variance_of(estimate, function))};
}

void estimate_read(struct estimate *estimate, const struct linear *function, double reading,
                   double deviation)
{
    double with[ESTIMATE_MAX];
    const double variance = variance_of(estimate, function) + deviation * deviation;
    const double off = reading - mean_of(estimate, function);

    for (int i = 0; i < estimate->count; i++)
        with[i] = shared(estimate, function, i);
    /* Symmetric by construction, and never below zero: what rounding takes off a variance that
     * was huge before the first reading must not turn it over. */
    for (int i = 0; i < estimate->count; i++) {
        estimate->mean[i] += with[i] / variance * off;
        for (int j = 0; j <= i; j++) {
            estimate->covariance[i][j] -= with[i] * with[j] / variance;
            estimate->covariance[j][i] = estimate->covariance[i][j];
        }
        estimate->covariance[i][i] = fmax(estimate->covariance[i][i], 0);
    }
}

void estimate_shift(struct estimate *estimate, int unknown, double by, double deviation)
{
    estimate->mean[unknown] += by;
    estimate->covariance[unknown][unknown] += deviation * deviation;
}

void estimate_blur(struct estimate *estimate, const double *direction, double deviation)
{
    for (int i = 0; i < estimate->count; i++)
        for (int j = 0; j < estimate->count; j++)
            estimate->covariance[i][j] += direction[i] * direction[j] * deviation * deviation;
}

void estimate_set(struct estimate *estimate, int unknown, double mean, double deviation)
{
    for (int i = 0; i < estimate->count; i++)
        estimate->covariance[unknown][i] = estimate->covariance[i][unknown] = 0;
    estimate->mean[unknown] = mean;
    estimate->covariance[unknown][unknown] = deviation * deviation;
}
