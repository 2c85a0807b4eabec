/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_PERCENTILE_H
#define SILLET_TESTS_PERCENTILE_H

#include <stddef.h>

/* Sorts `values` in place. */
void percentile_sort(double *values, size_t count);

/* The value below or at which so many per cent of sorted values lie (nearest rank); count
 * at least 1, per_cent 0 to 100. */
double percentile_of(const double *sorted, size_t count, double per_cent);

#endif
