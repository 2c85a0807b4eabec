/* SPDX-License-Identifier: MIT */
#include "model/setup/neck_curve.h"

#include <math.h>

/* The gap under the chord at unit curvature: the curve sags where the crowns lie low. */
static double unit_gap(const struct board *board, int fret)
{
    return -board->bend[LANE_MIDDLE][fret];
}

static bool reliefs_are_sound(const struct setup *setup)
{
    if (setup->relief_count > RELIEFS_MAX || !isfinite(maybe_or(setup->fall_away_mm, 0)))
        return false;
    for (int i = 0; i < setup->relief_count; i++)
        if (setup->relief[i].fret < 0 || setup->relief[i].fret > setup->board.frets)
            return false;
    return true;
}

static enum status find_kappa(const struct setup *setup, double *ret_kappa_per_mm)
{
    double product = 0, square = 0;

    if (!setup->has_board || !setup->board.has_relief)
        return STATUS_DOMAIN;
    if (!reliefs_are_sound(setup))
        return STATUS_DOMAIN;
    if (setup->relief_count <= 0)
        return STATUS_ABSENT;
    for (int i = 0; i < setup->relief_count; i++) {
        const double rho = unit_gap(&setup->board, setup->relief[i].fret);

        product += setup->relief[i].gap_mm * rho;
        square += rho * rho;
    }
    if (!(square > 0) || !isfinite(product / square))
        return STATUS_DOMAIN;
    *ret_kappa_per_mm = product / square;
    return STATUS_OK;
}

/* What a crown stands off by: its spot, and what the curve leaves of the reliefs read there. */
static double find_offset(const struct setup *setup, double kappa_per_mm, int fret)
{
    double offset_mm = maybe_or(setup->spot_mm[fret], 0);

    for (int i = 0; i < setup->relief_count; i++)
        if (setup->relief[i].fret == fret)
            offset_mm -= setup->relief[i].gap_mm - kappa_per_mm * unit_gap(&setup->board, fret);
    return offset_mm;
}

enum status neck_curve_fit(const struct setup *setup, struct neck_curve *ret_curve)
{
    double kappa_per_mm;
    const enum status status = find_kappa(setup, &kappa_per_mm);

    if (status != STATUS_OK)
        return status;
    ret_curve->kappa_per_mm = kappa_per_mm;
    ret_curve->fall_away_mm = maybe_or(setup->fall_away_mm, 0);
    for (int n = 0; n <= FRETS_MAX; n++)
        ret_curve->offset_mm[n] = find_offset(setup, kappa_per_mm, n);
    return STATUS_OK;
}

double neck_curve_flat_height_mm(const struct setup *setup, int lane, int fret)
{
    double kappa_per_mm;
    const double offset_mm = find_kappa(setup, &kappa_per_mm) == STATUS_OK
                                 ? find_offset(setup, kappa_per_mm, fret)
                                 : setup->spot_mm[fret].value;

    return offset_mm - setup->fall_away_mm.value * setup->board.ramp[lane][fret];
}

double neck_curve_height_mm(const struct neck_curve *curve, const struct board *board, int lane,
                            int fret)
{
    return curve->kappa_per_mm * board->bend[lane][fret] + curve->offset_mm[fret] -
           curve->fall_away_mm * board->ramp[lane][fret];
}

double neck_curve_relief_mm(const struct board *board, double kappa_per_mm)
{
    return kappa_per_mm * unit_gap(board, board->relief_fret);
}

double neck_curve_kappa_for(const struct board *board, double relief_mm)
{
    return relief_mm / unit_gap(board, board->relief_fret);
}

struct maybe neck_curve_find_relief(const struct setup *setup)
{
    double kappa_per_mm;

    if (find_kappa(setup, &kappa_per_mm) != STATUS_OK)
        return maybe_absent();
    return maybe_finite(neck_curve_relief_mm(&setup->board, kappa_per_mm));
}
