/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SETUP_RESET_H
#define SILLET_MODEL_SETUP_RESET_H

#include "model/figure/figure.h"
#include "model/setup/setup.h"

/* Whether the saddle is enough, or the neck's angle has to be reset (move_set_reset). */
enum reset_verdict { RESET_UNKNOWN, RESET_SADDLE, RESET_NECK };

/*
 * Takes the saddle changes that moves_solve left in `figures` and adds the [reset]
 * figures: exposure after the move, and theta = (E_new - (E + change)) / (Ls - x_join),
 * outer two strings averaged, with heel taper, pocket shim and tongue wedge. Small angles.
 */
void reset_solve(const struct setup *setup, struct figures *figures);

/* "saddle", "reset"; NULL for unknown. */
const char *reset_verdict_name(enum reset_verdict verdict);

#endif
