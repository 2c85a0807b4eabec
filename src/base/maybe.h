/* SPDX-License-Identifier: MIT */
#ifndef SILLET_BASE_MAYBE_H
#define SILLET_BASE_MAYBE_H

#include <math.h>
#include <stdbool.h>

/*
 * A number that may be absent: it was not read, or something that it is computed from was not.
 * No number stands for an absent one. Ask `given` before you use `value`, or maybe_or(number, 0)
 * for what is the same with 0 as without it.
 */
struct maybe {
    double value; /* finite; unspecified when absent */
    bool given;
};

static inline struct maybe maybe_absent(void)
{
    return (struct maybe){.given = false};
}

/* `value` has to be finite; use maybe_finite where it may not be. */
static inline struct maybe maybe_given(double value)
{
    return (struct maybe){.value = value, .given = true};
}

/* Absent when `value` is no number or infinite: what a reading beyond all measure leads to. */
static inline struct maybe maybe_finite(double value)
{
    return isfinite(value) ? maybe_given(value) : maybe_absent();
}

static inline double maybe_or(struct maybe number, double otherwise)
{
    return number.given ? number.value : otherwise;
}

/* Absent where either is. */
static inline struct maybe maybe_sum(struct maybe a, struct maybe b)
{
    return a.given && b.given ? maybe_finite(a.value + b.value) : maybe_absent();
}

#endif
