/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DOUBT_DOUBT_RECORD_H
#define SILLET_MODEL_DOUBT_DOUBT_RECORD_H

#include "model/doubt/doubt.h"

/* The doubt that what else is filed raises of a number, but for the row of a pass: another board,
 * a fret beyond it, a core as thick as its string, a plain string too thick to be one. */
struct doubt doubt_record_find(const struct record *record, const struct reading_key *key,
                               double value);

/* A note an octave or more from the one that the string has. Where it has none: two octaves from
 * the nearest string, or out of what strings are tuned to. */
struct doubt doubt_note_find(const struct record *record, const struct reading_key *key,
                             double semitone);

#endif
