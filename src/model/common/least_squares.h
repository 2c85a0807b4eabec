/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_COMMON_LEAST_SQUARES_H
#define SILLET_MODEL_COMMON_LEAST_SQUARES_H

#include "base/status.h"

/*
 * Least squares in two unknowns x and y: rows a, b, r are gathered one by one, and the
 * (x, y) with the least sum of (r + a x + b y)^2 is found from the normal equations.
 */
struct least_squares {
    double aa, ab, bb, ar, br, rr;
    int rows;
};

/* Adds a row to a sum that began as {0}. */
void least_squares_add(struct least_squares *sum, double a, double b, double r);

/* Root mean square of r; 0 without rows. */
double least_squares_rms(const struct least_squares *sum);

/*
 * The unknowns. STATUS_ABSENT when the rows do not tell the two apart (fewer than two
 * rows, or columns that are multiples of each other to 1e-12), STATUS_DOMAIN when a row
 * was not finite.
 */
enum status least_squares_solve(const struct least_squares *sum, double *ret_x, double *ret_y);

#endif
