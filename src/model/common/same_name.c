/* SPDX-License-Identifier: MIT */
#include "model/common/same_name.h"

#include "base/ascii.h"

static bool is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '-' || c == '_';
}

static const char *skip_blanks(const char *text)
{
    while (is_blank(*text))
        text++;
    return text;
}

/* Takes one character, a run of blanks as a single one and none at the end. */
static char next_letter(const char **text)
{
    const char *at = *text;
    char letter = ascii_lower(*at);
    if (is_blank(letter)) {
        at = skip_blanks(at);
        letter = *at ? ' ' : '\0';
    } else if (letter) {
        at++;
    }
    *text = at;
    return letter;
}

bool same_name(const char *a, const char *b)
{
    a = skip_blanks(a);
    b = skip_blanks(b);
    for (;;) {
        const char letter = next_letter(&a);
        if (letter != next_letter(&b))
            return false;
        if (!letter)
            return true;
    }
}

bool same_name_is_blank(const char *name)
{
    return *skip_blanks(name) == '\0';
}
