/* SPDX-License-Identifier: MIT */
#include "model/common/least_squares.h"

#include <math.h>

/* Columns whose angle has a squared sine below this count as parallel. */
#define PARALLEL 1e-12

void least_squares_add(struct least_squares *sum, double a, double b, double r)
{
    sum->aa += a * a;
    sum->ab += a * b;
    sum->bb += b * b;
    sum->ar += a * r;
    sum->br += b * r;
    sum->rr += r * r;
    sum->rows++;
}

double least_squares_rms(const struct least_squares *sum)
{
    return sum->rows > 0 ? sqrt(sum->rr / sum->rows) : 0;
}

enum status least_squares_solve(const struct least_squares *sum, double *ret_x, double *ret_y)
{
    double det = sum->aa * sum->bb - sum->ab * sum->ab;
    double x = (sum->ab * sum->br - sum->bb * sum->ar) / det;
    double y = (sum->ab * sum->ar - sum->aa * sum->br) / det;

    if (!isfinite(det) || !isfinite(sum->ar) || !isfinite(sum->br))
        return STATUS_DOMAIN;
    if (!(det > PARALLEL * sum->aa * sum->bb) || !isfinite(x) || !isfinite(y))
        return STATUS_ABSENT;
    *ret_x = x;
    *ret_y = y;
    return STATUS_OK;
}
