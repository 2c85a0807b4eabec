/* SPDX-License-Identifier: MIT */
#ifndef SILLET_BASE_DIGIT_H
#define SILLET_BASE_DIGIT_H

#include <stdbool.h>

/* Whether `c` is an ASCII digit, whatever the locale. */
static inline bool is_ascii_digit(char c)
{
    return c >= '0' && c <= '9';
}

#endif
