/* SPDX-License-Identifier: MIT */
#ifndef SILLET_WORDS_AMOUNT_H
#define SILLET_WORDS_AMOUNT_H

#include <stdbool.h>

#include "base/strbuf.h"
#include "base/unit.h"

/*
 * How computed lengths are written for a person, in the unit that the shop's gauge reads. What a
 * tech typed is shown as typed instead.
 */

/* Appends a length: ".013" in thousandths or inches, "7.3" in 64ths, "0.93" in hundredths of a mm
 * or in mm. With `sign` it is a change, and a plus is written too. */
void amount_add(struct strbuf *out, double mm, enum unit unit, bool sign);

/* Appends a length with all its decimals, so that the points of a column line up: "6.0". */
void amount_add_even(struct strbuf *out, double mm, enum unit unit);

/* Appends a blank and what an amount may be off by, as amount_add writes it: " ±.003". */
void amount_add_doubt(struct strbuf *out, double u_mm, enum unit unit);

/* Like amount_add, with fewer decimals if it does not fit in `columns`. Thousandths then lose their
 * point ("20"), and mm first lose the zero before it (".41"). */
void amount_add_short(struct strbuf *out, double mm, enum unit unit, int columns);

/* Appends a size to be cut, no finer than a hand works: to .005 in or 0.1 mm. `unit` must be inches
 * or mm. */
void amount_add_cut(struct strbuf *out, double mm, enum unit unit);

/* A change as a hand makes it, to .001 in or 0.05 mm, rounded toward less wood taken off: a cut to
 * less, a fill to more. What is less than that stays as it is. `unit` is what the amount is then
 * written in. */
double amount_of_work(double mm, enum unit unit);

/* Appends it, with its sign. */
void amount_add_work(struct strbuf *out, double mm, enum unit unit);

/*
 * A number with what it may be off by, in digits that this supports: "2.4 ±1.1", "+10 ±7". The ±
 * has two digits if the first is 1 or 2, else one, and the number ends at the same place (JCGM
 * 100:2008, GUM, 7.2.6); neither goes finer than `decimals_most`, or below whole numbers. Where
 * that takes more than `columns`, the ± is rounded up to fewer decimals. A ± of 0 is none; one
 * without limit is "±?". The unit is left to the caller.
 */
struct amount_digits {
    int decimals_most, columns;
    bool bare_point; /* ".06" */
    bool sign;
};
void amount_add_supported(struct strbuf *out, double value, double u,
                          const struct amount_digits *digits);

/* More columns than any of these takes. */
enum { AMOUNT_ANY_WIDTH = 60 };

/* The same for a length in mm, written in `unit`. */
void amount_add_supported_mm(struct strbuf *out, double mm, double u_mm, enum unit unit,
                             int columns);

/* Turns in eighths, as a hand makes them: "1/4", "2 1/8"; rounded to the nearest. With `sign` a
 * plus is written too. What rounds to none is "0". */
void amount_add_turns(struct strbuf *out, double turns, bool sign);

/* A target height as a rule reads it: unless it is written in quarters or twentieths of the unit,
 * it is rounded to half a 64th or 0.1 mm, so that 5/64 in is 2.0 mm. Other units stay as they
 * are. */
double amount_on_rule(double mm, enum unit unit);

/* The unit that such an amount is written in, to show once for a row: "in", "/64", "mm". */
const char *amount_unit(enum unit unit);

/* Appends a blank and that unit. */
void amount_add_unit(struct strbuf *out, enum unit unit);

/* Appends a range, "7.3 to 5.1", or one amount if both read the same. */
void amount_add_range(struct strbuf *out, double first_mm, double last_mm, enum unit unit);

/*
 * The same for a plain number, wherever the place lies: "240 ±40", ".0096 ±.0018"; `drop_zero` as
 * num_format_fixed has it. A ± that is not finite, or not above 0, is not written, and the value
 * then ends at `decimals`.
 */
struct amount_with_u {
    double value, u;
    int decimals;
    bool drop_zero;
};

/* The value alone, the +- alone (with its sign), and both, `gap` between them. */
void amount_add_to_u(struct strbuf *out, const struct amount_with_u *amount);
void amount_add_u(struct strbuf *out, const struct amount_with_u *amount);
void amount_add_with_u(struct strbuf *out, const struct amount_with_u *amount, const char *gap);

/* A length with its +- in the unit that amount_add writes it in. */
struct amount_with_u amount_of_length(double mm, double u_mm, enum unit unit);

/* Appends a length in every unit that a tech may want, the cell's own system first: ".1094 in =
 * 7/64 in = 2.778 mm"; "2.778 mm = .1094 in". 64ths are included if one is within .002 in. */
void amount_add_all(struct strbuf *out, double mm, enum unit unit);

#endif
