/* SPDX-License-Identifier: MIT */
#include "model/setup/break_angle.h"

#include "model/common/check.h"
#include "model/common/spread.h"

static bool is_good(const struct string_break *at)
{
    return isfinite(at->drop_mm) && check_is_positive(at->distance_mm) && isfinite(at->front_rad) &&
           isfinite(at->tilt_rad) && check_is_not_negative(at->pull_n);
}

enum status break_angle_find(const struct string_break *at, double *ret_angle_rad)
{
    if (!is_good(at))
        return STATUS_DOMAIN;
    *ret_angle_rad = atan(at->drop_mm / at->distance_mm) + at->front_rad + at->tilt_rad;
    return STATUS_OK;
}

enum status break_angle_find_force(const struct string_break *at, double *ret_force_n)
{
    if (!is_good(at))
        return STATUS_DOMAIN;
    const double back = sin(atan(at->drop_mm / at->distance_mm));

    return check_give(at->pull_n * (back + sin(at->front_rad + at->tilt_rad)), ret_force_n);
}

static bool solve_angle(const void *of, double *ret_value)
{
    return break_angle_find(of, ret_value) == STATUS_OK;
}

static bool solve_force(const void *of, double *ret_value)
{
    return break_angle_find_force(of, ret_value) == STATUS_OK;
}

static double expand(const struct string_break *at, const struct break_doubt *doubt,
                     spread_solve *solve)
{
    struct string_break moved = *at;
    const struct assumed list[] = {
        {.at = &moved.drop_mm, .u = doubt->drop_u_mm},
        {.at = &moved.distance_mm, .u = doubt->distance_u_mm},
        {.at = &moved.tilt_rad, .u = doubt->tilt_u_rad},
        {.at = &moved.pull_n, .u = doubt->pull_share_u, .is_share = true},
    };

    return spread_expand(list, sizeof list / sizeof list[0], solve, &moved);
}

double break_angle_u(const struct string_break *at, const struct break_doubt *doubt)
{
    return expand(at, doubt, solve_angle);
}

double break_angle_force_u(const struct string_break *at, const struct break_doubt *doubt)
{
    return expand(at, doubt, solve_force);
}
