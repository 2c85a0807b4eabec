/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_PAST_H
#define SILLET_MODEL_DERIVE_PAST_H

#include "model/derive/derive_belief.h"
#include "model/derive/season.h"
#include "model/derive/touch.h"
#include "model/reading/place.h"
#include "model/setup/survey_rod.h"

/* So many passes in which notes were listened to tell the touch. */
enum { PAST_HEARD = 3 };

/* A pass in which notes were listened to, and what that says of the touch. Strings from 1. */
struct heard_pass {
    struct place place;
    bool known; /* the rest was found */
    struct outfit outfit;
    uint64_t clean[STRINGS_MAX + 1], buzzing[STRINGS_MAX + 1]; /* bit n for fret n */
    struct maybe headroom_mm[STRINGS_MAX + 1][FRETS_MAX + 1];  /* as the strings lay then */
};

/*
 * What the states of a record ask of its past. The answers are kept, so that passes derived one
 * after another with the same past, in time order, do not each go through all that came before
 * them. The record must not change meanwhile.
 */
struct past {
    struct outfit outfit; /* of the place that it was asked for (derive_past) */
    struct belief_walk belief;
    struct season_walk season;
    struct rod_walk turns;
    int rod_visit; /* -1: not asked yet */
    struct survey_rod rod;
    struct heard_pass heard[PAST_HEARD]; /* the last ones up to `looked`, the last one first */
    int heard_count;
    struct place looked; /* visit and pass 0: none was looked for yet */
    bool has_bounds;     /* of these passes */
    struct touch_bounds bounds;
};

struct past past_of(const struct record *record);

/* The same of a record that is the same up to there. */
void past_move_to(struct past *past, const struct record *record);

/* What the turns up to the visit of `place` teach. */
const struct survey_rod *past_rod(struct past *past, struct place place);

/* Takes in the visits before one; the setup is that of any pass in it. */
void past_visits(struct past *past, const struct setup *setup, struct place place);

/* Finds the last passes up to `place` in which any note was listened to. */
void past_hear(struct past *past, struct place place, int strings);

#endif
