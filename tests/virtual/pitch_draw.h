/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_PITCH_DRAW_H
#define SILLET_TESTS_PITCH_DRAW_H

#include "model/derive/derive.h"
#include "model/derive/derive_pitch_u.h"
#include "seeded.h"

/* What a string might really be, by the assumptions that hold for it and the steps of its gauges.
 * What a draw does to a string is written out here once more, not taken from the code that makes
 * the ±. */

struct pitch_instrument {
    const struct record *record;
    const struct derived *derived;
    struct setup flat;
    struct move_choice choice;
    struct string_lines flat_lines;
};

/* The exact model for one string, with everything drawn once. False where nothing is predicted. */
bool pitch_draw_truth(struct seeded *seed, const struct pitch_instrument *made,
                      const struct assumed *assumed, int string, struct pitch_outcomes *ret_truth);

#endif
