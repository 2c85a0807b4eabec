/* SPDX-License-Identifier: MIT */
#include "words/amount.h"

#include <math.h>
#include <string.h>

#include "base/num.h"

static int decimals_of(enum unit unit)
{
    switch (unit) {
    case UNIT_IN:
        return 3;
    case UNIT_64THS:
        return 1;
    default:
        return 2;
    }
}

/* Drops the zeros after the point. */
static void trim(char *text)
{
    size_t length = strlen(text);

    if (!strchr(text, '.'))
        return;
    while (text[length - 1] == '0')
        length--;
    if (text[length - 1] == '.')
        length--;
    text[length] = '\0';
}

/* A half goes up, as people round, also one that comes out a hair too low: .0095 in is .010 in
 * wherever it stands. */
static double with_halves_up(double amount)
{
    return amount * (1 + 1e-9);
}

void amount_add_even(struct strbuf *out, double mm, enum unit unit)
{
    const enum unit written = unit_printed(unit);

    num_format_fixed(with_halves_up(unit_from_pivot(written, mm)), decimals_of(written),
                     written == UNIT_IN, out);
}

void amount_add(struct strbuf *out, double mm, enum unit unit, bool sign)
{
    const enum unit written = unit_printed(unit);
    char memory[48];
    struct strbuf text = STRBUF(memory);

    amount_add_even(&text, mm, unit);
    /* An amount that rounds to nothing has no sign. */
    if (sign && mm > 0 && strpbrk(memory, "123456789"))
        strbuf_add_char(out, '+');
    /* Changes keep their zeros, so that the points of a row line up. So do feeler amounts, because
     * leaves are marked that way. */
    if (!sign && unit != UNIT_100THS && written != UNIT_IN)
        trim(memory);
    strbuf_add(out, memory);
}

void amount_add_doubt(struct strbuf *out, double u_mm, enum unit unit)
{
    strbuf_add(out, " \xC2\xB1");
    amount_add(out, u_mm, unit, false);
}

void amount_add_short(struct strbuf *out, double mm, enum unit unit, int columns)
{
    const enum unit written = unit_printed(unit);
    char memory[48];
    struct strbuf text = STRBUF(memory);

    amount_add(&text, mm, unit, false);
    if (written == UNIT_IN && (int)text.length > columns) {
        strbuf_clear(&text);
        num_format_fixed(unit_from_pivot(UNIT_TH, mm), 0, false, &text);
    }
    if (written == UNIT_MM && (int)text.length > columns) {
        strbuf_clear(&text);
        num_format_fixed(mm, decimals_of(written), true, &text);
    }
    for (int decimals = decimals_of(written) - 1; (int)text.length > columns && decimals >= 0;
         decimals--) {
        if (written == UNIT_IN)
            break;
        strbuf_clear(&text);
        num_format_fixed(unit_from_pivot(written, mm), decimals, false, &text);
    }
    strbuf_add(out, memory);
}

void amount_add_cut(struct strbuf *out, double mm, enum unit unit)
{
    const bool inch = unit == UNIT_IN;
    const double step = inch ? 0.005 : 0.1;

    num_format_fixed(round(unit_from_pivot(unit, mm) / step) * step, inch ? 3 : 1, inch, out);
}

double amount_on_rule(double mm, enum unit unit)
{
    const double value = unit_from_pivot(unit, mm), step = unit == UNIT_64THS ? 0.5 : 0.1;
    const bool is_written = fabs(value * 20 - round(value * 20)) < 1e-6;

    if (is_written || (unit != UNIT_64THS && unit != UNIT_MM))
        return mm;
    return unit_to_pivot(unit, round(value / step) * step);
}

void amount_add_unit(struct strbuf *out, enum unit unit)
{
    strbuf_add_char(out, ' ');
    strbuf_add(out, amount_unit(unit));
}

const char *amount_unit(enum unit unit)
{
    return unit == UNIT_64THS ? "/64" : unit_label(unit_printed(unit));
}

void amount_add_range(struct strbuf *out, double first_mm, double last_mm, enum unit unit)
{
    char first_memory[24], last_memory[24];
    struct strbuf first = STRBUF(first_memory), last = STRBUF(last_memory);

    amount_add(&first, first_mm, unit, false);
    amount_add(&last, last_mm, unit, false);
    strbuf_add(out, first_memory);
    if (strcmp(first_memory, last_memory) != 0) {
        strbuf_add(out, " to ");
        strbuf_add(out, last_memory);
    }
}

static bool has_u(const struct amount_with_u *amount)
{
    return isfinite(amount->u) && amount->u > 0;
}

/* The last place of a ±, as decimals after the point, fewer than 0 where it ends before it: two
 * digits if the first is 1 or 2, else one (JCGM 100:2008, GUM, 7.2.6). */
static int last_place(double u)
{
    const int place = -(int)floor(log10(u));
    /* In units of the first digit, after rounding to the second: 2.96 is 3.0. */
    const double first = round(u * pow(10, place + 1)) / 10;

    return first < 3 ? place + 1 : first >= 10 ? place - 1 : place;
}

static int place_of(const struct amount_with_u *amount)
{
    const int most = 9; /* what is printed */

    if (!has_u(amount))
        return amount->decimals;
    const int place = last_place(amount->u);
    return place < most ? place : most;
}

