/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_COMMON_SPREAD_H
#define SILLET_MODEL_COMMON_SPREAD_H

#include <stdbool.h>

/* The +- of a result that rests on numbers which are only assumed. */

/* One of these numbers, and its standard uncertainty. */
struct assumed {
    double *at;
    double u;
    bool is_share; /* u is a share of it and its logarithm is normal: it cannot be below 0 */
};

/* Works the result out from the numbers as they stand; false where there is none. */
typedef bool spread_solve(const void *of, double *ret_value);

/*
 * Expanded uncertainty, k = 2, about 95 %: the root of the sum of the squares of what each number
 * does alone, half the result's way from two standard uncertainties under it to two over it. So
 * the bend of the result over that span counts too. INFINITY where one of them takes the result
 * away. The numbers are as they were afterwards. They do not depend on each other.
 * Source: JCGM 100:2008 (GUM), 5.1.2, and the note 2 to 5.1.3 on differences in place of
 * derivatives.
 */
double spread_expand(const struct assumed *assumed, int count, spread_solve *solve, const void *of);

#endif
