/* SPDX-License-Identifier: MIT */
#include "model/record_walk.h"

/* No number of a pass or work line is beyond this. */
enum { PART_BEYOND = WORKS_MAX + 1 };

bool record_next_visit(const struct record *record, int *visit)
{
    const struct reading_key beyond = {
        .field = FIELD_WORK_TIME, .visit = *visit, .part = PART_BEYOND};
    const size_t at = record_lower_bound(record, &beyond);

    if (at == record->count)
        return false;
    for (size_t i = at; i < record->count; i++)
        if (record->readings[i].key.visit > *visit) {
            *visit = record->readings[i].key.visit;
            return true;
        }
    return false;
}

bool record_next_pass(const struct record *record, int *visit, int *pass)
{
    const struct reading_key next = reading_key_pass(FIELD_PASS_LABEL, *visit, *pass + 1);

    for (size_t i = record_lower_bound(record, &next); i < record->count; i++) {
        const struct reading_key *key = &record->readings[i].key;

        if (field_get(key->field)->section != SECTION_PASS)
            continue;
        *visit = key->visit;
        *pass = key->part;
        return true;
    }
    return false;
}
