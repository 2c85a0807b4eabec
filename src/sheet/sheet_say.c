/* SPDX-License-Identifier: MIT */
#include "sheet/sheet_say.h"

#include <math.h>
#include <string.h>

#include "words/amount.h"
#include "base/num.h"
#include "base/unit.h"

/* The shop's unit, and the one in brackets. */
struct both {
    enum unit own, other;
};

static struct both both_of(const struct shop_units *units, enum field_measure measure)
{
    const enum unit own = units->bare[measure];
    const bool metric = own == UNIT_MM || own == UNIT_100THS;
    struct both both = {.own = own, .other = UNIT_100THS};

    /* A mm value given to hundredths keeps its trailing zeros. */
    if (own == UNIT_MM)
        both.own = UNIT_100THS;
    if (metric)
        both.other = measure == MEASURE_RULE ? UNIT_64THS : UNIT_IN;
    return both;
}

/* The unit after a number: "/64 in", " mm". */
static void add_unit(struct strbuf *out, enum unit unit)
{
    if (unit == UNIT_64THS)
        strbuf_add(out, "/64\xC2\xA0in"); /* with a no-break space */
    else
        amount_add_unit(out, unit);
}

/* Long lengths are known to a tenth of a mm; those typed in inches are round numbers. */
static void add_long(struct strbuf *out, double mm, enum unit unit)
{
    char memory[32];
    struct strbuf text = STRBUF(memory);

    num_format_fixed(unit_from_pivot(unit, mm), unit == UNIT_IN ? 3 : 1, false, &text);
    size_t length = text.length;
    while (length > 0 && memory[length - 1] == '0')
        length--;
    strbuf_add_bytes(out, memory, length - (memory[length - 1] == '.'));
    amount_add_unit(out, unit);
}

void sheet_say_scale(struct strbuf *out, double mm, const struct shop_units *units)
{
    const bool inch = units->bare[MEASURE_LONG] == UNIT_IN;

    add_long(out, mm, inch ? UNIT_IN : UNIT_MM);
    strbuf_add(out, " (");
    add_long(out, mm, inch ? UNIT_MM : UNIT_IN);
    strbuf_add_char(out, ')');
}

/* Whether thousandths are too coarse: of an amount this small, mm to hundredths say something
 * else. */
static bool is_fine(double mm, enum unit unit)
{
    const double small_th = 2, seen_th = 0.1, th = fabs(unit_from_pivot(UNIT_TH, mm));

    return unit_printed(unit) == UNIT_IN && th < small_th && fabs(th - round(th)) > seen_th;
}

enum form { TRIMMED, EVEN, SIGNED };

static void add_one(struct strbuf *out, double mm, enum unit unit, enum form form)
{
    if (is_fine(mm, unit)) {
        strbuf_add(out, form == SIGNED && mm > 0 ? "+" : "");
        num_format_fixed(unit_from_pivot(UNIT_IN, mm), 4, true, out);
    } else if (form == EVEN) {
        amount_add_even(out, mm, unit);
    } else {
        amount_add(out, mm, unit, form == SIGNED);
    }
}

static void add_two(struct strbuf *out, double mm, struct both both, enum form form)
{
    add_one(out, mm, both.own, form);
    add_unit(out, both.own);
    strbuf_add(out, " (");
    add_one(out, mm, both.other, form);
    add_unit(out, both.other);
    strbuf_add_char(out, ')');
}

void sheet_say_length(struct strbuf *out, double mm, const struct shop_units *units,
                      enum field_measure measure)
{
    add_two(out, mm, both_of(units, measure), TRIMMED);
}

void sheet_say_change(struct strbuf *out, double mm, const struct shop_units *units,
                      enum field_measure measure)
{
    add_two(out, mm, both_of(units, measure), SIGNED);
}

/* One amount if both read the same. */
static void add_range(struct strbuf *out, double first_mm, double last_mm, enum unit unit)
{
    char first_memory[24], last_memory[24];
    struct strbuf first = STRBUF(first_memory), last = STRBUF(last_memory);

    add_one(&first, first_mm, unit, TRIMMED);
    add_one(&last, last_mm, unit, TRIMMED);
    strbuf_add(out, first_memory);
    if (strcmp(first_memory, last_memory) != 0)
        strbuf_addf(out, " to %s", last_memory);
    add_unit(out, unit);
}

void sheet_say_range(struct strbuf *out, double first_mm, double last_mm,
                     const struct shop_units *units, enum field_measure measure)
{
    const struct both both = both_of(units, measure);

    add_range(out, first_mm, last_mm, both.own);
    strbuf_add(out, " (");
    add_range(out, first_mm, last_mm, both.other);
    strbuf_add_char(out, ')');
}

