/* SPDX-License-Identifier: MIT */
#ifndef SILLET_BASE_ASCII_H
#define SILLET_BASE_ASCII_H

#include <stdbool.h>

/* ASCII characters, whatever the locale. */

static inline bool is_ascii_digit(char c)
{
    return c >= '0' && c <= '9';
}

static inline bool is_ascii_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/* A capital as a small letter; any other character as it is. */
static inline char ascii_lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

#endif
