/* SPDX-License-Identifier: MIT */
#include "model/reading/shop_own.h"

static const struct {
    enum field_id field;
    enum shop_own_group group;
} own[] = {
    {FIELD_TARGET_RELIEF, SHOP_OWN_TARGET},
    {FIELD_TARGET_ACTION_BASS, SHOP_OWN_TARGET},
    {FIELD_TARGET_ACTION_TREBLE, SHOP_OWN_TARGET},
    {FIELD_TARGET_GAP_BASS, SHOP_OWN_TARGET},
    {FIELD_TARGET_GAP_TREBLE, SHOP_OWN_TARGET},
    {FIELD_RELIEF_TOLERANCE, SHOP_OWN_TOLERANCE},
    {FIELD_ACTION_TOLERANCE, SHOP_OWN_TOLERANCE},
    {FIELD_GAP_TOLERANCE, SHOP_OWN_TOLERANCE},
    {FIELD_CENTS_TOLERANCE, SHOP_OWN_TOLERANCE},
    {FIELD_TOUCH, SHOP_OWN_TARGET},
    {FIELD_FEELER_STEP, SHOP_OWN_STEP},
    {FIELD_RULE_STEP, SHOP_OWN_STEP},
    {FIELD_TUNER_STEP, SHOP_OWN_STEP},
};

enum field_id shop_own_field(int k)
{
    const int count = (int)(sizeof own / sizeof own[0]);

    return k >= 0 && k < count ? own[k].field : FIELD_COUNT_;
}

enum shop_own_group shop_own_group(int k)
{
    return own[k].group;
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
