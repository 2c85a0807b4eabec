/* SPDX-License-Identifier: MIT */
#include "base/ascii.h"
#include "base/num.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/*
 * snprintf rounds correctly but puts the locale's separator between the whole part and the
 * decimals. The rest of its output is digits, sign and exponent, so whatever is
 * between two digits is that separator and is replaced by a point.
 */

enum {
    SIGNIFICANT = 9,
    DECIMALS_MAX = 9,
    FIXED_MAX = 400, /* 309 digits, a separator of several bytes, decimals */
};

/* Copies only the digits of `printed`, up to `stop` or the end. */
static size_t copy_digits(const char *printed, char stop, char *out)
{
    size_t count = 0;

    for (; *printed && *printed != stop; printed++)
        if (is_ascii_digit(*printed))
            out[count++] = *printed;
    return count;
}

/* Appends digits[0..count) with the point after the first 1 + exponent of them. */
static void add_plain(const char *digits, int count, int exponent, struct strbuf *out)
{
    if (exponent < 0) {
        strbuf_add(out, "0.");
        for (int i = exponent + 1; i < 0; i++)
            strbuf_add_char(out, '0');
    }
    for (int i = 0; i < count || i <= exponent; i++) {
        if (i == exponent + 1 && i > 0)
            strbuf_add_char(out, '.');
        strbuf_add_char(out, i < count ? digits[i] : '0');
    }
}

/* d.ddde-12: an exponent of at least two digits, as %g writes it. */
static void add_scientific(const char *digits, int count, int exponent, struct strbuf *out)
{
    add_plain(digits, count, 0, out);
    strbuf_addf(out, "e%c%02d", exponent < 0 ? '-' : '+', abs(exponent));
}

void num_format(double value, struct strbuf *out)
{
    char printed[48];
    char digits[48];
    int count, exponent;

    if (!isfinite(value)) {
        strbuf_add_char(out, '?');
        return;
    }
    if (value == 0.0) {
        strbuf_add_char(out, '0');
        return;
    }
    snprintf(printed, sizeof(printed), "%.*e", SIGNIFICANT - 1, fabs(value));
    exponent = (int)strtol(strchr(printed, 'e') + 1, NULL, 10);
    count = (int)copy_digits(printed, 'e', digits);
    while (count > 1 && digits[count - 1] == '0')
        count--;
    if (value < 0.0)
        strbuf_add_char(out, '-');
    if (exponent < -4 || exponent >= SIGNIFICANT)
        add_scientific(digits, count, exponent, out);
    else
        add_plain(digits, count, exponent, out);
}

void num_format_fixed(double value, int decimals, bool drop_zero, struct strbuf *out)
{
    char printed[FIXED_MAX];
    char digits[FIXED_MAX];
    size_t count, whole;

    if (!isfinite(value)) {
        strbuf_add_char(out, '?');
        return;
    }
    decimals = decimals < 0 ? 0 : decimals > DECIMALS_MAX ? DECIMALS_MAX : decimals;
    snprintf(printed, sizeof(printed), "%.*f", decimals, fabs(value));
    count = copy_digits(printed, '\0', digits);
    digits[count] = '\0';
    whole = count - (size_t)decimals;
    if (value < 0.0 && strspn(digits, "0") < count)
        strbuf_add_char(out, '-');
    if (!(drop_zero && decimals > 0 && whole == 1 && digits[0] == '0'))
        strbuf_add_bytes(out, digits, whole);
    if (decimals > 0) {
        strbuf_add_char(out, '.');
        strbuf_add_bytes(out, digits + whole, (size_t)decimals);
    }
}

void num_format_fraction(double value, int denominator, struct strbuf *out)
{
    double parts = round(fabs(value) * denominator);
    int above, below = denominator;

    if (!(parts < 2147483648.0 * denominator)) {
        num_format(value, out);
        return;
    }
    if (value < 0.0 && parts > 0.0)
        strbuf_add_char(out, '-');
    above = (int)fmod(parts, denominator);
    while (above % 2 == 0 && below % 2 == 0 && above > 0) {
        above /= 2;
        below /= 2;
    }
    if (parts >= denominator || above == 0)
        strbuf_addf(out, "%u", (unsigned)(parts / denominator));
    if (parts >= denominator && above > 0)
        strbuf_add_char(out, ' ');
    if (above > 0)
        strbuf_addf(out, "%d/%d", above, below);
}
