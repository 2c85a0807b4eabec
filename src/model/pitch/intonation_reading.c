/* SPDX-License-Identifier: MIT */
#include "model/pitch/intonation_reading.h"

#include <math.h>

#include "model/common/least_squares.h"

/* 1200/ln 2 as the formula in the header prints it, 2 parts in a million below the exact
 * value, so that whoever checks by hand gets the same figures. */
#define CENTS_PER_SHARE 1731.23

enum status intonation_setback_change(double open_length_mm, double fret_mm, double cents,
                                      double *ret_change_mm)
{
    double k = exp2(-cents / 1200);
    double fretted = open_length_mm - fret_mm;
    double change = open_length_mm * fretted * (k - 1) / (fretted - k * open_length_mm);

    if (!(fret_mm > 0) || !(fretted > 0) || !(k * open_length_mm > fretted) || !isfinite(change))
        return STATUS_DOMAIN;
    *ret_change_mm = change;
    return STATUS_OK;
}

/* The slopes of a fret's cents in s and v. */
static void add_reading(struct least_squares *sum, double scale_mm,
                        const struct fret_cents *reading)
{
    double per_mm = CENTS_PER_SHARE / scale_mm;

    least_squares_add(sum, per_mm * (1 - exp2(reading->fret / 12.0)), -per_mm, reading->cents);
}

/* What is left is summed from the residuals, as the difference of large sums would lose it. */
static double cents_left(double scale_mm, const struct fret_cents *readings, int count,
                         const struct intonation_ends *change)
{
    double squares = 0;

    for (int i = 0; i < count; i++) {
        double s_slope = 1 - exp2(readings[i].fret / 12.0);
        double left =
            readings[i].cents +
            CENTS_PER_SHARE / scale_mm * (change->setback_mm * s_slope - change->nut_advance_mm);
        squares += left * left;
    }
    return sqrt(squares / count);
}

/* The diagonal of the inverse normal matrix: JCGM 100, H.3. */
static struct intonation_ends answer_to_readings(const struct least_squares *sum)
{
    double det = sum->aa * sum->bb - sum->ab * sum->ab;

    return (struct intonation_ends){sqrt(sum->bb / det), sqrt(sum->aa / det)};
}

enum status intonation_fit_readings(double scale_mm, const struct fret_cents *readings, int count,
                                    struct intonation_fit *ret_fit)
{
    struct least_squares sum = {0};
    struct intonation_ends change;

    if (!(scale_mm > 0) || !isfinite(scale_mm) || count < 0)
        return STATUS_DOMAIN;
    for (int i = 0; i < count; i++) {
        if (readings[i].fret < 1 || readings[i].fret > INTONATION_FRETS_MAX ||
            !isfinite(readings[i].cents))
            return STATUS_DOMAIN;
        add_reading(&sum, scale_mm, &readings[i]);
    }

    enum status status = least_squares_solve(&sum, &change.setback_mm, &change.nut_advance_mm);

    if (status != STATUS_OK)
        return status;

    double left = cents_left(scale_mm, readings, count, &change);

    if (!isfinite(left))
        return STATUS_DOMAIN;
    *ret_fit = (struct intonation_fit){change, left, answer_to_readings(&sum)};
    return STATUS_OK;
}
