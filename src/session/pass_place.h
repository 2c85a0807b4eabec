/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_PASS_PLACE_H
#define SILLET_SESSION_PASS_PLACE_H

#include <stdbool.h>

/* A pass by its visit and number; pass 0: a visit as a whole; both 0: none. Assign it whole. */
struct pass_place {
    int visit, pass;
};

static inline struct pass_place pass_place_of(int visit, int pass)
{
    return (struct pass_place){.visit = visit, .pass = pass};
}

static inline struct pass_place pass_place_none(void)
{
    return pass_place_of(0, 0);
}

static inline bool pass_place_is_none(struct pass_place place)
{
    return place.visit == 0;
}

static inline bool pass_place_is_same(struct pass_place a, struct pass_place b)
{
    return a.visit == b.visit && a.pass == b.pass;
}

#endif
