/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SETUP_STRAIGHT_CUT_H
#define SILLET_MODEL_SETUP_STRAIGHT_CUT_H

#include "model/reading/outfit.h"

/*
 * One straight cut at the bottom of a blank saddle. What it leaves comes off the top, never on: it
 * is the line through what the outer two strings are to change by, raised until no string's change
 * lies above it. A string that starts higher up the neck is none of them: it gets its height from a
 * notch of its own.
 */
struct straight_cut {
    int treble, bass;          /* the outer two strings */
    double treble_mm, bass_mm; /* what the saddle moves by under them */
};

/* From the changes by string ([0] unused), each of which has to be a number. */
struct straight_cut straight_cut_find(const struct outfit *outfit, const double *change_mm);

/* What the saddle moves by under a string. */
double straight_cut_at(const struct straight_cut *cut, const struct outfit *outfit, int string);

#endif
