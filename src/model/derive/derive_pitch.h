/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_DERIVE_PITCH_H
#define SILLET_MODEL_DERIVE_DERIVE_PITCH_H

#include <stdbool.h>

#include "model/derive/derive_strings.h"
#include "model/figure/figure.h"
#include "model/pitch/pitch_assumption.h"
#include "model/pitch/intonation.h"
#include "model/pitch/intonation_reading.h"
#include "model/setup/moves.h"
#include "model/reading/place.h"
#include "model/setup/setup.h"

/* The fretted notes of one string as it stands, by fret; that of its nut is the open string. */
struct fret_pitch {
    struct maybe cents[FRETS_MAX + 1]; /* off equal temperament, setback entered, nut where it is */
    double cents_u[FRETS_MAX + 1];     /* their expanded uncertainty (derive_pitch_u.h), else 0 */
    /* Tension that pressing adds, E A (path - l0)/(l0 + after). Known without cents where core and
     * modulus are no better than tension_find_rough_core gives them: `rough`. */
    struct maybe rise_n[FRETS_MAX + 1];
    bool rough;
};

/* The notes of the present state (elements 1 .. strings of ret_pitch). `facts` from derive_strings,
 * `lines` from moves_solve. */
void derive_pitch(const struct record *record, const struct setup *setup,
                  const struct string_facts *facts, const struct string_lines *lines,
                  struct fret_pitch *ret_pitch);

/* The setbacks for the target geometry, predicted and best, into `figures`. */
void derive_setbacks(const struct record *record, const struct setup *setup,
                     const struct string_facts *facts, const struct string_lines *lines,
                     struct figures *figures);

/*
 * One string of the present state as intonation.h takes it; ret_string points into `setup`
 * and `crown_mm`. `facts` is that string's own. False, outputs untouched, where the string's
 * line is not known.
 */
bool derive_intonation_setup(const struct record *record, const struct setup *setup,
                             const struct string_facts *facts, const struct string_lines *lines,
                             int string, double crown_mm[FRETS_MAX + 1],
                             struct intonation_setup *ret_string);

/* The crowns that a case's setups point into. */
struct pitch_case_store {
    double now_mm[FRETS_MAX + 1], target_mm[FRETS_MAX + 1];
};

/* All that one string's predictions are made from: as it stands by `lines`, and, where it is known,
 * as setbacks are looked for, after the moves of `flat`. False, output untouched, where the
 * string's line is not known. */
bool derive_pitch_case(const struct record *record, const struct setup *setup,
                       const struct string_facts *facts, const struct string_lines *lines,
                       const struct string_lines *flat, int string, struct pitch_case_store *store,
                       struct pitch_case *ret_case);

/* The cents read on one string. */
struct cents_read {
    int count;
    struct fret_cents at[FRETS_MAX + 1];
};

/* Those of a pass, by fret; readings at frets that the board lacks are passed over. */
struct cents_read derive_read_cents(struct place place, const struct board *board, int string);

/*
 * What the cents read in a pass ask for, into `figures`: the change of setback from a
 * single reading, setback and nut advance from several, with their uncertainty from the
 * tuner's step.
 */
void derive_cents_read(struct place place, const struct setup *setup, struct figures *figures);

#endif
