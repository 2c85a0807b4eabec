/* SPDX-License-Identifier: MIT */
#include "model/reading/record.h"

int record_last_visit(const struct record *record)
{
    const struct reading *last;

    if (record->count == 0)
        return 0;
    /* All of a visit's sections come last in the order, so the last reading tells. */
    last = &record->readings[record->count - 1];
    return reading_key_is_change(&last->key) ? 0 : last->key.visit;
}

bool record_next_visit(const struct record *record, int *visit)
{
    /* No number of a pass or work line is beyond this. */
    const struct reading_key beyond = reading_key_pass(FIELD_WORK_TIME, *visit, WORKS_MAX + 1);

    for (size_t i = record_lower_bound(record, &beyond); i < record->count; i++)
        if (record->readings[i].key.visit > *visit) {
            *visit = record->readings[i].key.visit;
            return true;
        }
    return false;
}

bool record_visit_before(const struct record *record, int *visit)
{
    const struct reading_key beyond = reading_key_pass(FIELD_WORK_TIME, *visit - 1, WORKS_MAX + 1);
    const size_t at = *visit > 1 ? record_lower_bound(record, &beyond) : 0;

    if (at == 0 || section_is_of_instrument(field_get(record->readings[at - 1].key.field)->section))
        return false;
    *visit = record->readings[at - 1].key.visit;
    return true;
}

static int last_part(const struct record *record, int visit, enum field_id first,
                     enum section section)
{
    /* The greatest key below a part that cannot exist is the last part's. */
    const struct reading_key beyond = reading_key_pass(first, visit, WORKS_MAX + 1);
    const size_t at = record_lower_bound(record, &beyond);

    if (at == 0)
        return 0;
    const struct reading_key *key = &record->readings[at - 1].key;
    if (key->visit != visit || field_get(key->field)->section != section)
        return 0;
    return key->part;
}

int record_last_pass(const struct record *record, int visit)
{
    return last_part(record, visit, FIELD_PASS_LABEL, SECTION_PASS);
}

bool record_is_read_pass(const struct record *record, int visit, int pass)
{
    const struct reading_key first = reading_key_pass(FIELD_PASS_LABEL, visit, pass);

    for (size_t i = record_lower_bound(record, &first); i < record->count; i++) {
        const struct reading_key *key = &record->readings[i].key;

        if (field_get(key->field)->section != SECTION_PASS || key->visit != visit ||
            key->part != pass)
            return false;
        if (key->field != FIELD_ROD_TURN)
            return true;
    }
    return false;
}

int record_last_read_pass(const struct record *record, int visit)
{
    int pass = record_last_pass(record, visit);

    while (pass > 0 && !record_is_read_pass(record, visit, pass))
        pass--;
    return pass;
}

int record_last_work(const struct record *record, int visit)
{
    return last_part(record, visit, FIELD_WORK_KIND, SECTION_WORK);
}
