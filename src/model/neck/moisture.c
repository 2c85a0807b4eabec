/* SPDX-License-Identifier: MIT */
#include "model/neck/moisture.h"

#include "model/common/check.h"

enum status moisture_find_emc(double temperature_c, double humidity_pct, double *ret_emc_pct)
{
    if (!check_is_within(temperature_c, MOISTURE_LEAST_C, MOISTURE_MOST_C))
        return STATUS_DOMAIN;
    if (!check_is_within(humidity_pct, 0, 100))
        return STATUS_DOMAIN;
    const double t = temperature_c;
    const double w = 349 + 1.29 * t + 0.0135 * t * t;
    const double k = 0.805 + 0.000736 * t - 0.00000273 * t * t;
    const double k1 = 6.27 - 0.00938 * t - 0.000303 * t * t;
    const double k2 = 1.91 + 0.0407 * t - 0.000293 * t * t;
    const double kh = k * humidity_pct / 100;
    const double first = k1 * kh;
    const double second = k1 * k2 * kh * kh;

    *ret_emc_pct = 1800 / w * (kh / (1 - kh) + (first + 2 * second) / (1 + first + second));
    return STATUS_OK;
}

enum status moisture_find_movement(double width_mm, double coefficient, double from_pct,
                                   double to_pct, double *ret_movement_mm)
{
    if (!check_is_positive(width_mm) || !check_is_positive(coefficient))
        return STATUS_DOMAIN;
    if (!check_is_within(from_pct, 0, 40) || !check_is_within(to_pct, 0, 40))
        return STATUS_DOMAIN;
    return check_give(width_mm * coefficient * (to_pct - from_pct), ret_movement_mm);
}
