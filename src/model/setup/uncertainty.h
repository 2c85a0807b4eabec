/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SETUP_UNCERTAINTY_H
#define SILLET_MODEL_SETUP_UNCERTAINTY_H

#include "model/figure/figure.h"
#include "model/setup/moves.h"
#include "model/setup/setup.h"

/*
 * Expanded uncertainty of every set-up figure, k = 2 (about 95 %):
 * U = 2 sqrt(sum (df/dr_i u_i)^2) over the readings entered, u_i = step / sqrt(12), each
 * derivative by a central difference with the moves of `choice` held fixed. Written into
 * the `u` of the figures that moves_solve and reset_solve left there.
 * Source: JCGM 100:2008 (GUM), 4.3.7 (rectangular over one step), 5.1.2, 6.2.
 */
void uncertainty_solve(const struct setup *setup, const struct move_choice *choice,
                       struct figures *figures);

/* u of one reading with that step, and U = 2 u. */
double uncertainty_of_step(double step);

/* How many readings bear on a set-up figure, and the i-th of them, to be moved by tests that
 * draw readings at random. *ret_step is its step. */
int uncertainty_reading_count(const struct setup *setup);
double *uncertainty_reading(struct setup *setup, int i, double *ret_step);

#endif
