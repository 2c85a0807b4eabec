/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_PITCH_INTONATION_CALIBRATE_H
#define SILLET_MODEL_PITCH_INTONATION_CALIBRATE_H

#include <stdbool.h>

#include "base/status.h"
#include "model/pitch/intonation.h"

/*
 * Learning how a player presses and how firmly the ends hold: the press depth p and the
 * clamped ends e that make the predicted cents meet measured ones best.
 */

/* The deepest press that is looked at, mm; a finger on a tall fret goes less deep. */
#define CALIBRATE_PRESS_DEPTH_MAX_MM 5.0
#define CALIBRATE_CLAMPED_ENDS_MAX   2.0

/* A note as a tuner read it, and the string that it was read on. */
struct intonation_reading {
    const struct intonation_setup *setup; /* its p and e are not looked at */
    struct intonation_ends ends;
    int fret; /* >= 1 */
    double cents;
};

/* One of the two fitted numbers. */
struct calibrated {
    double value;
    double expanded_u; /* k = 2; 0 when the number was not fitted */
    bool fitted;       /* false: the readings do not tell it, the start is kept */
    bool at_limit;     /* true: the readings ask for more than is possible; distrust it */
    /* True when the readings pin it down: fitted, off the limits, expanded_u under a
     * quarter of what is possible. */
    bool pinned;
};

struct intonation_calibration {
    struct calibrated press_depth_mm;
    struct calibrated clamped_ends;
    double correlation; /* of the two, -1 to 1; near either the one hides the other */
    double cents_rms_before, cents_rms_after;
    int readings;
};

/*
 * Fits p and e by least squares within their limits, from the `start` values (clipped to
 * the limits). cents_u is the standard uncertainty of one reading (> 0); what the fit
 * leaves over takes its place in the ± when it is larger, so that a model that does not
 * fit cannot look sure. With one reading, or readings that do not tell p and e apart, only
 * p is fitted. STATUS_ABSENT without readings, else as intonation_find_note;
 * STATUS_NOT_CONVERGED when the search does not settle.
 */
enum status intonation_calibrate(const struct intonation_reading *readings, int count,
                                 double start_press_depth_mm, double start_clamped_ends,
                                 double cents_u, struct intonation_calibration *ret_calibration);

#endif
