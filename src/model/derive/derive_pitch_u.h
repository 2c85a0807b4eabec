/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_DERIVE_PITCH_U_H
#define SILLET_MODEL_DERIVE_DERIVE_PITCH_U_H

#include "model/derive/derive_assumed.h"
#include "model/pitch/pitch_spread.h"

/*
 * The expanded uncertainty of predicted setbacks and cents (pitch_spread.h), from the assumptions
 * that hold for each string and from the steps of the gauges that read the heights.
 */

/* Into the `u` of the figures and cents that derive_pitch left. */
void derive_pitch_u(struct place place, const struct setup *setup, const struct string_facts *facts,
                    const struct string_lines *lines, struct fret_pitch *pitch,
                    struct figures *figures);

/* What an outcome's ± comes from, the largest first; each U as if it were the only one. */
struct pitch_part {
    const char *label, *source; /* the source of its width; NULL: the gauges */
    double u;
};

struct pitch_parts {
    struct pitch_part part[ASSUMED_MAX + 1];
    int count;
};

/* `pitch` and `figures` as derive_pitch left them; pitch is the string's own. */
void derive_pitch_parts(struct place place, const struct setup *setup,
                        const struct string_facts *facts, const struct string_lines *lines,
                        const struct fret_pitch *pitch, const struct figures *figures, int string,
                        int outcome, struct pitch_parts *ret_parts);

#endif
