/* SPDX-License-Identifier: MIT */
#include "model/card.h"

#include <math.h>

static bool is_beyond(const struct figures *figures, enum figure_id id, int string)
{
    const struct figure *figure = &figures->at[id][string];

    return figure->known != KNOWN_ABSENT && fabs(figure->value) > figure->u;
}

static bool has_rod_move(const struct derived *derived)
{
    const struct figure *relief = &derived->figures.at[FIGURE_RELIEF][0];
    const struct entered *target = &derived->setup.relief_target_mm;

    return derived->choice.rod && target->given && relief->known != KNOWN_ABSENT &&
           fabs(target->value - relief->value) > relief->u;
}

bool card_has_moves(const struct derived *derived)
{
    const struct figures *figures = &derived->figures;

    if (has_rod_move(derived) ||
        (derived->verdict == RESET_NECK && is_beyond(figures, FIGURE_ANGLE, 0)))
        return true;
    for (int s = 1; s <= derived->setup.board.strings; s++)
        if ((derived->choice.slot[s] && is_beyond(figures, FIGURE_SLOT_CHANGE, s)) ||
            (derived->choice.saddle[s] && is_beyond(figures, FIGURE_SADDLE_CHANGE, s)))
            return true;
    return false;
}

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
        .moves_open = card_has_moves(&derived),
    };
}
