/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SURVEY_SURVEY_HEADROOM_H
#define SILLET_MODEL_SURVEY_SURVEY_HEADROOM_H

#include "model/derive/derive.h"

/*
 * How far the headroom of each note is to be believed: the U with which 95 % of what may be true
 * lies within +-U of it, on these assumptions.
 *
 * - Each reading is off by up to half its gauge's step.
 * - A crown without a spot is off the neck's curve by up to HEADROOM_CROWN_MM.
 * - The pluck is up to HEADROOM_PLUCK_SHARE of its distance from the saddle nearer or farther:
 *   100 to 200 mm for 150.
 * - What pressing adds to the pull is half as much to half as much again; where its core and
 *   modulus are rough, none to twice as much.
 * - In touches: the player's touch is up to half a step softer or harder than stated, or anywhere
 *   between what the ear left of it; and the same force is used wherever the string is plucked.
 *
 * All even over their ranges. The crowns, the pluck and the touch are common practice, no published
 * source. Pluck and touch are worked out over their whole ranges, being no straight lines and often
 * the largest parts; the others as in uncertainty.h. The least over crowns that are each off by
 * themselves varies less than any one of them: C. E. Clark, "The greatest of a finite set of random
 * variables", Operations Research 9, 145 (1961), from memory.
 */

#define HEADROOM_CROWN_MM    0.025
#define HEADROOM_PLUCK_SHARE (1.0 / 3)

struct survey_headroom {
    /* By string and note; absent where the headroom is. */
    struct maybe u_mm[STRINGS_MAX + 1][FRETS_MAX + 1];
    struct maybe u_touches[STRINGS_MAX + 1][FRETS_MAX + 1];
};

/* For the place that `derived` was derived at. */
void survey_headroom(struct place place, const struct derived *derived,
                     struct survey_headroom *ret_headroom);

#endif
