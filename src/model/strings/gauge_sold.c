/* SPDX-License-Identifier: MIT */
#include "model/strings/gauge_sold.h"

#include <math.h>
#include <stddef.h>

#include "base/unit.h"
#include "model/common/check.h"

enum { SOLD_MAX = 40 };

/* Thousandths of an inch, 0 behind the last. */
static const int sold[BUILD_COUNT_][SOLD_MAX] = {
    [BUILD_PLAIN] = {7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 22, 24, 26},
    [BUILD_ROUND_WOUND] = {18, 20, 22, 24, 26, 28,  30,  32,  34,  36,  38,  40,  42,
                           44, 46, 48, 50, 52, 54,  56,  59,  60,  62,  65,  68,  70,
                           75, 80, 85, 90, 95, 100, 105, 110, 115, 120, 125, 130, 135},
    [BUILD_NYLON] = {22, 23, 24, 25, 26, 27, 28, 29, 30, 31, 32, 33,
                     34, 35, 36, 37, 38, 39, 40, 41, 42, 43, 44, 45},
};

static enum status find_pull(const struct string_build *build, double length_mm, double hz,
                             double *ret_pull_n)
{
    const struct mass_sources sources = {.length_mm = length_mm, .hz = hz, .build = build};
    struct unit_mass mass;
    enum status status = tension_find_mass(&sources, &mass);

    if (status == STATUS_OK)
        status = tension_from_pitch(mass.kg_per_m, length_mm, hz, ret_pull_n);
    return status;
}

struct string_build gauge_sold_build(const struct string_build *build, double gauge_mm)
{
    struct string_build other = *build;

    other.gauge_mm = gauge_mm;
    other.core_mm = build->core_mm * sqrt(gauge_mm / build->gauge_mm);
    return other;
}

/* Gauges rise along the list, and so do their pulls. */
static void weigh(struct gauge_pull found, double pull_n, struct gauge_sold *sold_now)
{
    const struct gauge_pull before = sold_now->nearest;

    if (before.gauge_mm == 0 || fabs(found.pull_n - pull_n) < fabs(before.pull_n - pull_n))
        *sold_now = (struct gauge_sold){.nearest = found, .lighter = before};
    else if (sold_now->heavier.gauge_mm == 0)
        sold_now->heavier = found;
}

enum status gauge_sold_for_pull(const struct string_build *build, double length_mm, double hz,
                                double pull_n, struct gauge_sold *ret_sold)
{
    struct gauge_sold found = {.nearest = {.gauge_mm = 0}};

    if ((int)build->kind < 0 || build->kind >= BUILD_COUNT_ || !check_is_positive(pull_n))
        return STATUS_DOMAIN;
    if (!(build->gauge_mm > 0) || sold[build->kind][0] == 0)
        return STATUS_ABSENT;
    for (int i = 0; i < SOLD_MAX && sold[build->kind][i] > 0; i++) {
        struct gauge_pull one = {.gauge_mm = unit_to_pivot(UNIT_TH, sold[build->kind][i])};
        const struct string_build other = gauge_sold_build(build, one.gauge_mm);

        if (find_pull(&other, length_mm, hz, &one.pull_n) == STATUS_OK)
            weigh(one, pull_n, &found);
    }
    if (found.nearest.gauge_mm == 0)
        return STATUS_ABSENT;
    if (!(fabs(found.nearest.pull_n - pull_n) <= pull_n / 5))
        return STATUS_RANGE;
    *ret_sold = found;
    return STATUS_OK;
}
