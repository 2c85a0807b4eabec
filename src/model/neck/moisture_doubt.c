/* SPDX-License-Identifier: MIT */
#include "model/neck/moisture_doubt.h"

#include <math.h>

#include "model/common/assumption.h"
#include "model/common/check.h"
#include "model/neck/moisture.h"

enum status moisture_of_air(const struct air *air, double *ret_emc_pct)
{
    if (!isfinite(air->humidity_pct))
        return STATUS_DOMAIN;
    return moisture_find_emc(air->temperature_c, fmin(fmax(air->humidity_pct, 0), 100),
                             ret_emc_pct);
}

static bool solve_emc(const void *of, double *ret_value)
{
    return moisture_of_air(of, ret_value) == STATUS_OK;
}

double moisture_emc_u(const struct air *air)
{
    struct air moved = *air;
    const struct assumed list[] = {
        assumption_of(&moved.temperature_c, ASSUME_THERMOMETER),
        assumption_of(&moved.humidity_pct, ASSUME_HYGROMETER),
    };

    return spread_expand(list, sizeof list / sizeof list[0], solve_emc, &moved);
}

static bool solve_movement(const void *of, double *ret_value)
{
    const struct moisture_move *move = of;
    double from_pct, to_pct;

    return moisture_of_air(&move->from, &from_pct) == STATUS_OK &&
           moisture_of_air(&move->to, &to_pct) == STATUS_OK &&
           moisture_find_movement(move->width_mm, move->coefficient, from_pct, to_pct, ret_value) ==
               STATUS_OK;
}

double moisture_movement_u(const struct moisture_move *move)
{
    struct moisture_move moved = *move;
    const struct assumed list[] = {
        assumption_of(&moved.width_mm, ASSUME_CALLIPER),
        assumption_of(&moved.coefficient, ASSUME_SHRINKAGE),
        assumption_of(&moved.from.temperature_c, ASSUME_THERMOMETER),
        assumption_of(&moved.from.humidity_pct, ASSUME_HYGROMETER),
        assumption_of(&moved.to.temperature_c, ASSUME_THERMOMETER),
        assumption_of(&moved.to.humidity_pct, ASSUME_HYGROMETER),
    };

    return spread_expand(list, sizeof list / sizeof list[0], solve_movement, &moved);
}

struct moisture_lag moisture_lag_assumed(double depth_mm, double width_mm)
{
    return (struct moisture_lag){
        .depth_mm = depth_mm > 0 ? depth_mm : assumption_get(ASSUME_NECK_DEPTH)->value,
        .width_mm = width_mm > 0 ? width_mm : (double)INFINITY,
        .diffusion_mm2_s = assumption_get(ASSUME_DIFFUSION)->value,
        .finish = assumption_get(ASSUME_FINISH)->value,
    };
}

enum status moisture_find_lag(const struct moisture_lag *lag, double *ret_days)
{
    const double pi = 3.14159265358979323846, seconds_a_day = 86400;
    const double first_term = 64 / (pi * pi * pi * pi);

    if (!check_is_positive(lag->depth_mm) || !(lag->width_mm > 0) ||
        !check_is_positive(lag->diffusion_mm2_s) || !check_is_positive(lag->finish))
        return STATUS_DOMAIN;
    const double sections =
        1 / (lag->depth_mm * lag->depth_mm) + 1 / (lag->width_mm * lag->width_mm);
    const double tau_s = lag->finish / (pi * pi * lag->diffusion_mm2_s * sections);

    return check_give(tau_s / seconds_a_day * log(first_term / (1 - MOISTURE_FOLLOWED)), ret_days);
}

static bool solve_log_lag(const void *of, double *ret_value)
{
    double days;

    if (moisture_find_lag(of, &days) != STATUS_OK)
        return false;
    *ret_value = log(days);
    return true;
}

double moisture_lag_factor_u(const struct moisture_lag *lag, double depth_u_share)
{
    struct moisture_lag moved = *lag;
    const struct assumed list[] = {
        {.at = &moved.depth_mm, .u = depth_u_share, .is_share = true},
        assumption_of(&moved.diffusion_mm2_s, ASSUME_DIFFUSION),
        assumption_of(&moved.finish, ASSUME_FINISH),
    };

    return exp(spread_expand(list, sizeof list / sizeof list[0], solve_log_lag, &moved));
}
