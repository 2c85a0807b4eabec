/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_DERIVE_H
#define SILLET_MODEL_DERIVE_DERIVE_H

#include "model/derive/derive_clearance.h"
#include "model/derive/derive_pitch.h"
#include "model/derive/derive_strings.h"
#include "model/figure/figure.h"
#include "model/reading/finding.h"
#include "model/setup/move.h"
#include "model/setup/moves.h"
#include "model/derive/neck_facts.h"
#include "model/derive/past.h"
#include "model/reading/place.h"
#include "model/setup/reset.h"
#include "model/setup/setup.h"

/* How much is wanted: each takes in those before it. What is not derived is absent. */
enum derive_depth {
    DERIVE_GAUGED, /* set-up without ±, and the moves that gauges ask for: those that ear and tuner
                    * ask for are marked if done, and never due */
    DERIVE_MOVES,  /* all moves, and what they rest on */
    DERIVE_PULL,   /* what the strings are, pull and press with */
    DERIVE_FIGURES, /* everything, each figure with its ± */
    DERIVE_ASKED,   /* the same as the pass asked for it: what was done since has no part in it */
};

/*
 * All results from all readings, every time: a record goes in, everything that the screens
 * and `sillet figures` show comes out. Nothing is remembered between calls but in the struct past
 * that a caller keeps. Only the ± of what is predicted is left for derive_predicted_u.
 */
struct derived {
    enum derive_depth depth;
    struct setup setup;
    struct figures figures;
    struct move_choice choice;
    struct string_lines lines;
    struct move_set moves;
    struct touch touch;                          /* headroom under this means a buzz */
    struct string_facts string[STRINGS_MAX + 1]; /* by string, [0] unused; so are these: */
    struct fret_pitch pitch[STRINGS_MAX + 1];    /* the notes of the present state */
    struct fret_clearance clearance[STRINGS_MAX + 1];
    struct neck_facts neck;
    struct findings findings;
    bool has_predicted_u; /* derive_predicted_u has filled it in */
};

/* Derives the state of a pass. Pass 0 gives the findings and what needs no reading. */
void derive_pass(struct place place, struct derived *ret_derived);

/* The same for passes one after another: what they ask of the past is kept in *past. */
void derive_pass_after(struct place place, struct past *past, struct derived *ret_derived);

/* DERIVE_MOVES, at a fraction of the cost. What was asked of the past is left in *past. */
void derive_measured(struct place place, struct past *past, struct derived *ret_derived);

/* The same for DERIVE_GAUGED. */
void derive_gauged(struct place place, struct past *past, struct derived *ret_derived);

/* A pass among other necks of its kind: where the rod's own answer is not known, its turns are what
 * these answer by. `others` may be NULL. */
void derive_pass_among(struct place place, const struct rod_prior *others, enum derive_depth depth,
                       struct derived *ret_derived);

/* What came before a pass: all of its past that none of its own readings has a part in, but for
 * turns of the rod and setbacks. */
void derive_past(struct place place, struct past *ret_past);

/* derive_pass_among of a place whose past is known, in the record that it was found in, or in one
 * that has other readings at this place alone, and no other turn or setback. */
void derive_pass_on(struct place place, const struct past *before, const struct rod_prior *others,
                    enum derive_depth depth, struct derived *ret_derived);

/* The ± of the predicted setbacks and cents: it takes longer than all the rest, and few ask for it.
 * `place` is what it was derived from. Does nothing the second time. */
void derive_predicted_u(struct place place, struct derived *derived);

/* The record's current state: the last pass of the last visit that has one, in the climate
 * of the last visit. */
void derive_current(const struct record *record, struct derived *ret_derived);

#endif
