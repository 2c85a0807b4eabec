/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_DERIVE_CLEARANCE_H
#define SILLET_MODEL_DERIVE_DERIVE_CLEARANCE_H

#include <stdbool.h>

#include "model/derive/heard.h"
#include "model/frets/clearance.h"
#include "model/derive/derive_pitch.h"
#include "model/derive/derive_strings.h"
#include "model/derive/touch.h"
#include "model/setup/moves.h"
#include "model/reading/place.h"
#include "model/setup/setup.h"

/* How much pluck the notes of one string take, by fret; that of its nut is the open string. */
struct fret_clearance {
    struct maybe headroom_mm[FRETS_MAX + 1];
    int at[FRETS_MAX + 1]; /* the fret where it lies */
    bool has_high;         /* notes were heard to buzz, and a fret explains them */
    struct clearance_high_fret high;
};

/* One string of the present state, with the arrays that clearance.h wants. */
struct string_clearance {
    double crown_mm[FRETS_MAX + 1];
    double tension_n[FRETS_MAX + 1];
    bool known[FRETS_MAX + 1]; /* whether that note's tension is; else the open one stands in */
    bool all_known;
};

/*
 * Fills the arrays, and *ret_string, which points into them and into `setup`. `facts` and
 * `pitch` are that string's own. False, outputs untouched, where its line is not known.
 */
bool derive_string_clearance(const struct record *record, const struct setup *setup,
                             const struct string_facts *facts, const struct string_lines *lines,
                             const struct fret_pitch *pitch, int string,
                             struct string_clearance *ret_arrays,
                             struct clearance_string *ret_string);

/* The same note by note. */
void derive_heard(const struct heard_notes *notes, enum clearance_heard ret_heard[FRETS_MAX + 1]);

/*
 * The headroom of every note of the present state; elements 1 .. strings of ret_clearance, with no
 * fret named yet. A fretted note needs the tension that pressing adds (`pitch`), the open one
 * geometry alone.
 */
void derive_headroom(const struct record *record, const struct setup *setup,
                     const struct string_facts *facts, const struct string_lines *lines,
                     const struct fret_pitch *pitch, struct fret_clearance *ret_clearance);

/* From the notes heard at the pass, but for those stopped at a fret that the rocker found low, the
 * fret that stands high, in `clearance`. */
void derive_high_frets(struct place place, const struct setup *setup,
                       const struct string_facts *facts, const struct string_lines *lines,
                       const struct fret_pitch *pitch, const struct touch *touch,
                       struct fret_clearance *clearance);

#endif
