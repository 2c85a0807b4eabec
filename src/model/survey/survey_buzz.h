/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SURVEY_SURVEY_BUZZ_H
#define SILLET_MODEL_SURVEY_SURVEY_BUZZ_H

#include <stdbool.h>
#include <stdint.h>

#include "model/derive/buzz_cause.h"

/*
 * Which fret makes a string buzz, with the notes that say so. Sets of notes have bit n set
 * for fret n, 0 for the open string; only notes of frets that the board has are in them.
 * Source: clearance_find_high_fret.
 */
struct survey_buzz {
    bool heard; /* some note of the string was heard to buzz */
    uint64_t buzzing, clean;
    struct buzz found; /* why */
    double rocker_mm;  /* how high the rocker found its fret, 0 if it did not */
    bool explained;    /* a fret explains it, and the numbers below hold */
    struct clearance_high_fret high;
    int misfit;           /* notes that speak against it: buzz_left + clean_against */
    uint64_t unexplained; /* buzzing notes at or above the fret */
    uint64_t against;     /* clean notes below it that should have buzzed */
    double touch_mm;      /* the pluck, y0 on the open string */
    /* Air over the fret in that pluck, by note below it, as measured: what a buzzing note
     * has left is what the fret must stand higher by. */
    double margin_mm[FRETS_MAX + 1];
};

/* One string, 1 .. strings, of the place that `derived` was derived at. */
void survey_buzz(struct place place, const struct derived *derived, int string,
                 struct survey_buzz *ret_buzz);

#endif
