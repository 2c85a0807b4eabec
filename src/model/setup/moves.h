/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SETUP_MOVES_H
#define SILLET_MODEL_SETUP_MOVES_H

#include <stdbool.h>

#include "model/figure/figure.h"
#include "model/setup/neck_curve.h"
#include "model/setup/setup.h"

/*
 * From the readings to the moves: where the strings run, what stays put when something
 * moves (the slot on the neck, the saddle on the body), and what rod, slots and saddle
 * have to do, in that order, to bring the readings to the targets. When a neck reset is
 * due stands in reset.h, which takes the saddle changes from here.
 */

/* Which moves are due: outside their tolerance. */
struct move_choice {
    bool rod;
    bool slot[STRINGS_MAX + 1], saddle[STRINGS_MAX + 1];
};

/* A straight string from the nut's front edge to the saddle contact, heights over the
 * chord of the state that it belongs to. */
struct string_line {
    bool known;
    double nut_mm, saddle_mm;
};

/* The height of that string at x mm from the nut's front edge; contact_mm is where its saddle
 * contact lies. */
double string_line_height_mm(const struct string_line *line, double contact_mm, double x_mm);

/* Where the strings run: as read, and after the moves. */
struct string_lines {
    bool has_now, has_after; /* whether the curve of that state is known */
    struct neck_curve curve_now, curve_after;
    struct string_line now[STRINGS_MAX + 1];
    struct string_line after[STRINGS_MAX + 1];
};

/*
 * Computes the figures of [neck-curve] and [string.N] up to the saddle's into `figures`,
 * all others untouched; a figure whose readings or targets are absent is set absent. With
 * `held` NULL the moves due are chosen by the tolerances and given in *ret_choice; else
 * just the moves of `held` are made, which the uncertainties need. ret_choice and
 * ret_lines may be NULL.
 */
void moves_solve(const struct setup *setup, const struct move_choice *held, struct figures *figures,
                 struct move_choice *ret_choice, struct string_lines *ret_lines);

#endif
