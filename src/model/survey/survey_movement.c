/* SPDX-License-Identifier: MIT */
#include "model/survey/survey_movement.h"

#include <stddef.h>

#include "model/derive/derive_climate.h"
#include "model/neck/moisture.h"

static const enum field_id wood_fields[MOVEMENT_PARTS_] = {
    [MOVEMENT_BOARD] = FIELD_BOARD_WOOD,
    [MOVEMENT_NECK] = FIELD_NECK_WOOD,
};

/* The neck is as wide as its board. */
static const enum field_id width_fields[MOVEMENT_PLACES_] = {
    [MOVEMENT_AT_NUT] = FIELD_WIDTH_NUT,
    [MOVEMENT_AT_JOIN] = FIELD_WIDTH_JOIN,
};

/* From one visit's air to another's. */
struct airs {
    struct air from, to;
    double from_pct, to_pct;
};

static void find_movement(const struct record *record, const struct wood *wood,
                          enum wood_grain grain, enum field_id width_field, const struct airs *airs,
                          struct maybe *ret_mm, struct maybe *ret_u_mm)
{
    const struct maybe width = record_entered_one(record, width_field);
    double coefficient, movement_mm;

    if (!width.given || wood_find_coefficient(wood, grain, &coefficient) != STATUS_OK ||
        moisture_find_movement(width.value, coefficient, airs->from_pct, airs->to_pct,
                               &movement_mm) != STATUS_OK)
        return;
    const struct moisture_move move = {
        .width_mm = width.value, .coefficient = coefficient, .from = airs->from, .to = airs->to};

    *ret_mm = maybe_given(movement_mm);
    *ret_u_mm = maybe_finite(moisture_movement_u(&move));
}

static void find_part(const struct record *record, const struct airs *airs, enum movement_part part,
                      struct survey_movement *movement)
{
    const struct reading_key key = reading_key_one(wood_fields[part]);
    const struct wood *wood = NULL;

    if (wood_find(record_text(record, &key), &wood) != STATUS_OK)
        return;
    for (int place = 0; place < MOVEMENT_PLACES_; place++)
        for (int grain = 0; grain < WOOD_GRAIN_COUNT_; grain++)
            find_movement(record, wood, (enum wood_grain)grain, width_fields[place], airs,
                          &movement->mm[part][place][grain], &movement->u_mm[part][place][grain]);
}

/* From the visit `movement` is at to `next`, whose EMC is known. */
static void find_from(const struct record *record, const struct survey_movement *movement,
                      struct survey_movement *next)
{
    struct airs airs = {.from_pct = movement->emc_pct, .to_pct = next->emc_pct};

    next->since = movement->visit;
    next->emc_change_pct = next->emc_pct - movement->emc_pct;
    (void)derive_air(record, next->since, &airs.from);
    (void)derive_air(record, next->visit, &airs.to);
    for (int part = 0; part < MOVEMENT_PARTS_; part++)
        find_part(record, &airs, (enum movement_part)part, next);
}

bool survey_movement_next(const struct record *record, struct survey_movement *movement)
{
    struct survey_movement next = {.visit = movement->visit};
    struct maybe emc_pct;

    do {
        if (!record_next_visit(record, &next.visit))
            return false;
        emc_pct = derive_emc(record, next.visit);
    } while (!emc_pct.given);
    next.emc_pct = emc_pct.value;
    if (movement->visit > 0)
        find_from(record, movement, &next);
    *movement = next;
    return true;
}

bool survey_movement_of(const struct record *record, int visit,
                        struct survey_movement *ret_movement)
{
    const struct maybe emc_pct = derive_emc(record, visit);
    struct survey_movement before = {.visit = visit}, to = {.visit = visit};
    struct maybe then = maybe_absent();

    if (!emc_pct.given)
        return false;
    while (!then.given && record_visit_before(record, &before.visit))
        then = derive_emc(record, before.visit);
    if (!then.given)
        return false;
    before.emc_pct = then.value;
    to.emc_pct = emc_pct.value;
    find_from(record, &before, &to);
    *ret_movement = to;
    return true;
}
