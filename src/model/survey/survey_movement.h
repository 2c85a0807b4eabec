/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SURVEY_SURVEY_MOVEMENT_H
#define SILLET_MODEL_SURVEY_SURVEY_MOVEMENT_H

#include <stdbool.h>

#include "model/reading/record.h"
#include "model/reading/record_access.h"
#include "model/neck/wood.h"

/*
 * How the seasons move the neck across its grain: from the climate of the visits, the
 * widths and the woods.
 * Source: moisture.h and wood.h. The whole width is taken as being at the moisture content
 * that the air would bring it to in the end, which lags behind by weeks.
 */

enum movement_part { MOVEMENT_BOARD, MOVEMENT_NECK, MOVEMENT_PARTS_ };
enum movement_place { MOVEMENT_AT_NUT, MOVEMENT_AT_JOIN, MOVEMENT_PLACES_ };

struct survey_movement {
    int visit;
    double emc_pct;
    int since; /* the visit with a climate before this one; 0 for none: no movement */
    double emc_change_pct;
    /* Widening, mm; absent where width, wood or coefficient is not known. Which grain it
     * is depends on how the wood was sawn: radial where the rings stand upright. */
    struct maybe mm[MOVEMENT_PARTS_][MOVEMENT_PLACES_][WOOD_GRAIN_COUNT_];
    struct maybe u_mm[MOVEMENT_PARTS_][MOVEMENT_PLACES_][WOOD_GRAIN_COUNT_]; /* expanded, k = 2 */
};

/*
 * Goes to the next visit whose climate is known. Begin with a struct that is all zero;
 * false, *movement untouched, past the last one.
 */
bool survey_movement_next(const struct record *record, struct survey_movement *movement);

/* The movement to a visit; false, *ret_movement untouched, where its climate is not known or that
 * of none before it. */
bool survey_movement_of(const struct record *record, int visit,
                        struct survey_movement *ret_movement);

#endif
