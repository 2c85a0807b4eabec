/* SPDX-License-Identifier: MIT */
#include "model/derive/neck_facts.h"

#include <stddef.h>

#include "model/neck/wood.h"

static struct maybe wood_number(const struct record *record, enum field_id wood_field,
                                struct maybe (*number)(const struct wood *wood))
{
    const struct reading_key key = reading_key_one(wood_field);
    const struct wood *wood;

    if (wood_find(record_text(record, &key), &wood) != STATUS_OK)
        return maybe_absent();
    return number(wood);
}

static struct maybe modulus_of(const struct wood *wood)
{
    return wood->modulus_mpa;
}

static struct maybe shear_of(const struct wood *wood)
{
    return wood->shear_mpa;
}

struct maybe neck_facts_wood(const struct record *record, enum field_id field)
{
    const struct maybe entered = record_entered_one(record, field);

    if (entered.given)
        return entered;
    switch (field) {
    case FIELD_BOARD_MODULUS:
        return wood_number(record, FIELD_BOARD_WOOD, modulus_of);
    case FIELD_NECK_MODULUS:
        return wood_number(record, FIELD_NECK_WOOD, modulus_of);
    case FIELD_SHEAR_STRENGTH:
        return wood_number(record, FIELD_NECK_WOOD, shear_of);
    default:
        return entered;
    }
}

static void find_width(const struct record *record, const struct setup *setup,
                       struct neck_facts *facts)
{
    const struct maybe nut = record_entered_one(record, FIELD_WIDTH_NUT);
    const struct maybe join = record_entered_one(record, FIELD_WIDTH_JOIN);
    const struct board *board = &setup->board;
    const double *x = board->station_mm[LANE_MIDDLE];

    if (!nut.given || !join.given || !setup->has_board || !board->has_curve)
        return;
    facts->width_mm = maybe_given(nut.value + (join.value - nut.value) * x[1] / x[board->end_high]);
}

static void lack(struct neck_facts *facts, bool known, enum field_id field)
{
    if (!known && facts->lacks_count < NECK_LACKS_MAX)
        facts->lacks[facts->lacks_count++] = field;
}

static void find_lacks(const struct record *record, const struct setup *setup,
                       struct neck_facts *facts)
{
    /* A neck without a rod has no slot unless one is entered. */
    const bool whole =
        setup->rod == ROD_NONE && !facts->slot_width_mm.given && !facts->slot_depth_mm.given;

    lack(facts, record_entered_one(record, FIELD_WIDTH_NUT).given, FIELD_WIDTH_NUT);
    lack(facts, record_entered_one(record, FIELD_WIDTH_JOIN).given, FIELD_WIDTH_JOIN);
    lack(facts, facts->board_mm.given, FIELD_THICKNESS);
    lack(facts, neck_facts_wood(record, FIELD_BOARD_MODULUS).given, FIELD_BOARD_MODULUS);
    lack(facts, neck_facts_wood(record, FIELD_NECK_MODULUS).given, FIELD_NECK_MODULUS);
    lack(facts, facts->shaft_mm.given, FIELD_SHAFT_FIRST);
    lack(facts, record_entered_one(record, FIELD_SHAFT_HEEL).given, FIELD_SHAFT_HEEL);
    lack(facts, whole || facts->slot_width_mm.given, FIELD_SLOT_WIDTH);
    lack(facts, whole || facts->slot_depth_mm.given, FIELD_SLOT_DEPTH);
}

struct neck_facts neck_facts_read(const struct record *record, const struct setup *setup)
{
    struct neck_facts facts = {
        .board_mm = record_entered_one(record, FIELD_THICKNESS),
        .shaft_mm = record_entered_one(record, FIELD_SHAFT_FIRST),
        .slot_width_mm = record_entered_one(record, FIELD_SLOT_WIDTH),
        .slot_depth_mm = record_entered_one(record, FIELD_SLOT_DEPTH),
        .recut_width_mm = record_entered_one(record, FIELD_RECUT_WIDTH),
        .recut_depth_mm = record_entered_one(record, FIELD_RECUT_DEPTH),
        .rod_height_mm = record_entered_one(record, FIELD_ROD_HEIGHT),
        .rod_cap_mm = record_entered_one(record, FIELD_ROD_CAP),
        .join = (enum neck_join)record_choice_or(record, reading_key_one(FIELD_JOIN), JOIN_UNKNOWN),
    };

    find_width(record, setup, &facts);
    find_lacks(record, setup, &facts);
    return facts;
}
