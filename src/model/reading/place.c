/* SPDX-License-Identifier: MIT */
#include "model/reading/place.h"

#include "model/reading/record_access.h"

struct place place_of(const struct record *record, int visit, int pass)
{
    return (struct place){
        .record = record_as_of_pass(record, visit, pass), .visit = visit, .pass = pass};
}

struct place place_current(const struct record *record)
{
    for (int visit = record_last_visit(record); visit > 0; visit--) {
        const int pass = record_last_read_pass(record, visit);

        if (pass > 0)
            return place_of(record, visit, pass);
    }
    return place_of(record, 0, 0);
}

bool place_next(struct place *place)
{
    const struct record *record = &place->record;
    const struct reading_key next =
        reading_key_pass(FIELD_PASS_LABEL, place->visit, place->pass + 1);

    for (size_t i = record_lower_bound(record, &next); i < record->count; i++) {
        const struct reading_key *key = &record->readings[i].key;

        if (field_get(key->field)->section != SECTION_PASS)
            continue;
        *place = place_of(record, key->visit, key->part);
        return true;
    }
    return false;
}

bool place_before(struct place *place)
{
    const struct record *record = &place->record;
    const struct reading_key first = reading_key_pass(FIELD_PASS_LABEL, place->visit, place->pass);

    for (size_t i = record_lower_bound(record, &first); i > 0; i--) {
        const struct reading_key *key = &record->readings[i - 1].key;

        if (field_get(key->field)->section != SECTION_PASS)
            continue;
        *place = place_of(record, key->visit, key->part);
        return true;
    }
    return false;
}

bool place_is_after(struct place place, struct place other)
{
    return place.visit > other.visit || (place.visit == other.visit && place.pass > other.pass);
}

struct reading_key place_key(struct place place, enum field_id field)
{
    return reading_key_pass(field, place.visit, place.pass);
}

struct reading_key place_key_at(struct place place, enum field_id field, int string, int fret)
{
    return reading_key_pass_at(field, place.visit, place.pass, string, fret);
}

struct maybe place_read(struct place place, enum field_id field)
{
    return record_entered(&place.record, place_key(place, field));
}

struct maybe place_read_at(struct place place, enum field_id field, int string, int fret)
{
    return record_entered(&place.record, place_key_at(place, field, string, fret));
}

bool place_reads_any(struct place place, enum field_id field, int string)
{
    const struct record *record = &place.record;
    const struct reading_key first = place_key_at(place, field, string, 0);
    const struct reading_key last = place_key_at(place, field, string, FRETS_MAX);
    const size_t at = record_lower_bound(record, &first);

    return at < record->count && reading_key_compare(&record->readings[at].key, &last) <= 0;
}
