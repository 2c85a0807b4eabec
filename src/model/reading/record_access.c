/* SPDX-License-Identifier: MIT */
#include "model/reading/record_access.h"

#include <stddef.h>

struct maybe record_entered(const struct record *record, struct reading_key key)
{
    const struct reading *reading = record_get(record, &key);

    if (!reading || reading->value.state == READING_BAD)
        return maybe_absent();
    return maybe_given(reading->value.value);
}

struct maybe record_entered_one(const struct record *record, enum field_id field)
{
    return record_entered(record, reading_key_one(field));
}

struct maybe record_entered_string(const struct record *record, enum field_id field, int string)
{
    return record_entered(record, reading_key_string(field, string));
}

struct maybe record_entered_or_fallback(const struct record *record, struct reading_key key)
{
    const struct field *field = field_get(key.field);
    const struct maybe entered = record_entered(record, key);
    struct field_value fallback;

    if (entered.given || field->fallback[0] == '\0')
        return entered;
    if (field_read(field, field->fallback, field_file_unit(field), &fallback, NULL) != STATUS_OK)
        return maybe_absent();
    return maybe_given(fallback.value);
}

double record_or_fallback(const struct record *record, enum field_id field)
{
    return maybe_or(record_entered_or_fallback(record, reading_key_one(field)), 0);
}

struct maybe record_step(const struct record *record, const struct field *field)
{
    static const enum field_id steps[] = {
        [STEP_FEELER] = FIELD_FEELER_STEP,
        [STEP_RULE] = FIELD_RULE_STEP,
        [STEP_TUNER] = FIELD_TUNER_STEP,
    };

    if (field->step == STEP_NONE)
        return maybe_absent();
    return maybe_given(record_or_fallback(record, steps[field->step]));
}

const char *record_text_or_empty(const struct record *record, struct reading_key key)
{
    const char *text = record_text(record, &key);

    return text ? text : "";
}

int record_choice_or(const struct record *record, struct reading_key key, int otherwise)
{
    return (int)maybe_or(record_entered(record, key), otherwise);
}

bool record_kind(const struct record *record, char name[KIND_NAME_SIZE])
{
    const struct maybe kind = record_entered_one(record, FIELD_KIND);

    name[0] = '\0';
    return kind.given && field_choice(field_get(FIELD_KIND), (int)kind.value, name, KIND_NAME_SIZE);
}

int record_string_count(const struct record *record)
{
    const struct maybe count = record_entered_one(record, FIELD_STRINGS);
    const struct reading_key beyond = reading_key_string(FIELD_STRING_NOTE, STRINGS_MAX + 1);

    if (count.given)
        return (int)count.value;
    /* The strings' sections stand in order, so the last one before the targets tells; later visits
     * may have added what is not there yet, or no longer. */
    for (size_t at = record_lower_bound(record, &beyond); at > 0; at--) {
        const struct reading_key *key = &record->readings[at - 1].key;
        const struct reading_key fact = reading_key_as_of(*key, 0);

        if (field_get(key->field)->section != SECTION_STRING)
            break;
        if (record_get(record, &fact))
            return key->string;
    }
    return 0;
}
