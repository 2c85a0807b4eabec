/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SURVEY_SURVEY_LEVELLING_H
#define SILLET_MODEL_SURVEY_SURVEY_LEVELLING_H

#include <stdbool.h>

#include "model/reading/field.h"
#include "model/reading/finding.h"
#include "model/frets/levelling.h"
#include "model/setup/moves.h"
#include "model/reading/place.h"
#include "model/setup/setup.h"

/*
 * What dressing the frets of a pass would take: from the spots read, and from what the
 * neck's curve leaves over of several relief readings.
 */

enum { LEVELLING_PLANS = LEVELLING_FULL + 1 };

struct survey_levelling {
    bool known; /* there is something to level by, and the numbers below hold */
    int frets;
    double least_crown_mm;
    /* By enum levelling_plan. */
    struct levelling_fret fret[LEVELLING_PLANS][FRETS_MAX + 1]; /* [0] all zero */
    struct levelling_summary summary[LEVELLING_PLANS];
    /* Expanded uncertainty of an amount to take where spots alone tell it; 0 where the
     * curve of the neck has a part in it. */
    double take_u_mm[LEVELLING_PLANS];
};

/*
 * Both plans for a place; `setup` and `lines` are of the same one. A crown
 * that was not read is as high as it was last, or as the board's, less what came off since. Unknown
 * without a spot and with fewer than two reliefs. `findings` names the fret that even taking the
 * high spots leaves too low.
 */
void survey_levelling(struct place place, const struct setup *setup,
                      const struct string_lines *lines, struct survey_levelling *ret_levelling,
                      struct findings *findings);

#endif
