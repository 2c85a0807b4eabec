/* SPDX-License-Identifier: MIT */
#include "model/record_access.h"

struct entered record_entered(const struct record *record, struct reading_key key)
{
    const struct reading *reading = record_get(record, &key);

    if (!reading || reading->value.state == READING_BAD)
        return (struct entered){.value = 0, .given = false};
    return (struct entered){.value = reading->value.value,
                            .given = true,
                            .unsure = reading->value.state == READING_UNUSUAL};
}

struct entered record_entered_one(const struct record *record, enum field_id field)
{
    return record_entered(record, reading_key_one(field));
}

struct entered record_entered_string(const struct record *record, enum field_id field, int string)
{
    return record_entered(record, reading_key_string(field, string));
}

double record_or_fallback(const struct record *record, enum field_id field)
{
    const struct reading_key key = reading_key_one(field);
    double value = 0;

    record_value_or_fallback(record, &key, &value);
    return value;
}

bool record_step(const struct record *record, const struct field *field, double *ret_step)
{
    static const enum field_id steps[] = {
        [STEP_FEELER] = FIELD_FEELER_STEP,
        [STEP_RULE] = FIELD_RULE_STEP,
        [STEP_TUNER] = FIELD_TUNER_STEP,
    };

    if (field->step == STEP_NONE)
        return false;
    *ret_step = record_or_fallback(record, steps[field->step]);
    return true;
}

int record_choice_or(const struct record *record, struct reading_key key, int otherwise)
{
    const struct entered choice = record_entered(record, key);

    return choice.given ? (int)choice.value : otherwise;
}

int record_string_count(const struct record *record)
{
    const struct entered count = record_entered_one(record, FIELD_STRINGS);
    /* The strings' sections stand in order, so the last one before the targets tells. */
    const struct reading_key beyond = reading_key_string(FIELD_STRING_NOTE, STRINGS_MAX + 1);
    const size_t at = record_lower_bound(record, &beyond);

    if (count.given)
        return (int)count.value;
    if (at == 0 || field_get(record->readings[at - 1].key.field)->section != SECTION_STRING)
        return 0;
    return record->readings[at - 1].key.string;
}
