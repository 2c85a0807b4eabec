/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_MOVE_FIND_H
#define SILLET_MODEL_MOVE_FIND_H

#include "model/setup/belief.h"
#include "model/setup/move.h"

/*
 * Rod, slots and saddle, in that order, each on what the ones before it will have made of the
 * instrument. A move is due when it is off beyond its tolerance and beyond doubt; how far doubt
 * goes was tried on the virtual bench (tests/virtual, docs/method.md).
 */

/* In standard deviations of what is believed: how far off, beyond the tolerance, a rod or a slot
 * must be; how far off at all anything must be; how far a fill, which puts on what a file takes off
 * again, beyond the tolerance; by how many a cut stops short. */
#define MOVE_DOUBT      0.9
#define MOVE_SURE       1.5
#define MOVE_FILL_DOUBT 3.25
#define MOVE_SHORT      0.75

/* So far beyond its tolerance, in deviations, something is called off it though it is left. */
#define MOVE_NEAR 0.5

/* A cut that stops short is larger than its own doubt, which is two deviations. */
#define MOVE_CUT_DOUBT (MOVE_SHORT + 2.0)

/* What is known so much worse than one more reading would tell it, is read again. */
#define MOVE_STALE 1.25

/* What was found good in the pass before and not touched since: so many tolerances. */
#define MOVE_SETTLED 2.0

/* Where no rod turns, relief is a matter of heat and planing: due only this far off, mm. */
#define MOVE_NO_ROD_MM 0.15

/* Finds the three; the others are left unknown. */
void move_find_work(const struct setup *setup, const struct belief *belief,
                    struct move_set *ret_moves);

#endif
