/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_SHOP_ROUND_H
#define SILLET_MODEL_READING_SHOP_ROUND_H

#include "model/reading/record.h"

/*
 * Lengths that nobody measured (a starting point's targets and sizes) in numbers that are round
 * in a shop's own units: 6/64 in is 2.4 mm, .008 in is 0.20 mm, 43 mm is 1.69 in. A reading is
 * never rounded, and neither is what has a size of its own: string gauges and threads.
 */

/* Appends the round value next to a length, with its unit, as a profile keeps it. */
void shop_round_add(const struct field *field, const struct shop_units *units, double mm,
                    struct strbuf *out);

/* The same for the round value that comes next after a length, above it for by > 0. */
void shop_round_add_next(const struct field *field, const struct shop_units *units, double mm,
                         int by, struct strbuf *out);

/*
 * Makes a starting point one of the shop: its lengths in the other system become round ones, and
 * what would hold unsaid in the other system (tolerances, steps, least exposure) is said.
 * STATUS_NO_MEMORY leaves some as they were.
 */
enum status shop_round_record(struct record *record, const struct shop_units *units);

#endif
