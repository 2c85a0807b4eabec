/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_BELIEF_LINE_H
#define SILLET_MODEL_BELIEF_LINE_H

#include "model/setup/estimate.h"
#include "model/setup/setup.h"

/*
 * What gauges read, as straight-line functions of what stays put when something moves: the neck's
 * curvature, the height of each slot over the neck, that of each saddle over the body (moves.h).
 * `setup` gives the board and what single crowns stand off by; its board has a curve and an action
 * fret.
 */

/* Where the unknowns stand in the estimate. */
enum { BELIEF_CURVATURE };
int belief_slot(int string);
int belief_saddle(int string);

struct linear belief_line_relief(const struct setup *setup);
struct linear belief_line_gap(const struct setup *setup, int string);
struct linear belief_line_held_gap(const struct setup *setup, int string);
struct linear belief_line_action(const struct setup *setup, int string);

/* The gap once the string has that action. */
struct linear belief_line_gap_at(const struct setup *setup, int string, double action_mm);

/* What an open gap reads with the string held down on fret 3, where relief and action are these.
 * For any setup: absent where its board does not have what it takes. */
struct maybe belief_line_held_from(const struct setup *setup, int string, double relief_mm,
                                   double gap_mm, double action_mm);

#endif
