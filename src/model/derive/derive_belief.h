/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_BELIEF_H
#define SILLET_MODEL_DERIVE_BELIEF_H

#include "model/setup/belief.h"
#include "model/setup/move.h"
#include "model/reading/place.h"

/* How far through a visit's passes a walk has come. */
struct belief_walk {
    struct place at;    /* the last pass taken in; 0: none yet */
    struct setup setup; /* of that pass */
    struct belief belief;
    struct rod_walk turns; /* and what they came to, with any logged in the visit */
    struct survey_rod rod;
    bool turned;
};

struct belief_walk belief_walk_of(const struct record *record);

/*
 * What the passes of a visit up to this one come to. A move that a work line marks done between
 * two passes shifts what is believed by the amount that the line says, else by what was planned. A
 * move that was due and is not marked may have been made: what it would have changed is in doubt.
 * A reset, and more than one reading that moved though nothing is marked, begin anew.
 *
 * The walk goes on from where it is, or begins again if it is not on the way. The record must not
 * change meanwhile.
 */
void derive_belief(struct place place, const struct setup *setup, struct belief_walk *walk,
                   struct belief *ret_belief);

#endif
