/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_PITCH_H
#define SILLET_MODEL_DERIVE_PITCH_H

#include "model/derive_strings.h"
#include "model/figure.h"
#include "model/moves.h"
#include "model/record.h"
#include "model/setup.h"

/* The fretted notes of one string as it stands, by fret; [0] is the open string. */
struct fret_pitch {
    bool known[FRETS_MAX + 1];
    double cents[FRETS_MAX + 1];  /* off equal temperament, setback entered, nut where it is */
    double rise_n[FRETS_MAX + 1]; /* tension that pressing adds */
};

/*
 * The notes of the present state (elements 1 .. strings of ret_pitch), and into `figures`
 * the setbacks for the target geometry, predicted and best. `facts` from derive_strings,
 * `lines` from moves_solve.
 */
void derive_pitch(const struct record *record, const struct setup *setup,
                  const struct string_facts *facts, const struct string_lines *lines,
                  struct fret_pitch *ret_pitch, struct figures *figures);

/*
 * What the cents read in a pass ask for, into `figures`: the change of setback from a
 * single reading, setback and nut advance from several, with their uncertainty from the
 * tuner's step. Readings at frets that the board lacks are passed over.
 */
void derive_cents_read(const struct record *record, const struct setup *setup, int visit,
                       int pass, struct figures *figures);

#endif
