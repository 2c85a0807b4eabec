/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SURVEY_SURVEY_CALIBRATION_H
#define SILLET_MODEL_SURVEY_SURVEY_CALIBRATION_H

#include "model/derive/derive.h"
#include "model/pitch/intonation_calibrate.h"

/* With fewer readings on a string, depth and ends cannot be told from the tuner's noise. */
enum { CALIBRATION_READINGS_LEAST = 3 };

/*
 * Press depth and clamped ends from the cents read on one string, 1 .. strings, in the place
 * that `derived` was derived at, begun at the profile's values. STATUS_ABSENT with too few
 * readings or where the string's line, mass or core is not known; else as
 * intonation_calibrate.
 */
enum status survey_calibration(struct place place, const struct derived *derived, int string,
                               struct intonation_calibration *ret_calibration);

#endif
