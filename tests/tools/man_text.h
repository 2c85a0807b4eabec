/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_MAN_TEXT_H
#define SILLET_TESTS_MAN_TEXT_H

#include <stdio.h>

/* Prints a line of a manual page, with backslashes, dashes and leading points escaped for
 * the formatter. */
static inline void man_text(const char *text)
{
    if (*text == '.' || *text == '\'')
        fputs("\\&", stdout);
    for (; *text; text++) {
        if (*text == '\\')
            fputs("\\e", stdout);
        else if (*text == '-')
            fputs("\\-", stdout);
        else
            putchar(*text);
    }
    putchar('\n');
}

#endif
