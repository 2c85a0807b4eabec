/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_DERIVE_CALIBRATION_H
#define SILLET_MODEL_DERIVE_DERIVE_CALIBRATION_H

#include "model/derive/derive_pitch.h"
#include "model/pitch/intonation_calibrate.h"

/* With fewer readings on a string, depth and ends cannot be told from the tuner's noise. */
enum { CALIBRATION_READINGS_LEAST = 3 };

/*
 * Press depth and clamped ends from the cents read on one string, 1 .. strings, in the place
 * that `setup` and `lines` were read at, begun at the profile's values; `facts` is that string's
 * own. STATUS_ABSENT with too few readings or where the string's line, mass or core is not
 * known; else as intonation_calibrate.
 */
enum status derive_calibration(struct place place, const struct setup *setup,
                               const struct string_facts *facts, const struct string_lines *lines,
                               int string, struct intonation_calibration *ret_calibration);

#endif
