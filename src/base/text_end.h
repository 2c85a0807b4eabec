/* SPDX-License-Identifier: MIT */
#ifndef SILLET_BASE_TEXT_END_H
#define SILLET_BASE_TEXT_END_H

#include <stdbool.h>
#include <string.h>

/* Whether a text ends so, with something before it: ".ini" alone is no profile's name. */
static inline bool text_ends_in(const char *text, const char *end)
{
    const size_t length = strlen(text), end_length = strlen(end);

    return length > end_length && strcmp(text + length - end_length, end) == 0;
}

#endif
