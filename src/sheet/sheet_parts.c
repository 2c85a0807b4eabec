/* SPDX-License-Identifier: MIT */
#include "sheet/sheet_parts.h"

#include <stddef.h>

bool sheet_has_both(const struct sheet_maker *maker)
{
    return maker->first != maker->last;
}

const char *sheet_text_of(const struct sheet_maker *maker, struct reading_key key)
{
    const struct reading *reading = record_get(maker->record, &key);

    return reading && reading->value.state != READING_BAD ? reading->text : NULL;
}

const char *sheet_text_of_line(const struct sheet_maker *maker, enum work_column column, int line)
{
    const char *text = sheet_text_of(maker, work_key(column, maker->visit, line));

    return text ? text : "";
}
