/* SPDX-License-Identifier: MIT */
#include "model/card.h"

#include <math.h>

#include "model/work_mark.h"

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

/* A saddle that stands on posts or wheels is no string's own but the outer two's. */
static bool has_string_move(const struct derived *derived, enum move_kind kind)
{
    const struct setup *setup = &derived->setup;
    const enum figure_id figure = kind == MOVE_SLOTS ? FIGURE_SLOT_CHANGE : FIGURE_SADDLE_CHANGE;

    for (int s = 1; s <= setup->board.strings; s++) {
        const bool due = kind == MOVE_SLOTS
                             ? derived->choice.slot[s]
                             : derived->choice.saddle[s] && setup_has_own_height(setup, s);

        if (due && is_beyond(&derived->figures, figure, s))
            return true;
    }
    return false;
}

static bool has_move(const struct derived *derived, enum move_kind kind)
{
    switch (kind) {
    case MOVE_RESET:
        return derived->verdict == RESET_NECK && is_beyond(&derived->figures, FIGURE_ANGLE, 0);
    case MOVE_ROD:
        return has_rod_move(derived);
    case MOVE_SLOTS:
    case MOVE_SADDLE:
        return has_string_move(derived, kind);
    case MOVE_COUNT_:
        break;
    }
    return false;
}

bool card_has_moves(const struct record *record, const struct derived *derived)
{
    int visit = 0, pass = 0;

    if (!record_current_pass(record, &visit, &pass))
        return false;
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        if (has_move(derived, (enum move_kind)kind) &&
            work_mark_line(record, visit, pass, (enum move_kind)kind) == 0)
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
        .moves_open = card_has_moves(record, &derived),
    };
}
