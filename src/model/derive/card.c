/* SPDX-License-Identifier: MIT */
#include "model/derive/card.h"

#include <math.h>

#include "model/reading/record_access.h"

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

/* To whole nanometres, as the shelf's cache keeps it. */
static double to_nm(double mm)
{
    return round(mm * 1e6) / 1e6;
}

/* Only one that surely answers tells anything about others. */
static struct rod_neck find_rod(const struct record *record, struct past *past)
{
    const struct survey_rod *rod = past_rod(past, place_current(record));
    const struct rod_neck neck = {.per_turn_mm = to_nm(rod->fit.per_turn_mm),
                                  .per_turn_u_mm = to_nm(rod->fit.per_turn_u_mm)};

    if (!rod->known || rod->answer != ROD_ANSWERS || !rod_neck_is_known(&neck))
        return (struct rod_neck){0};
    return neck;
}

void card_make(const struct record *record, struct card *ret_card)
{
    struct past past = past_of(record);
    struct derived now;

    derive_measured(place_current(record), &past, &now);
    card_make_of(record, &now, &past, ret_card);
}

void card_glance(const struct record *record, struct card *ret_card)
{
    *ret_card = (struct card){
        .name = record_text_or_empty(record, reading_key_one(FIELD_NAME)),
        .kind = record_text_or_empty(record, reading_key_one(FIELD_KIND)),
        .owner = record_text_or_empty(record, reading_key_one(FIELD_OWNER)),
        .maker = record_text_or_empty(record, reading_key_one(FIELD_MAKER)),
        .serial = record_text_or_empty(record, reading_key_one(FIELD_SERIAL)),
        .visit = last_date(record),
    };
}

/* Due, or due until work since has made void what it rests on. */
static bool is_unfinished(const struct move *move)
{
    return move_is_open(move) || (move->state == MOVE_WAITS && move->waits == WAIT_AGAIN);
}

void card_make_of(const struct record *record, const struct derived *now, struct past *past,
                  struct card *ret_card)
{
    card_glance(record, ret_card);
    ret_card->rod = find_rod(record, past);
    ret_card->moves_open = move_set_count(&now->moves, is_unfinished) > 0;
    ret_card->to_measure = !ret_card->moves_open && move_set_count(&now->moves, move_is_done) > 0;
}
