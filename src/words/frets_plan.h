/* SPDX-License-Identifier: MIT */
#ifndef SILLET_WORDS_FRETS_PLAN_H
#define SILLET_WORDS_FRETS_PLAN_H

#include "model/survey/survey_buzz.h"
#include "model/survey/survey_headroom.h"
#include "model/survey/survey_levelling.h"
#include "model/survey/survey_tight.h"

/*
 * The state of the frets in a pass: how hard each note can be plucked before it buzzes, which fret
 * explains the buzzes heard, and what levelling would take off.
 */

enum headroom {
    HEADROOM_UNKNOWN,
    HEADROOM_PLENTY,
    HEADROOM_TIGHT,  /* would buzz at the next harder touch (TOUCH_STEP) */
    HEADROOM_MAY,    /* may buzz at the player's touch: the doubt of its headroom does not tell */
    HEADROOM_BUZZES, /* buzzes at it, beyond doubt; a note that was heard clean is neither */
};

struct frets_plan {
    struct outfit outfit;
    int strings, frets; /* 0 if the board is not known */
    struct touch touch;
    enum headroom headroom[STRINGS_MAX + 1][FRETS_MAX + 1]; /* by string and note */
    struct survey_headroom doubt;
    struct survey_buzz buzz[STRINGS_MAX + 1];
    struct survey_levelling levelling;
    struct survey_tight tight;
};

/* Makes the plan for the place that `derived` was derived at. */
void frets_plan_make(struct place place, const struct derived *derived,
                     struct frets_plan *ret_plan);

/* The note of a string with the least headroom; -1 if none is known. */
int frets_tightest_note(const struct derived *derived, int string);

/* How many notes have that headroom, not counting those at the last fret. */
int frets_count(const struct frets_plan *plan, enum headroom headroom);

/* '.', 'o' if it is tight or may buzz, '#', or a blank if it is not known. */
char frets_mark(enum headroom headroom);

/* Appends "open", or the number of the note's fret with what comes before it: "at fret 3". */
void frets_add_note_name(const struct outfit *outfit, int string, int note, const char *before,
                         struct strbuf *out);

/* Appends a note's headroom in full: "string 6 fret 3: headroom .053 +-.012 in, over fret 5:
 * plenty". */
void frets_add_note(const struct derived *derived, const struct frets_plan *plan, int string,
                    int note, const struct shop_units *units, struct strbuf *out);

/* Appends the tightest notes: "tightest: string 3 at 2, fret 4: 1.02 +-0.15 touches; ...".
 * False, `out` untouched, if no headroom is known. */
bool frets_add_tightest(const struct frets_plan *plan, struct strbuf *out);

/* Appends what would give the first of them more room. False, `out` untouched, if that is not
 * known. */
bool frets_add_gains(const struct frets_plan *plan, const struct shop_units *units,
                     struct strbuf *out);

/* "0 3 5-7" of a set, bit n for fret n, as a list is typed. */
void frets_add_set(struct strbuf *out, uint64_t set);

/* "fret 3", "frets 1-3 5"; "marks" where there are none. */
void frets_add_frets(struct strbuf *out, const struct outfit *outfit, uint64_t frets);

/* Appends what was heard on a string and the fret that explains it. False, `out` untouched, if no
 * buzz was heard on it. */
bool frets_add_buzz(const struct frets_plan *plan, int string, const struct shop_units *units,
                    struct strbuf *out);

/* Appends the notes that this rests on, with the air that each leaves over that fret at the
 * player's touch. False, `out` untouched, if no buzz was heard, no fret explains it, or
 * the rocker found it. */
bool frets_add_evidence(const struct frets_plan *plan, int string, const struct shop_units *units,
                        struct strbuf *out);

/* Appends a levelling plan in a sentence, or what is missing for one. */
void frets_add_levelling(const struct frets_plan *plan, enum levelling_plan which,
                         const struct shop_units *units, struct strbuf *out);

/* The step before a fret is worked on, and what may hurt. */
const char *frets_work_caution(const struct outfit *outfit);

/* A caution for dressing or pressing frets; "" if neither is due. */
const char *frets_caution(const struct frets_plan *plan);

#endif
