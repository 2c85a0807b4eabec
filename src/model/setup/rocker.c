/* SPDX-License-Identifier: MIT */
#include "model/setup/rocker.h"

#include "model/setup/uncertainty.h"

double rocker_u_mm(const struct record *record)
{
    return 2 * uncertainty_of_step(record_or_fallback(record, FIELD_FEELER_STEP));
}

bool rocker_is_high(struct maybe spot_mm, double u_mm)
{
    return spot_mm.given && spot_mm.value >= MOVE_CROWN_MM && spot_mm.value > u_mm;
}

static bool is_low(struct maybe spot_mm, double u_mm)
{
    return spot_mm.given && rocker_is_high(maybe_given(-spot_mm.value), u_mm);
}

const struct setup *rocker_level(const struct setup *setup, struct setup *level)
{
    const double u_mm = 2 * uncertainty_of_step(setup->feeler_step_mm);
    const struct setup *made = setup;

    for (int n = 1; n <= setup->board.frets; n++) {
        if (!rocker_is_high(setup->spot_mm[n], u_mm))
            continue;
        if (made == setup)
            *level = *setup;
        made = level;
        level->spot_mm[n] = maybe_given(0);
    }
    return made;
}

uint64_t rocker_find_low(const struct maybe *spot_mm, uint64_t frets, double u_mm)
{
    uint64_t low = 0;

    for (int n = 1; n <= FRETS_MAX; n++)
        if (frets >> n & 1 && is_low(spot_mm[n], u_mm))
            low |= UINT64_C(1) << n;
    return low;
}
