/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_BELIEF_H
#define SILLET_MODEL_DERIVE_BELIEF_H

#include "model/setup/belief.h"
#include "model/setup/move.h"
#include "model/reading/record.h"

/*
 * What the passes of a visit up to this one come to. A move that a work line marks done between
 * two passes shifts what is believed by the amount that the line says, else by what was planned. A
 * move that was due and is not marked may have been made: what it would have changed is in doubt.
 * A reset, and more than one reading that moved though nothing is marked, begin anew.
 */
void derive_belief(struct place place, const struct setup *setup, struct belief *ret_belief);

#endif
