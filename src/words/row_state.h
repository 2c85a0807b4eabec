/* SPDX-License-Identifier: MIT */
#ifndef SILLET_WORDS_ROW_STATE_H
#define SILLET_WORDS_ROW_STATE_H

#include "model/figure/bench_row.h"
#include "model/derive/derive.h"

/* How a row of readings compares with its target. */
enum row_verdict { VERDICT_NONE, VERDICT_GOOD, VERDICT_HIGH, VERDICT_LOW, VERDICT_MIXED };

struct row_state {
    enum row_verdict verdict;
    char target[40];      /* "6 to 4 /64"; "" for none */
    char target_bare[40]; /* the same without the unit, to show beside one: "6 to 4" */
};

/* Judges a row by the figures that bench_row_table.h names for it. `derived` must be derived from
 * `record`. */
void row_state_find(const struct record *record, const struct derived *derived,
                    const struct shop_units *units, enum bench_row_id id,
                    struct row_state *ret_state);

/* "good", "high", "low", "mixed"; "" for none. */
const char *row_verdict_word(enum row_verdict verdict);

#endif
