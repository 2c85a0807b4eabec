/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_SAID_AMOUNT_H
#define SILLET_MODEL_READING_SAID_AMOUNT_H

#include "base/strbuf.h"
#include "base/unit.h"

/* Amounts in sentences: short, in the shop's unit, rounded to what a gauge could read, never with
 * an exponent. `bare` is the unit of the cell. */

/* Appends a number with the decimals that it needs, at most so many: ".020", "2.4". */
void said_number_add(struct strbuf *out, double value, int decimals, bool inches);

/* Appends ".013 in", "7.5/64", "2.4 mm", "70 F". */
void said_amount_add(struct strbuf *out, double pivot, enum unit bare);

/* The same for what was computed: to a step of its gauge. */
void said_computed_add(struct strbuf *out, double pivot, enum unit bare);

/* Appends the amounts that can be: "3.94 to 78.7 in". */
void said_limits_add(struct strbuf *out, double min_pivot, double max_pivot, enum unit bare);

#endif
