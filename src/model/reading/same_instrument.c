/* SPDX-License-Identifier: MIT */
#include "model/reading/same_instrument.h"

#include <string.h>

#include "model/reading/record_access.h"

enum likeness { UNKNOWN, ALIKE, DIFFERENT };

static enum likeness compare(const char *a, const char *b)
{
    if (a[0] == '\0' || b[0] == '\0')
        return UNKNOWN;
    return strcmp(a, b) == 0 ? ALIKE : DIFFERENT;
}

static enum likeness compare_field(const struct record *a, const struct record *b,
                                   enum field_id field)
{
    return compare(record_text_or_empty(a, reading_key_one(field)),
                   record_text_or_empty(b, reading_key_one(field)));
}

static const char *first_day(const struct record *record)
{
    int visit = 0;

    if (!record_next_visit(record, &visit))
        return "";
    return record_text_or_empty(record, reading_key_visit(FIELD_VISIT_DATE, visit));
}

bool same_instrument(const struct record *a, const struct record *b)
{
    const enum likeness name = compare_field(a, b, FIELD_NAME),
                        serial = compare_field(a, b, FIELD_SERIAL),
                        day = compare(first_day(a), first_day(b));

    return (name == ALIKE || serial == ALIKE) && name != DIFFERENT && serial != DIFFERENT &&
           day != DIFFERENT;
}

void same_instrument_fields(bool ret_wanted[FIELD_COUNT_])
{
    for (int id = 0; id < FIELD_COUNT_; id++)
        ret_wanted[id] = id == FIELD_NAME || id == FIELD_SERIAL || id == FIELD_VISIT_DATE;
}
