/* SPDX-License-Identifier: MIT */
#include "base/num_scan.h"

#include <stdint.h>

enum { SIGNIFICANT_MAX = 15, DECIMALS_MAX = 22 };

/* Every one of these is exactly a double; so is a mantissa of 15 digits, hence their
 * quotient is the double nearest to what was written. */
static const double powers_of_ten[DECIMALS_MAX + 1] = {
    1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,  1e8,  1e9,  1e10, 1e11,
    1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22,
};

/* digits [ "." digits ] | "." digits; *ret_point is where the point is, or `length`. */
static bool decimal_shape(const char *text, size_t length, size_t *ret_point)
{
    size_t point = length;

    for (size_t i = 0; i < length; i++) {
        if (num_is_digit(text[i]))
            continue;
        if (text[i] != '.' || point != length)
            return false;
        point = i;
    }
    *ret_point = point;
    return length > 0 && point + 1 != length;
}

enum status num_decimal(const char *text, size_t length, double *ret_value)
{
    uint64_t mantissa = 0;
    size_t point;
    size_t decimals;
    int significant = 0;

    if (!decimal_shape(text, length, &point))
        return STATUS_SYNTAX;
    decimals = point == length ? 0 : length - point - 1;
    if (decimals > DECIMALS_MAX)
        return STATUS_TOO_LONG;
    for (size_t i = 0; i < length; i++) {
        if (i == point)
            continue;
        if (significant > 0 || text[i] != '0')
            significant++;
        if (significant > SIGNIFICANT_MAX)
            return STATUS_TOO_LONG;
        mantissa = mantissa * 10 + (uint64_t)(text[i] - '0');
    }
    *ret_value = (double)mantissa / powers_of_ten[decimals];
    return STATUS_OK;
}

enum status num_count(const char *text, size_t length, int max, int *ret_value)
{
    int count = 0;

    if (length == 0)
        return STATUS_SYNTAX;
    for (size_t i = 0; i < length; i++)
        if (!num_is_digit(text[i]))
            return STATUS_SYNTAX;
    for (size_t i = 0; i < length; i++) {
        int digit = text[i] - '0';

        if (count > (max - digit) / 10 || digit > max)
            return STATUS_RANGE;
        count = count * 10 + digit;
    }
    *ret_value = count;
    return STATUS_OK;
}
