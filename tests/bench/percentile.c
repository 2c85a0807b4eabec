/* SPDX-License-Identifier: MIT */
#include "percentile.h"

#include <math.h>
#include <stdlib.h>

static int compare(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;

    return (x > y) - (x < y);
}

void percentile_sort(double *values, size_t count)
{
    qsort(values, count, sizeof *values, compare);
}

double percentile_of(const double *sorted, size_t count, double per_cent)
{
    const double rank = ceil(per_cent / 100 * (double)count);

    return sorted[rank < 1 ? 0 : (size_t)rank - 1];
}
