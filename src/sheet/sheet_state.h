/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHEET_SHEET_STATE_H
#define SILLET_SHEET_SHEET_STATE_H

#include "model/figure/bench_row.h"
#include "sheet/sheet_parts.h"

/* The states beside the readings, as an owner compares the numbers printed: where the bench comes
 * to something else, because of work that is still to be done, it says "now". */

/* How far readings go over and under what is wanted. {0} to begin with. */
struct sheet_spread {
    double over_mm, under_mm;
};
void sheet_spread_widen(struct sheet_spread *spread, const struct maybe *read,
                        const struct maybe *wanted);

/* Adds a cell with a row's state: "good"; "high now" where it comes down with what is still to be
 * done. */
void sheet_add_state(struct sheet_maker *maker, const struct derived *derived, enum bench_row_id id,
                     const struct sheet_spread *spread);

/* The same for one end of the saddle: what stands there, and what the saddle's move leaves of
 * it. */
void sheet_add_end_state(struct sheet_maker *maker, const struct derived *derived,
                         enum bench_end end, const struct maybe *read);

#endif
