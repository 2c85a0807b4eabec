/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_DERIVE_ASSUMED_H
#define SILLET_MODEL_DERIVE_DERIVE_ASSUMED_H

#include "model/derive/derive_pitch.h"
#include "model/pitch/pitch_assumption.h"
#include "model/setup/moves.h"

/*
 * Which assumptions hold for one string's predicted pitch: what was entered or calibrated is
 * taken for less wide than what was not.
 */

struct pitch_assumption_held {
    enum pitch_assumption_id id;
    double size;
};

enum { ASSUMED_MAX = 12 };

/* Press depth, where it is assumed, comes first. */
struct assumed {
    struct pitch_assumption_held held[ASSUMED_MAX];
    int count;
    bool by_tuner; /* then the calibration stands for press depth and ends */
    struct intonation_calibration calibration;
};

/* `choice` are the moves that lead to the heights for which setbacks are predicted. */
void derive_assumed(struct place place, const struct setup *setup, const struct move_choice *choice,
                    const struct string_facts *facts, const struct string_lines *lines, int string,
                    struct assumed *ret_assumed);

#endif