static void add_at_place(struct strbuf *out, double value, int place, bool drop_zero)
{
    const double step = pow(10, -place);

    if (place < 0)
        num_format_fixed(round(value / step) * step, 0, drop_zero, out);
    else
        num_format_fixed(value, place, drop_zero, out);
}

void amount_add_to_u(struct strbuf *out, const struct amount_with_u *amount)
{
    add_at_place(out, amount->value, place_of(amount), amount->drop_zero);
}

void amount_add_u(struct strbuf *out, const struct amount_with_u *amount)
{
    if (!has_u(amount))
        return;
    strbuf_add(out, "\xC2\xB1");
    add_at_place(out, amount->u, place_of(amount), amount->drop_zero);
}

void amount_add_with_u(struct strbuf *out, const struct amount_with_u *amount, const char *gap)
{
    amount_add_to_u(out, amount);
    strbuf_add(out, has_u(amount) ? gap : "");
    amount_add_u(out, amount);
}

struct amount_with_u amount_of_length(double mm, double u_mm, enum unit unit)
{
    const enum unit written = unit_printed(unit);

    return (struct amount_with_u){.value = unit_from_pivot(written, mm),
                                  .u = unit_from_pivot(written, u_mm),
                                  .decimals = decimals_of(written),
                                  .drop_zero = written == UNIT_IN};
}

static void add_inches(struct strbuf *out, double mm)
{
    const double inches = unit_from_pivot(UNIT_IN, mm);

    num_format_fixed(inches, fabs(inches) < 1 ? 4 : 3, true, out);
    strbuf_add(out, " in");
}

static void add_64ths(struct strbuf *out, double mm)
{
    const double inches = unit_from_pivot(UNIT_IN, mm), parts = round(inches * 64);
    const double off = fabs(inches - parts / 64);

    if (parts == 0 || off >= 0.002)
        return;
    /* A plain = only if the nearest 64th is exactly the length. */
    strbuf_add(out, off > 1e-11 ? " = about " : " = ");
    num_format_fraction(inches, 64, out);
    strbuf_add(out, " in");
}

void amount_add_all(struct strbuf *out, double mm, enum unit unit)
{
    const bool metric = unit == UNIT_MM || unit == UNIT_100THS || unit == UNIT_CM;

    if (!metric) {
        add_inches(out, mm);
        add_64ths(out, mm);
        strbuf_add(out, " = ");
    }
    num_format_fixed(mm, fabs(mm) < 10 ? 3 : 2, false, out);
    strbuf_add(out, " mm");
    if (metric) {
        strbuf_add(out, " = ");
        add_inches(out, mm);
    }
}

double amount_of_work(double mm, enum unit unit)
{
    const double step = unit_printed(unit) == UNIT_MM ? 0.05 : 0.0254, rounding = 1e-6;
    const double done = step * ceil(mm / step - rounding);

    return done == 0 ? mm : done;
}

void amount_add_work(struct strbuf *out, double mm, enum unit unit)
{
    amount_add(out, amount_of_work(mm, unit), unit, true);
}

/* As many decimals as are written, at least none. */
static int supported_decimals(double u, int most)
{
    const int decimals = last_place(u);

    return decimals < 0 ? 0 : decimals > most ? most : decimals;
}

static void write_supported(struct strbuf *out, double value, double u, int decimals, bool round_up,
                            const struct amount_digits *digits)
{
    const double ten = pow(10, decimals), rounded = round(value * ten) / ten;

    strbuf_clear(out);
    strbuf_add(out, digits->sign && rounded > 0 ? "+" : "");
    num_format_fixed(rounded, decimals, digits->bare_point, out);
    strbuf_add(out, " \xC2\xB1");
    num_format_fixed(round_up ? ceil(u * ten - 1e-9) / ten : u, decimals, digits->bare_point, out);
}

void amount_add_supported(struct strbuf *out, double value, double u,
                          const struct amount_digits *digits)
{
    const int sign_bytes = 1; /* the ± takes one more than its column */
    char memory[64];
    struct strbuf text = STRBUF(memory);
    int decimals = digits->decimals_most;

    if (u > 0 && isfinite(u)) {
        decimals = supported_decimals(u, digits->decimals_most);
        write_supported(&text, value, u, decimals, false, digits);
        while ((int)text.length - sign_bytes > digits->columns && decimals > 0)
            write_supported(&text, value, u, --decimals, true, digits);
    } else {
        strbuf_add(&text, digits->sign && value > 0 ? "+" : "");
        num_format_fixed(value, decimals, digits->bare_point, &text);
        strbuf_add(&text, u > 0 ? " \xC2\xB1?" : "");
    }
    strbuf_add(out, memory);
}

void amount_add_supported_mm(struct strbuf *out, double mm, double u_mm, enum unit unit,
                             int columns)
{
    const enum unit written = unit_printed(unit);
    const struct amount_digits digits = {.decimals_most = decimals_of(written),
                                         .columns = columns,
                                         .bare_point = written == UNIT_IN};

    amount_add_supported(out, unit_from_pivot(written, mm), unit_from_pivot(written, u_mm),
                         &digits);
}

void amount_add_turns(struct strbuf *out, double turns, bool sign)
{
    const int eighths = 8;

    strbuf_add(out, sign && round(turns * eighths) > 0 ? "+" : "");
    num_format_fraction(turns, eighths, out);
}
