/* SPDX-License-Identifier: MIT */
#include "model/reading/shop_own.h"

enum field_id shop_own_field(int k)
{
    static const enum field_id fields[] = {
        FIELD_TARGET_RELIEF,        FIELD_TARGET_ACTION_BASS,
        FIELD_TARGET_ACTION_TREBLE, FIELD_TARGET_GAP_BASS,
        FIELD_TARGET_GAP_TREBLE,    FIELD_RELIEF_TOLERANCE,
        FIELD_ACTION_TOLERANCE,     FIELD_GAP_TOLERANCE,
        FIELD_CENTS_TOLERANCE,      FIELD_TOUCH,
        FIELD_FEELER_STEP,          FIELD_RULE_STEP,
        FIELD_TUNER_STEP,
    };
    const int count = (int)(sizeof fields / sizeof fields[0]);

    return k >= 0 && k < count ? fields[k] : FIELD_COUNT_;
}

const char *shop_own_text(const struct record *record, enum field_id field)
{
    const struct reading_key key = reading_key_one(field);
    const struct reading *reading = record_get(record, &key);

    return reading && reading->value.state != READING_BAD ? reading->text : NULL;
}

int shop_own_count(const struct record *record)
{
    int count = 0;

    for (int k = 0; shop_own_field(k) != FIELD_COUNT_; k++)
        count += shop_own_text(record, shop_own_field(k)) != NULL;
    return count;
}
