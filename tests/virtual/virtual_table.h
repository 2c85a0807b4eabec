/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_VIRTUAL_TABLE_H
#define SILLET_TESTS_VIRTUAL_TABLE_H

#include "virtual/tech.h"

/* What the advice comes to on many instruments. */

enum { VIRTUAL_INSTRUMENTS_MAX = 2000, VIRTUAL_PASSES_MAX = 6, VIRTUAL_SPOILT_MAX = 20 };

struct virtual_table {
    int count, first_right[VIRTUAL_INSTRUMENTS_MAX]; /* sorted; one more than the most for never */
    double passes, asked_right;                      /* means, of a visit */
    double right;                                    /* percent, at the end */
    struct virtual_way sum;                          /* of what is counted */
};

void virtual_table_make(const struct virtual_hand *hand, int count, struct seeded *seed,
                        struct virtual_table *ret_table);

/* Percent; 0 of nothing. */
double virtual_share(int part, int whole);

#endif
