/* SPDX-License-Identifier: MIT */
#ifndef SILLET_WORDS_PITCH_PLAN_H
#define SILLET_WORDS_PITCH_PLAN_H

#include "model/derive/derive.h"

/*
 * What the cents read in a pass mean for saddle and nut, string by string, and the curve to compare
 * them with. Positive cents are sharp; a setback is behind the scale length, a nut advance is
 * towards the saddle.
 */

enum pitch_state {
    PITCH_UNREAD,  /* no cents read on the string */
    PITCH_IN_TUNE, /* within the cents tolerance */
    PITCH_WITHIN,  /* off, but the move is smaller than its own uncertainty */
    PITCH_DUE,
    PITCH_MOVED, /* due by these cents, and its saddle was moved since */
};

struct pitch_move {
    enum pitch_state state;
    int count;       /* frets read */
    int fret;        /* that the saddle is set by: the octave, else the one read nearest to it */
    int octave;      /* where that is */
    double cents;    /* read there */
    bool has_change; /* false also if no setback can cure so many cents */
    double change_mm, change_u_mm; /* of the setback; expanded, k = 2 */
    struct maybe turns;            /* of the saddle's own screw, where its thread is known */
    /* Saddle contact from the nut, as it is, where the setback is entered. */
    bool contact_is_expected; /* the saddle was moved since it was read */
    struct maybe contact_mm;
    /* From all frets read, if two or more: both ends moved, and the cents that remain. */
    bool has_fit;
    double fit_setback_mm, fit_setback_u_mm, fit_nut_mm, fit_nut_u_mm, fit_cents;
};

/* The notes of one string. */
struct pitch_curve {
    int string;
    struct cents_read read;
    /* The best cents possible: after the moves, with the best setback and nut advance. */
    struct maybe best_cents[FRETS_MAX + 1];
};

struct pitch_plan {
    struct outfit outfit;
    int strings;
    double tolerance_cents;
    enum move_wait waits;                      /* what comes before any saddle is moved */
    struct pitch_move string[STRINGS_MAX + 1]; /* by string, [0] unused */
    struct pitch_curve curve;
    /* Whether a blank bridge's saddle holds the contacts that are asked for; where none are, those
     * predicted. */
    struct saddle_fit saddle;
    bool saddle_is_predicted;
};

/* Makes the plan for the place that `derived` was derived at. The curve is for `string`; 0 for
 * none. */
void pitch_plan_make(struct place place, const struct derived *derived, int string,
                     struct pitch_plan *ret_plan);

#endif
