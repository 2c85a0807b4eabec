/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SURVEY_PROOF_H
#define SILLET_MODEL_SURVEY_PROOF_H

#include "model/reading/record.h"
#include "model/reading/work_mark.h"

/*
 * How right were we? What was expected of a pass beside what was then read, for every reading that
 * a later pass of the same visit checks after a move marked done:
 *
 *   relief   after a logged turn, from what the turns before it did to this neck
 *   nut gap, action   after slots, saddle or rod, from the pass before and the amounts written
 *                     down; after the rod, for the relief that was then read
 *
 * Nothing is expected after a reset, or once other strings went on.
 */

struct proof_check {
    int visit, pass;
    enum field_id field; /* FIELD_RELIEF, FIELD_NUT_GAP or FIELD_ACTION */
    int string;          /* 0 for the relief */
    enum move_kind move; /* the last of rod, slots and saddle that bears on it */
    double expected_mm, read_mm;
    double u_mm;  /* of the difference: what was expected and the gauge, about 95 % */
    double share; /* |read - expected| / u_mm: inside the +- up to 1 */
};

typedef void proof_take(void *taker, const struct proof_check *check);

/* Gives every check of a record, in time order. */
void proof_walk(const struct record *record, proof_take *take, void *taker);

#endif
