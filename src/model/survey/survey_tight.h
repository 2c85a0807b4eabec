/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SURVEY_SURVEY_TIGHT_H
#define SILLET_MODEL_SURVEY_SURVEY_TIGHT_H

#include "model/derive/derive.h"
#include "model/survey/survey_levelling.h"

/*
 * The notes that will buzz first, and what would give the first of them more room. The order of
 * the notes is better known than their headroom in mm, so it is what a tech should go by.
 */

enum { TIGHT_NOTES = 3 };

/* The action that is tried, more than there is at the action fret, mm. */
#define TIGHT_RAISE_MM 0.25

struct tight_note {
    int string, note;
    int at;       /* the fret that limits it */
    double share; /* headroom in touches: under 1 buzzes */
};

struct survey_tight {
    int count; /* of notes; no string has two. 0 where no headroom is known */
    struct tight_note note[TIGHT_NOTES];
    /* How much headroom the first of them would gain; absent where nothing would be done. */
    struct maybe raised_mm;   /* by TIGHT_RAISE_MM more action */
    struct maybe levelled_mm; /* by taking the high spots off */
};

/* The note that will buzz first of all; false if no headroom is known. */
bool survey_tightest(const struct derived *derived, struct tight_note *ret_note);

/* For the place that `derived` was derived at, and its levelling. */
void survey_tight(struct place place, const struct derived *derived,
                  const struct survey_levelling *levelling, struct survey_tight *ret_tight);

#endif
