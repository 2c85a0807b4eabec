/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_HEARD_H
#define SILLET_MODEL_DERIVE_HEARD_H

#include <stdbool.h>
#include <stdint.h>

#include "model/reading/place.h"

/*
 * What ear and tuner say at a pass. A note that was not played in it is as it was last played in
 * its visit, until work may have changed it, or the readings show that the string lies otherwise.
 * Notes are sets, bit n for fret n; that of a string's own nut is its open note.
 */
struct heard_notes {
    uint64_t clean, buzzing; /* what holds; a note in both lists of a pass buzzes */
    uint64_t again;          /* buzzed when they were last played, before the change */
};

/* What was heard of a string, which starts at fret `start`, in the pass itself; `again` is empty.
 */
struct heard_notes heard_in_pass(struct place place, int string, int start, int frets);

struct heard_notes heard_at(struct place place, int string, int start, int frets);

/* Whether a note was off by more than the tolerance when it was last tuned, in an earlier pass of
 * its visit, and nothing shows that it is right: after work any note of the string does. */
bool heard_cents_are_left(struct place place, int string, int frets);

/* Whether any note of the strings was tuned at a pass, in it or before it in its visit and not
 * worked on since. */
bool heard_any_cents(struct place place, int strings, int frets);

#endif
