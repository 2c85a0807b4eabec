/* SPDX-License-Identifier: MIT */
#include "model/wood.h"

#include <stddef.h>

#include "model/check.h"

static const struct wood woods[] = {
#include "wood_table.inc"
};

int wood_count(void)
{
    return (int)(sizeof woods / sizeof woods[0]);
}

const struct wood *wood_get(int k)
{
    return k >= 0 && k < wood_count() ? &woods[k] : NULL;
}

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

/* Not tolower(): that would hang on the locale. */
static char lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

/* Takes one character, a run of blanks as a single one and none at the end. */
static char next_letter(const char **text)
{
    const char *at = *text;
    char letter = lower(*at);
    if (is_blank(letter)) {
        at = skip_blanks(at);
        letter = *at ? ' ' : '\0';
    } else if (letter) {
        at++;
    }
    *text = at;
    return letter;
}

static bool is_same_name(const char *a, const char *b)
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

enum status wood_find(const char *name, const struct wood **ret_wood)
{
    if (!name || !*skip_blanks(name))
        return STATUS_ABSENT;
    for (int k = 0; k < wood_count(); k++) {
        if (is_same_name(name, woods[k].name) || is_same_name(name, woods[k].botanical)) {
            *ret_wood = &woods[k];
            return STATUS_OK;
        }
    }
    return STATUS_NOT_FOUND;
}

enum status wood_find_coefficient(const struct wood *wood, enum wood_grain grain,
                                  double *ret_coefficient)
{
    if (grain != WOOD_RADIAL && grain != WOOD_TANGENTIAL)
        return STATUS_DOMAIN;
    if (wood->coefficient[grain].known) {
        *ret_coefficient = wood->coefficient[grain].value;
        return STATUS_OK;
    }
    if (!wood->shrinkage_pct[grain].known)
        return STATUS_ABSENT;
    return wood_coefficient_from_shrinkage(wood->shrinkage_pct[grain].value, ret_coefficient);
}

enum status wood_coefficient_from_shrinkage(double shrinkage_pct, double *ret_coefficient)
{
    if (!check_is_positive(shrinkage_pct) || shrinkage_pct > 100)
        return STATUS_DOMAIN;
    *ret_coefficient = 1 / (100 * 30 / shrinkage_pct - 30 + 10);
    return STATUS_OK;
}
