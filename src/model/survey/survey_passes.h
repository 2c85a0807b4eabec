/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SURVEY_SURVEY_PASSES_H
#define SILLET_MODEL_SURVEY_SURVEY_PASSES_H

#include <stdbool.h>

#include "model/reading/field.h"
#include "model/reading/record.h"
#include "model/reading/record_access.h"
#include "model/setup/rod_history.h"

/*
 * The action that was predicted for each pass from the one before it, beside what was then
 * read: the test of the model. After a turn of a rod that was due, with no other move marked done,
 * it is the action after the rod, otherwise the action after all moves.
 */

struct pass_action {
    bool known;                          /* both are, and the numbers below hold */
    double predicted_mm, predicted_u_mm; /* u: expanded, k = 2 */
    double read_mm, read_u_mm;
    struct rod_comparison off; /* read - predicted */
    /* After the rod the prediction is for the relief wanted, which a turn seldom hits. This
     * is the same one for the relief that was then read: what tests the model, not the turn. */
    struct maybe at_relief_mm;
};

struct survey_pass {
    int visit, pass;
    int before;     /* the pass of the same visit that it was predicted from, 0: none */
    bool after_rod; /* which of the two predictions it is */
    int strings;
    struct pass_action action[STRINGS_MAX + 1]; /* read on that string itself */
};

/*
 * Goes to the next pass of the record, of whatever visit. Begin with a struct that is all
 * zero; false, *pass untouched, past the last one. A pass that is the first of its visit, or
 * the first after a reset, has nothing to compare.
 */
bool survey_pass_next(const struct record *record, struct survey_pass *pass);

#endif
