/* SPDX-License-Identifier: MIT */
#include "model/strings/string_set.h"

#include <stddef.h>
#include <string.h>

#include "model/common/same_name.h"

static const struct string_of_set rows[] = {
#include "set_table.inc"
};

enum { ROWS = sizeof rows / sizeof rows[0] };

bool string_set_next(struct string_set *set)
{
    const struct string_of_set *first = set->string ? set->string + set->strings : rows;
    int strings = 0;

    if (first == rows + ROWS)
        return false;
    while (first + strings < rows + ROWS && strcmp(first[strings].set, first->set) == 0)
        strings++;
    *set = (struct string_set){.name = first->set, .strings = strings, .string = first};
    return true;
}

enum status string_set_find(const char *name, struct string_set *ret_set)
{
    struct string_set set = {.strings = 0};

    while (string_set_next(&set))
        if (same_name(name, set.name)) {
            *ret_set = set;
            return STATUS_OK;
        }
    return STATUS_NOT_FOUND;
}
