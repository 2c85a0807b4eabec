/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_NECK_FACTS_H
#define SILLET_MODEL_DERIVE_NECK_FACTS_H

#include "model/reading/record_access.h"
#include "model/setup/setup.h"

/* What a record tells of the neck itself: its section at fret 1, its woods, what is missing. */

enum { NECK_LACKS_MAX = 10 };

struct neck_facts {
    /* The cross-section at fret 1. */
    struct maybe width_mm; /* of the board, straight from the nut to the join */
    struct maybe board_mm, shaft_mm;
    struct maybe slot_width_mm, slot_depth_mm;
    struct maybe recut_width_mm, recut_depth_mm;
    struct maybe rod_height_mm, rod_cap_mm;
    enum neck_join join;

    /* The readings without which the neck's stiffness is not known, in the order of a form. */
    enum field_id lacks[NECK_LACKS_MAX];
    int lacks_count;
};

struct neck_facts neck_facts_read(const struct record *record, const struct setup *setup);

/*
 * A number of the board's or the neck's wood: what is entered, else what the wood table has
 * for the wood that is named; not given when neither. `field` is FIELD_BOARD_MODULUS,
 * FIELD_NECK_MODULUS or FIELD_SHEAR_STRENGTH; any other is taken as entered.
 */
struct maybe neck_facts_wood(const struct record *record, enum field_id field);

#endif
