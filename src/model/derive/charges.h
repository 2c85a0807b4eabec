/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_CHARGES_H
#define SILLET_MODEL_DERIVE_CHARGES_H

#include "model/derive/derive.h"
#include "model/reading/prices.h"

/*
 * What an estimate comes to: the moves that are due by what was found, and what may follow: moves
 * that wait for these, and a new set of strings, which most set-ups end with and no reading asks
 * for. Until a neck has settled nothing is charged for.
 */
enum charge { CHARGE_NONE, CHARGE_DUE, CHARGE_LATER };

struct charges {
    enum charge row[PRICE_COUNT_];
    int due;               /* how many are due */
    struct maybe together; /* what these come to; absent where one of them has no price */
    struct maybe at_most;  /* the same with what may follow */
};

/* By moves as they were asked for, whatever was done since (DERIVE_ASKED). */
void charges_find(const struct move_set *moves, const struct prices *prices,
                  struct charges *ret_charges);

/* By the first pass of a visit. */
void charges_find_visit(const struct record *record, int visit, const struct prices *prices,
                        struct charges *ret_charges);

#endif
