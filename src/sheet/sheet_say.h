/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHEET_SHEET_SAY_H
#define SILLET_SHEET_SHEET_SAY_H

#include <stdint.h>

#include "base/strbuf.h"
#include "model/reading/field.h"
#include "model/reading/record.h"

/* Numbers and names as the sheet writes them: in the shop's unit, with the other in brackets. */

/* ".011 in (0.28 mm)", "8.5/64 in (3.37 mm)"; inches below .002 get a fourth place where that makes
 * both say the same: ".0005 in (0.01 mm)". */
void sheet_say_length(struct strbuf *out, double mm, const struct shop_units *units,
                      enum field_measure measure);
/* The same for a change, with its sign. */
void sheet_say_change(struct strbuf *out, double mm, const struct shop_units *units,
                      enum field_measure measure);
/* ".018 to .012 in (0.46 to 0.30 mm)". */
void sheet_say_range(struct strbuf *out, double first_mm, double last_mm,
                     const struct shop_units *units, enum field_measure measure);

/* "24.75 in (628.7 mm)". */
void sheet_say_scale(struct strbuf *out, double mm, const struct shop_units *units);

/* For a table: ".011 (0.28)" in the cell, "in (mm)" in the heading. */
void sheet_say_bare(struct strbuf *out, double mm, const struct shop_units *units,
                    enum field_measure measure);
void sheet_say_units(struct strbuf *out, const struct shop_units *units,
                     enum field_measure measure);

/* Whether a shop counts as metric, by the unit of its rule. */
bool sheet_is_metric(const struct shop_units *units);

/* "23.1 (102.9)", and its units: "lb (N)" or "N (kg)". */
void sheet_say_force(struct strbuf *out, double n, const struct shop_units *units);
const char *sheet_force_units(const struct shop_units *units);

/* "20 C (68 F)", the shop's unit first. */
void sheet_say_temperature(struct strbuf *out, double celsius, const struct shop_units *units);

/* "11.1 %", with a no-break space. */
void sheet_say_pct(struct strbuf *out, double pct, int decimals);

/* "19 January 2026"; a date that is not understood is written unchanged. */
void sheet_say_date(struct strbuf *out, const char *date);

/* "January 2027"; month 1 to 12. */
void sheet_say_month(struct strbuf *out, int year, int month);

/* "string 3", "strings 6 to 2", "frets 4, 5 and 9": the numbers whose bits are set, downward from
 * the highest with `down`. */
void sheet_say_numbers(struct strbuf *out, uint64_t set, bool down, const char *one,
                       const char *many);

/* A choice or a text with its first letter in upper case. */
void sheet_say_sentence(struct strbuf *out, const char *text);

#endif
