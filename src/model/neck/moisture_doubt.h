/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_NECK_MOISTURE_DOUBT_H
#define SILLET_MODEL_NECK_MOISTURE_DOUBT_H

#include "base/status.h"

/*
 * The +- of wood's moisture and movement (moisture.h), and how long wood takes to follow the air.
 * What they rest on stands in assumption_table.h. All are expanded, k = 2.
 */

struct air {
    double temperature_c, humidity_pct; /* as read, or as assumed */
};

/* STATUS_DOMAIN as moisture_find_emc; a humidity beyond 0 to 100 % counts as that. */
enum status moisture_of_air(const struct air *air, double *ret_emc_pct);
double moisture_emc_u(const struct air *air);

/* A width of wood, known by its name, that goes from one air to another. */
struct moisture_move {
    double width_mm, coefficient;
    struct air from, to;
};

double moisture_movement_u(const struct moisture_move *move);

/* A neck in the air. */
struct moisture_lag {
    double depth_mm, width_mm; /* > 0 */
    double diffusion_mm2_s;    /* > 0 */
    double finish;             /* how many times slower its finish makes it, > 0 */
};

/* As it is assumed; depth and width as measured, 0 for what was not: then as usual, and the
 * width counts for nothing. */
struct moisture_lag moisture_lag_assumed(double depth_mm, double width_mm);

/* So much of a change of the air the wood has followed after moisture_find_lag. */
#define MOISTURE_FOLLOWED 0.95

/*
 * Days until the wood has followed the air by that share.
 * With tau = finish/(pi^2 D (1/depth^2 + 1/width^2)), what is left of a change after the time t is
 * (8/pi^2)^2 exp(-t/tau): the first term of the series for a bar of that section. STATUS_DOMAIN
 * for a number out of range.
 * Source: J. Crank, The Mathematics of Diffusion (1975), from memory.
 */
enum status moisture_find_lag(const struct moisture_lag *lag, double *ret_days);

/* It may take so many times as long, or as short: 95 % lies between. depth_u_share: standard
 * uncertainty of the depth, as a share. */
double moisture_lag_factor_u(const struct moisture_lag *lag, double depth_u_share);

#endif
