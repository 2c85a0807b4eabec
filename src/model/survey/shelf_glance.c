/* SPDX-License-Identifier: MIT */
#include "model/survey/shelf_glance.h"

#include <string.h>

#include "base/ascii.h"

/* Whether a time that brings its own day may be in the text: 2026-11-27T15:40. */
static bool has_dated_time(const char *text, size_t length)
{
    const char *at = text, *const end = text + length;

    while (at < end && (at = memchr(at, 'T', (size_t)(end - at))) != NULL) {
        if (at > text && at + 1 < end && is_ascii_digit(at[-1]) && is_ascii_digit(at[1]))
            return true;
        at++;
    }
    return false;
}

void shelf_glance_fields(const char *text, size_t length, bool ret_wanted[FIELD_COUNT_])
{
    static const enum field_id always[] = {
        FIELD_FORMAT, FIELD_NAME, FIELD_KIND, FIELD_OWNER, FIELD_MAKER, FIELD_SERIAL,
        /* The tuning's name follows from these. */
        FIELD_STRINGS, FIELD_STRING_NOTE, FIELD_VISIT_DATE, FIELD_VISIT_TICKET,
        FIELD_VISIT_PROMISED, FIELD_VISIT_HANDED_OVER};

    for (int id = 0; id < FIELD_COUNT_; id++)
        ret_wanted[id] = false;
    for (size_t i = 0; i < sizeof always / sizeof always[0]; i++)
        ret_wanted[always[i]] = true;
    /* A time without a day is of the visit's day. Few texts have others, and looking through passes
     * and work for them takes a sixth longer. */
    ret_wanted[FIELD_PASS_TIME] = ret_wanted[FIELD_WORK_TIME] = has_dated_time(text, length);
}

void shelf_glance_make(const struct record *record, struct card *ret_card,
                       struct shelf_facts *ret_facts)
{
    card_glance(record, ret_card);
    shelf_facts_glance(record, ret_facts);
}
