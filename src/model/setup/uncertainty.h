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

/* The readings that bear on a set-up figure, each in its place in the setup, to be moved there,
 * with its step; returns how many. */
enum { UNCERTAIN_MAX = RELIEFS_MAX + FRETS_MAX + SETUP_READINGS_MAX };
struct uncertain {
    double *reading, step;
};
int uncertainty_list(struct setup *setup, struct uncertain ret_list[UNCERTAIN_MAX]);

#endif
