/* SPDX-License-Identifier: MIT */
#ifndef SILLET_WORDS_ROW_STATE_H
#define SILLET_WORDS_ROW_STATE_H

#include "model/figure/bench_row.h"
#include "model/derive/derive.h"

/* How a row of readings compares with its target. */
enum row_verdict {
    VERDICT_NONE,
    VERDICT_GOOD,
    VERDICT_NEAR, /* off its tolerance, and left all the same: by no more than can be told */
    VERDICT_HIGH,
    VERDICT_LOW,
    VERDICT_MIXED,
    VERDICT_AGAIN /* good but for a reading that does not fit and has to be read again */
};

struct row_state {
    enum row_verdict verdict;
    bool then; /* it holds once the moves before are made; a plain comparison says otherwise */
    char target[40];      /* "6 to 4 /64"; "" for none */
    char target_bare[40]; /* the same without the unit, to show beside one: "6 to 4" */
};

/*
 * A row is judged by the move that brings it to its target (bench_row_table.h), so that the two
 * never disagree: nut gaps by the slots once the action is right, actions by the saddle once the
 * slots are, exposure by what is left of it. What is put off is judged all the same.
 */
void row_state_find(const struct record *record, const struct derived *derived,
                    const struct shop_units *units, enum bench_row_id id,
                    struct row_state *ret_state);

/* "good", "near", "high", "low", "mixed", "again"; "" for none. */
const char *row_verdict_word(enum row_verdict verdict);

#endif
