/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SURVEY_SURVEY_ROD_H
#define SILLET_MODEL_SURVEY_SURVEY_ROD_H

#include <stdbool.h>

#include "model/reading/finding.h"
#include "model/reading/place.h"
#include "model/reading/record_access.h"
#include "model/setup/rod_history.h"

/*
 * What the turns logged in all visits teach about the rod. A turn counts where relief was
 * read in its pass and in the one before it in the same visit: between visits the climate
 * moves the neck too. Turns that are all that is logged of a pass count with those of the next.
 */

/* No more than this at once, then measure again (common practice, no published source). */
#define ROD_TURN_AT_ONCE 0.25
/* So many has a rod from slack to tight (common practice, no published source). */
#define ROD_TURNS_USUAL 2.0

struct survey_rod {
    bool known; /* there is a step to learn from, and `fit` and `answer` hold */
    struct rod_fit fit;
    enum rod_answer answer;
    bool sure;  /* what a turn does is known beyond its uncertainty, and the rod still does it */
    bool ended; /* it answers no longer, and was turned on far enough to know that it never will */
    double way; /* of the last turn: 1 tightened, -1 slackened */
    /* All logged turns added up, + tightens: where it stands now, and the slackest and tightest
     * that it stood, from where it was first. */
    double stands, slackest, tightest;
    /* Toward the relief wanted, where the current one is out of its tolerance and the rod
     * turns and answers; + tightens. */
    struct maybe turns_to_target, turns_to_target_u; /* expanded, k = 2 */
    struct maybe next_turn;                          /* of that, what to do at once */
};

/* How far through a record's passes a walk has come, and the turns that it met: of more than
 * ROD_STEPS_MAX, the last ones. With some room to spare they need not be moved for each. */
enum { ROD_STEPS_SPARE = 32 };
struct rod_walk {
    struct place at, read; /* the last pass taken in, and the last that was read; 0: none yet */
    double turns;          /* logged since that one, in its visit */
    struct rod_step step[ROD_STEPS_MAX + ROD_STEPS_SPARE];
    int first, count;                  /* which of them count */
    double stands, slackest, tightest; /* as in struct survey_rod */
};

struct rod_walk rod_walk_of(const struct record *record);

/* From the passes up to `last`; of visit 0, from all. `findings` names a rod that answers no
 * longer, or backwards. */
void survey_rod(struct place last, struct survey_rod *ret_rod, struct findings *findings);

/* The same for one pass after another: the walk goes on from where it is, or begins again if it is
 * past that one. The record must not change meanwhile. */
void survey_rod_after(struct rod_walk *walk, struct place last, struct survey_rod *ret_rod,
                      struct findings *findings);

/* Whether tightening it shows nothing any more, be it for a loose nut or at its end. */
bool survey_rod_is_silent(const struct survey_rod *rod);

/* Whether it is at its end tightened, or stands as far in as rods usually go. */
bool survey_rod_is_spent(const struct survey_rod *rod);

/* A change of relief, beyond all doubt of how the rod answers, takes it farther from its slackest
 * or tightest than it was ever seen to go, and than a rod usually has: how far, turns, and what it
 * or a usual one has. False where it does not, or the rod does not surely answer. */
bool survey_rod_is_far(const struct survey_rod *rod, double change_mm, double *ret_turns,
                       double *ret_most);

/* Why a rod is not turned on toward a target, by its last turns. */
enum rod_stop {
    ROD_MAY_TURN,
    ROD_UNPROVEN, /* it was turned, and what a turn does cannot be told yet */
    ROD_LOOSE,    /* turning it that way shows nothing yet: a loose nut, or its end */
    ROD_SILENT,   /* turning it that way shows nothing, and will not */
    ROD_STRAYED,  /* the relief went the wrong way */
};

/* Where the relief has to change by so much. */
enum rod_stop survey_rod_stop(const struct survey_rod *rod, double change_mm);

/* The turns that would let go a bend that it holds, with their expanded uncertainty; `u_mm` is that
 * of the bend. False where the rod does not surely answer. */
bool survey_rod_turns_held(const struct survey_rod *rod, double held_mm, double u_mm,
                           double *ret_turns, double *ret_u);

/* What turns logged after a pass was read, before the next one of its visit is, did to its relief,
 * mm: 0 without any; absent where the rod does not surely answer. */
struct maybe survey_rod_since(struct place place);

/* "unknown", "answers", "backwards", "no-longer". */
const char *survey_rod_answer_name(enum rod_answer answer);

#endif
