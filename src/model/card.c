/* SPDX-License-Identifier: MIT */
#include "model/card.h"

#include "model/derive.h"

static const char *text_of(const struct record *record, struct reading_key key)
{
    const char *text = record_text(record, &key);

    return text ? text : "";
}

/* A visit that was begun without a date does not hide the one before it. */
static const char *last_date(const struct record *record)
{
    for (int visit = record_last_visit(record); visit > 0; visit--) {
        const struct reading_key key = reading_key_visit(FIELD_VISIT_DATE, visit);
        const struct reading *date = record_get(record, &key);

        if (date && date->value.state != READING_BAD)
            return date->text;
    }
    return "";
}

void card_make(const struct record *record, struct card *ret_card)
{
    struct derived derived;

    derive_current(record, &derived);
    *ret_card = (struct card){
        .name = text_of(record, reading_key_one(FIELD_NAME)),
        .kind = text_of(record, reading_key_one(FIELD_KIND)),
        .owner = text_of(record, reading_key_one(FIELD_OWNER)),
        .maker = text_of(record, reading_key_one(FIELD_MAKER)),
        .serial = text_of(record, reading_key_one(FIELD_SERIAL)),
        .visit = last_date(record),
        .moves_open = move_set_count(&derived.moves, move_is_open) > 0,
    };
}
