/* SPDX-License-Identifier: MIT */
#include "model/common/spread.h"

#include <math.h>

static double moved(const struct assumed *assumed, double middle, double by_u)
{
    return assumed->is_share ? middle * exp(by_u * assumed->u) : middle + by_u * assumed->u;
}

/* Half the way from two standard uncertainties under one number to two over it. */
static double part_of(const struct assumed *assumed, spread_solve *solve, const void *of)
{
    const double middle = *assumed->at;
    double low = 0, high = 0;

    *assumed->at = moved(assumed, middle, -2);
    bool known = solve(of, &low);
    *assumed->at = moved(assumed, middle, 2);
    known = solve(of, &high) && known;
    *assumed->at = middle;
    return known ? (high - low) / 2 : (double)INFINITY;
}

double spread_expand(const struct assumed *assumed, int count, spread_solve *solve, const void *of)
{
    double sum = 0;

    for (int i = 0; i < count; i++) {
        const double part = assumed[i].u > 0 ? part_of(&assumed[i], solve, of) : 0;

        sum += part * part;
    }
    return sqrt(sum);
}