void sheet_say_bare(struct strbuf *out, double mm, const struct shop_units *units,
                    enum field_measure measure)
{
    const struct both both = both_of(units, measure);

    add_one(out, mm, both.own, EVEN);
    strbuf_add(out, " (");
    add_one(out, mm, both.other, EVEN);
    strbuf_add_char(out, ')');
}

void sheet_say_units(struct strbuf *out, const struct shop_units *units, enum field_measure measure)
{
    const struct both both = both_of(units, measure);

    strbuf_addf(out, "%s (%s)", both.own == UNIT_64THS ? "64ths in" : amount_unit(both.own),
                both.other == UNIT_64THS ? "64ths in" : amount_unit(both.other));
}

bool sheet_is_metric(const struct shop_units *units)
{
    return units->bare[MEASURE_RULE] == UNIT_MM;
}

void sheet_say_force(struct strbuf *out, double n, const struct shop_units *units)
{
    const bool metric = sheet_is_metric(units);
    const enum unit own = metric ? UNIT_N : UNIT_LB, other = metric ? UNIT_KGF : UNIT_N;

    num_format_fixed(unit_from_pivot(own, n), metric ? 0 : 1, false, out);
    strbuf_add(out, " (");
    num_format_fixed(unit_from_pivot(other, n), metric ? 1 : 0, false, out);
    strbuf_add_char(out, ')');
}

const char *sheet_force_units(const struct shop_units *units)
{
    return sheet_is_metric(units) ? "N (kg)" : "lb (N)";
}

static void add_degrees(struct strbuf *out, double celsius, enum unit unit)
{
    num_format_fixed(unit_from_pivot(unit, celsius), 0, false, out);
    strbuf_addf(out, " %s", unit_label(unit));
}

void sheet_say_temperature(struct strbuf *out, double celsius, const struct shop_units *units)
{
    const bool fahrenheit = units->bare[MEASURE_TEMPERATURE] == UNIT_F;

    add_degrees(out, celsius, fahrenheit ? UNIT_F : UNIT_C);
    strbuf_add(out, " (");
    add_degrees(out, celsius, fahrenheit ? UNIT_C : UNIT_F);
    strbuf_add_char(out, ')');
}

void sheet_say_month(struct strbuf *out, int year, int month)
{
    static const char *const months[] = {"January",   "February", "March",    "April",
                                         "May",       "June",     "July",     "August",
                                         "September", "October",  "November", "December"};

    strbuf_addf(out, "%s %d", months[month - 1], year);
}

void sheet_say_date(struct strbuf *out, const char *date)
{
    int year, month, day;

    if (strlen(date) != 10 || num_count(date, 4, 9999, &year) != STATUS_OK ||
        num_count(date + 5, 2, 12, &month) != STATUS_OK || month < 1 ||
        num_count(date + 8, 2, 31, &day) != STATUS_OK) {
        strbuf_add(out, date);
        return;
    }
    strbuf_addf(out, "%d ", day);
    sheet_say_month(out, year, month);
}

/* Whether the number is in the set that comes at place `at`. */
static bool is_in(uint64_t set, int at, bool down)
{
    return at <= FRETS_MAX && (set >> (down ? FRETS_MAX - at : at) & 1) != 0;
}

/* Three in a row or more are said by their ends. */
static int run_end(uint64_t set, int at, bool down)
{
    int end = at;

    while (is_in(set, end + 1, down))
        end++;
    return end - at >= 2 ? end : at;
}

void sheet_say_numbers(struct strbuf *out, uint64_t set, bool down, const char *one,
                       const char *many)
{
    bool left = (set & (set - 1)) != 0, begun = false;

    strbuf_add(out, left ? many : one);
    for (int at = 0, end; at <= FRETS_MAX; at = end + 1) {
        end = at;
        if (!is_in(set, at, down))
            continue;
        end = run_end(set, at, down);
        left = false;
        for (int next = end + 1; next <= FRETS_MAX; next++)
            left = left || is_in(set, next, down);
        strbuf_add(out, !begun ? " " : left ? ", " : " and ");
        strbuf_addf(out, "%d", down ? FRETS_MAX - at : at);
        if (end > at)
            strbuf_addf(out, " to %d", down ? FRETS_MAX - end : end);
        begun = true;
    }
}

void sheet_say_sentence(struct strbuf *out, const char *text)
{
    if (*text >= 'a' && *text <= 'z')
        strbuf_add_char(out, (char)(*text++ - 'a' + 'A'));
    strbuf_add(out, text);
}

void sheet_say_pct(struct strbuf *out, double pct, int decimals)
{
    num_format_fixed(pct, decimals, false, out);
    /* With a no-break space. */
    strbuf_add(out, "\xC2\xA0%");
}
