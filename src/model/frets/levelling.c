/* SPDX-License-Identifier: MIT */
#include "model/frets/levelling.h"

#include <math.h>
#include <string.h>

#include "model/common/check.h"

static bool crown_is_good(struct maybe crown_mm)
{
    return !crown_mm.given || check_is_not_negative(crown_mm.value);
}

static enum status check_frets(int last_fret, const double *spot_mm, const struct maybe *crown_mm)
{
    if (!spot_mm)
        return STATUS_ABSENT;
    if (last_fret < 1 || last_fret > LEVELLING_FRETS_MAX)
        return STATUS_DOMAIN;
    for (int n = 1; n <= last_fret; n++)
        if (!isfinite(spot_mm[n]) || !crown_is_good(crown_mm[n]))
            return STATUS_DOMAIN;
    return STATUS_OK;
}

/* The level that everything above it is taken down to. */
static double find_level(enum levelling_plan plan, int last_fret, const double *spot_mm)
{
    if (plan == LEVELLING_SPOTS)
        return 0;
    double level = spot_mm[1];
    for (int n = 2; n <= last_fret; n++)
        level = fmin(level, spot_mm[n]);
    return level;
}

static void summarize_fret(const struct levelling_fret *fret, int n,
                           struct levelling_summary *summary)
{
    if (fret->take_mm > summary->most_taken_mm) {
        summary->most_taken_mm = fret->take_mm;
        summary->most_taken_fret = n;
    }
    if (!fret->crown_left_mm.given)
        return;
    if (summary->least_left_fret == 0 || fret->crown_left_mm.value < summary->least_left_mm) {
        summary->least_left_mm = fret->crown_left_mm.value;
        summary->least_left_fret = n;
    }
    if (fret->too_low)
        summary->too_low_count++;
}

enum status levelling_make_plan(enum levelling_plan plan, int last_fret, const double *spot_mm,
                                const struct maybe *crown_mm, double least_crown_mm,
                                struct levelling_fret *ret_fret,
                                struct levelling_summary *ret_summary)
{
    struct levelling_fret frets[LEVELLING_FRETS_MAX + 1];
    struct levelling_summary summary = {0};
    enum status status = check_frets(last_fret, spot_mm, crown_mm);
    if (status)
        return status;
    if (!check_is_not_negative(least_crown_mm))
        return STATUS_DOMAIN;
    const double level = find_level(plan, last_fret, spot_mm);
    for (int n = 1; n <= last_fret; n++) {
        struct levelling_fret *fret = &frets[n];
        *fret = (struct levelling_fret){.take_mm = fmax(0, spot_mm[n] - level)};
        if (!isfinite(fret->take_mm))
            return STATUS_RANGE;
        if (crown_mm[n].given) {
            fret->crown_left_mm = maybe_given(crown_mm[n].value - fret->take_mm);
            fret->too_low = fret->crown_left_mm.value < least_crown_mm;
        }
        summarize_fret(fret, n, &summary);
    }
    memcpy(&ret_fret[1], &frets[1], (size_t)last_fret * sizeof frets[1]);
    *ret_summary = summary;
    return STATUS_OK;
}
