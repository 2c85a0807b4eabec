/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_DERIVE_HEARD_MOVES_H
#define SILLET_MODEL_DERIVE_DERIVE_HEARD_MOVES_H

#include "model/derive/derive.h"
#include "model/setup/rocker.h"

/*
 * The moves that ear, rocker and tuner ask for. A fret that the rocker found high is levelled; what
 * else a buzz asks for, buzz_cause.h finds. A string whose notes are off by more
 * than the tolerance has its saddle moved.
 */

/* Saddles are not set finer than this, mm. */
#define MOVE_SETBACK_MM 0.1

/* Whether the readings of a pass ask for frets or pitch at all: a note that buzzes, a high spot, a
 * note that is off. False for any other move. */
bool derive_asks(struct place place, enum move_kind kind, int strings, int frets);

/* Whether a buzz holds at a pass. Where none does, the moves follow without the clearance. */
bool derive_hears_buzz(struct place place, const struct board *board);

/* Finds both, from what is derived of the pass so far; the other moves must be found already. Only
 * these two and `frets` change in *moves, which may be the one in `derived`. */
void derive_heard_moves(struct place place, const struct derived *derived, struct move_set *moves);

#endif
