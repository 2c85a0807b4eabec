/* SPDX-License-Identifier: MIT */
#ifndef SILLET_BASE_NUM_H
#define SILLET_BASE_NUM_H

#include "base/status.h"
#include "base/strbuf.h"
#include "base/unit.h"

/*
 * The one parser for numbers that a tech types and a profile keeps. Strict (the whole
 * text must make sense) and independent of the locale. Grammar:
 *
 *   entry   = [ "-" ] term { "+" term }               a minus in front negates the sum
 *   term    = amount [ suffix ]
 *   amount  = decimal | fraction | mixed | ( decimal | mixed ) "/" integer | vulgar
 *   fraction= decimal "/" integer                     7/64   6.25/64
 *   mixed   = integer ( " " | "-" ) integer "/" integer    1 5/8   1-5/8
 *           | integer [ " " | "-" ] vulgar            8¼
 *   vulgar  = one of the characters for 1/2 1/4 3/4 1/8 3/8 5/8 7/8
 *   decimal = digits [ "." digits ] | "." digits
 *   suffix  = a name that unit.h knows for the quantity, in any case
 *
 * Blanks (spaces and tabs) are allowed around every part, except that the "-" of a mixed number
 * touches both its numbers. The fraction of a mixed number is below 1. There is no
 * leading "+", no subtraction (5-3), no exponent, no comma
 * (the caller turns a comma typed for a point into a point).
 *
 * A stack ("10+8", ".010+.002 in") adds its terms: feeler leaves laid together;
 * temperatures do not stack. A term without a suffix takes the suffix of the next term
 * to the right that has one; with none to its right, the *bare unit* given by the caller
 * decides:
 *
 *   - a fraction alone (7/64, 6.25/64, 8 1/4/64, a vulgar fraction) is of an inch when
 *     the quantity is a length; of the bare unit otherwise;
 *   - a mixed number (8 1/4) is of the bare unit, so that 8 1/4 in a cell of 64ths is
 *     eight and a quarter 64ths; where the bare unit is a metric length it is inches;
 *   - a number with a point and below 1 (.010, 0.30) is inches in a cell of thousandths or
 *     64ths; in a cell of hundredths of a mm any number with a point is mm (0.30, 1.2);
 *   - anything else is of the bare unit: 13 and 12.5 thousandths, 6.5 64ths.
 *
 * The terms of a stack that the bare unit decides must be of one kind, all in the cell's step or
 * all in inches (or mm): 10+8 or .010+.008, 30+5 or 0.30+0.05; .010+8 is STATUS_UNIT, and so is
 * .010+8 th in any cell. In a cell of
 * 64ths the two ways of writing a 64th may be mixed (6+1/64); added to one of them, a number
 * from .1 up to 1, and halves, quarters and eighths, are parts of a 64th (6+.5, 6+1/2).
 *
 * With bare unit UNIT_NONE every term needs a suffix, its own or one to its right
 * (STATUS_UNIT otherwise); that is how a profile's lengths are read. A plain number has
 * no suffixes; for it UNIT_NONE and UNIT_PLAIN are the same.
 *
 * Each term is exact to the rounding of its amount and one more for its unit: 1/128 in
 * is the double (1.0 / 128) * 25.4. A decimal is the nearest double, however long it is. A stack
 * rounds once more at each "+".
 */

/* Where and why a text could not be read, for a message. */
struct num_fault {
    enum status status; /* STATUS_SYNTAX, STATUS_UNIT, STATUS_TOO_LONG, STATUS_DOMAIN (n/0) */
    size_t at;          /* byte offset of the offending part, 0 to the text's length */
    const char *what;   /* what is wrong or was expected, without a full stop; static */
};

/* The longest text that is parsed, in bytes. */
enum { NUM_TEXT_MAX = 64 };

/*
 * Parses `text` as a quantity of the given kind. On success *ret_value is in the pivot
 * unit of that kind, finite, and never minus zero. `bare` measures `quantity` or is
 * UNIT_NONE. On failure *ret_value is untouched and *ret_fault, unless NULL, says why;
 * on success *ret_fault is untouched.
 */
enum status num_parse(const char *text, enum quantity_kind quantity, enum unit bare,
                      double *ret_value, struct num_fault *ret_fault);

/*
 * Rewrites a text that num_parse accepts so that every term carries its unit and reads
 * the same without knowing the cell: "13" in a cell of thousandths is "13 th", "6" in a
 * cell of 64ths "6/64 in", "8 1/4" there "8 1/4/64 in", "0.30" with hundredths
 * "0.30 mm"; a suffix that several terms share is written once, after the last. Terms
 * that have a suffix stay as typed; blanks around the text are dropped. Appends to `out`;
 * STATUS_TOO_LONG, `out` untouched, when it does not fit there or would exceed NUM_TEXT_MAX.
 * Other failures as num_parse.
 */
enum status num_spell(const char *text, enum quantity_kind quantity, enum unit bare,
                      struct strbuf *out);

/*
 * The reverse, for a cell whose unit is printed beside it: drops the unit
 * if the rest, typed into that cell, reads as exactly the same value ("6/64 in" is
 * "6" in a cell of 64ths, ".013 in" is ".013" in one of thousandths); else keeps the text.
 * Appends to `out`; failures as num_spell.
 */
enum status num_shorten(const char *text, enum quantity_kind quantity, enum unit bare,
                        struct strbuf *out);

/* Reads the `length` bytes of `text` as a decimal (see above), to the nearest double.
 * STATUS_SYNTAX, or STATUS_TOO_LONG over NUM_TEXT_MAX bytes. */
enum status num_decimal(const char *text, size_t length, double *ret_value);

/* Reads a whole number, digits only, no sign. STATUS_SYNTAX, or STATUS_RANGE over `max` (>= 0). */
enum status num_count(const char *text, size_t length, int max, int *ret_value);

/* Appends `value` with nine significant digits and a point, whatever the locale: %.9g of
 * the C locale, but minus zero is "0". A value that is not finite is "?". */
void num_format(double value, struct strbuf *out);

/* Appends `value` rounded to `decimals` places (0..9), with a leading zero dropped when
 * `drop_zero` is set (.013, -.007), as inch work writes it. Correctly rounded, a tie of
 * the exact double to even; no minus in front of zeros. Not finite: "?". */
void num_format_fixed(double value, int decimals, bool drop_zero, struct strbuf *out);

/* Appends `value` as whole units and a fraction over `denominator` (a power of two, 1 or
 * more) in lowest terms: 0.140625 over 64 is "9/64", 1.5 is "1 1/2", 0 is "0". Rounds to
 * nearest, ties away from zero. From 2^31 on, or not finite: as num_format. */
void num_format_fraction(double value, int denominator, struct strbuf *out);

#endif
