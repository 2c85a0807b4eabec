/* SPDX-License-Identifier: MIT */
#ifndef SILLET_WORDS_FRETS_PLAN_H
#define SILLET_WORDS_FRETS_PLAN_H

#include "model/survey/survey_buzz.h"
#include "model/survey/survey_levelling.h"

/*
 * What the frets of a pass are like: how much pluck every note takes, which fret explains
 * the buzzes heard, and what levelling would take off.
 */

enum headroom {
    HEADROOM_UNKNOWN,
    HEADROOM_PLENTY,
    HEADROOM_TIGHT,  /* would buzz plucked half as hard again: the next harder touch */
    HEADROOM_BUZZES, /* in the touch in hand */
};

/* The step from one touch to the next harder one. */
#define HEADROOM_TIGHT_SHARE 1.5

struct frets_plan {
    int strings, frets; /* 0 without a board */
    double touch_mm;
    enum headroom headroom[STRINGS_MAX + 1][FRETS_MAX + 1]; /* by string and note */
    struct survey_buzz buzz[STRINGS_MAX + 1];
    struct survey_levelling levelling;
};

/* For the place that `derived` was derived at. */
void frets_plan_make(struct place place, const struct derived *derived,
                     struct frets_plan *ret_plan);

/* The note of a string with the least headroom; -1 where none is known. */
int frets_tightest_note(const struct derived *derived, int string);

/* How many notes have that headroom, the ones over the last fret left out. */
int frets_count(const struct frets_plan *plan, enum headroom headroom);

/* '.', 'o', '#', or a blank where it is not known. */
char frets_mark(enum headroom headroom);

/* A note's headroom in full: "string 6, note 3: headroom 1.34 mm, least at fret 5". */
void frets_add_note(const struct derived *derived, const struct frets_plan *plan, int string,
                    int note, const struct shop_units *units, struct strbuf *out);

/* What was heard on a string and the fret that explains it. False, `out` untouched, where
 * no buzz was heard on it. */
bool frets_add_buzz(const struct frets_plan *plan, int string, const struct shop_units *units,
                    struct strbuf *out);

/* The notes that this rests on, with the air over that fret as measured in the pluck in hand; false
 * likewise, or without an explanation. */
bool frets_add_evidence(const struct frets_plan *plan, int string, const struct shop_units *units,
                        struct strbuf *out);

/* A levelling plan in a sentence, or what it takes to make one. */
void frets_add_levelling(const struct frets_plan *plan, enum levelling_plan which,
                         const struct shop_units *units, struct strbuf *out);

/* What to mind when frets are dressed or pressed; "" where nothing asks for it. */
const char *frets_caution(const struct frets_plan *plan);

#endif
