/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <math.h>

int near_is(double got, double want, double tolerance)
{
    if (!isfinite(tolerance))
        return 0;
    /* <= is false for NaN, so NaN never counts as near. */
    return fabs(got - want) <= tolerance;
}

void near_check(double got, double want, double tolerance, const char *what, const char *file,
                int line)
{
    if (near_is(got, want, tolerance))
        return;
    print_error("%s: got %.17g, want %.17g within %.3g\n", what, got, want, tolerance);
    _fail(file, line);
}

void near_check_relative(double got, double want, double share, const char *what, const char *file,
                         int line)
{
    near_check(got, want, share * fabs(want), what, file, line);
}

double near_given(struct maybe number, const char *what, const char *file, int line)
{
    if (!number.given) {
        print_error("%s: absent\n", what);
        _fail(file, line);
    }
    return number.value;
}
