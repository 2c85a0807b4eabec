/* SPDX-License-Identifier: MIT */
#include "base/ascii.h"
#include "base/num.h"

#include <float.h>
#include <stdint.h>
#include <stdlib.h>

/* digits [ "." digits ] | "." digits; *ret_point is where the point is, or `length`. */
static bool decimal_shape(const char *text, size_t length, size_t *ret_point)
{
    size_t point = length;

    for (size_t i = 0; i < length; i++) {
        if (is_ascii_digit(text[i]))
            continue;
        if (text[i] != '.' || point != length)
            return false;
        point = i;
    }
    *ret_point = point;
    return length > 0 && point + 1 != length;
}

/*
 * A whole number that a double holds exactly over a power of ten that one holds too: the one
 * rounding of the division gives the nearest double. False if the number is none of these, or if
 * this machine rounds otherwise. Source: W. D. Clinger, "How to Read Floating Point Numbers
 * Accurately", PLDI 1990, section 3.
 */
static bool divide_exactly(const char *text, size_t length, size_t point, double *ret_value)
{
    static const double tens[] = {1,   1e1, 1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                  1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};
    uint64_t digits = 0;

    if (FLT_EVAL_METHOD != 0 || length > 15)
        return false;
    for (size_t i = 0; i < length; i++)
        if (i != point)
            digits = digits * 10 + (uint64_t)(text[i] - '0');
    *ret_value = (double)digits / tens[point < length ? length - point - 1 : 0];
    return true;
}

/*
 * The C library rounds to the nearest double, but expects the locale's point. So it gets none: the
 * digits are passed as a whole number, followed by a power of ten for the decimals.
 */
enum status num_decimal(const char *text, size_t length, double *ret_value)
{
    char memory[NUM_TEXT_MAX + 8];
    struct strbuf digits = STRBUF(memory);
    size_t point;

    if (!decimal_shape(text, length, &point))
        return STATUS_SYNTAX;
    if (length > NUM_TEXT_MAX)
        return STATUS_TOO_LONG;
    if (divide_exactly(text, length, point, ret_value))
        return STATUS_OK;
    strbuf_add_bytes(&digits, text, point);
    if (point < length) {
        strbuf_add_bytes(&digits, text + point + 1, length - point - 1);
        strbuf_addf(&digits, "e-%d", (int)(length - point - 1));
    }
    *ret_value = strtod(memory, NULL);
    return STATUS_OK;
}

enum status num_count(const char *text, size_t length, int max, int *ret_value)
{
    int count = 0;

    if (length == 0)
        return STATUS_SYNTAX;
    for (size_t i = 0; i < length; i++)
        if (!is_ascii_digit(text[i]))
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
