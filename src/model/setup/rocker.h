/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SETUP_ROCKER_H
#define SILLET_MODEL_SETUP_ROCKER_H

#include <stdint.h>

#include "model/reading/record_access.h"
#include "model/setup/setup.h"

/* What the fret rocker found: it was laid on the fret, so it counts before any guess by ear. */

/* Crowns are not worked finer than this, mm. */
#define MOVE_CROWN_MM 0.02

/* What its leaf leaves of a spot, mm: expanded, k = 2. */
double rocker_u_mm(const struct record *record);

/* Whether a crown is so high, beyond that, that a hand can work on it. */
bool rocker_is_high(struct maybe spot_mm, double u_mm);

/* The same board once the crowns that were rocked high are level: *level, made where any is, else
 * `setup` itself. */
const struct setup *rocker_level(const struct setup *setup, struct setup *level);

/* Of a set of frets, bit n for fret n, those that are as low; spot_mm[0 .. FRETS_MAX]. */
uint64_t rocker_find_low(const struct maybe *spot_mm, uint64_t frets, double u_mm);

#endif
