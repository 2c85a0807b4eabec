/* SPDX-License-Identifier: MIT */
#ifndef SILLET_WORDS_AMOUNT_H
#define SILLET_WORDS_AMOUNT_H

#include <stdbool.h>

#include "base/strbuf.h"
#include "base/unit.h"

/*
 * How lengths are written for a person, in the unit that the shop's gauge reads. What a
 * tech typed is shown as typed; this is for what was computed.
 */

/* Appends a length: ".013" in thousandths or inches, "7.3" in 64ths, "0.93" in hundredths
 * of a mm or mm. With `sign` it is a change: a plus is written too. */
void amount_add(struct strbuf *out, double mm, enum unit unit, bool sign);

/* A length with all its decimals, so that a column of them stands point under point: "6.0". */
void amount_add_even(struct strbuf *out, double mm, enum unit unit);

/* As amount_add in at most so many columns where fewer decimals make that possible; thousandths
 * then stand without their point, "20", mm first without the zero before theirs, ".41". */
void amount_add_short(struct strbuf *out, double mm, enum unit unit, int columns);

/* Appends a size to be cut, no finer than a hand works: to .005 in or 0.1 mm. `unit` is inches or
 * mm. */
void amount_add_cut(struct strbuf *out, double mm, enum unit unit);

/* A wanted height as a rule reads it: what is not written in the unit's quarters or twentieths goes
 * to the nearest half of a 64th or 0.1 mm, so that 5/64 in is 2.0 mm. */
double amount_on_rule(double mm, enum unit unit);

/* The unit that such an amount is in, to stand once in a row: "in", "/64", "mm". */
const char *amount_unit(enum unit unit);

/* Appends that unit behind a blank. */
void amount_add_unit(struct strbuf *out, enum unit unit);

/* Appends a range, "7.3 to 5.1", or one amount where both read the same. */
void amount_add_range(struct strbuf *out, double first_mm, double last_mm, enum unit unit);

/* Appends a length in every way a tech may want it, the cell's own system first: ".1094 in = 7/64
 * in = 2.778 mm"; "2.778 mm = .1094 in". In 64ths only where one is within .002 in. */
void amount_add_all(struct strbuf *out, double mm, enum unit unit);

#endif
