/* SPDX-License-Identifier: MIT */
#include "model/frets/layout.h"

#include <math.h>
#include <stdbool.h>
#include <stddef.h>

#include "model/common/check.h"

enum status layout_list_frets(int last_fret, const double *x_mm, struct layout_fret *ret_fret)
{
    if (!x_mm)
        return STATUS_ABSENT;
    if (last_fret < 1 || last_fret > LAYOUT_FRETS_MAX || !(x_mm[0] == 0))
        return STATUS_DOMAIN;
    for (int n = 1; n <= last_fret; n++)
        if (!isfinite(x_mm[n]) || !(x_mm[n] > x_mm[n - 1]))
            return STATUS_DOMAIN;
    ret_fret[0] = (struct layout_fret){0};
    for (int n = 1; n <= last_fret; n++)
        ret_fret[n] = (struct layout_fret){
            .from_nut_mm = x_mm[n],
            .from_previous_mm = x_mm[n] - x_mm[n - 1],
            /* Halved first: the sum of two huge stations could overflow. */
            .dot_mm = x_mm[n - 1] / 2 + x_mm[n] / 2,
        };
    return STATUS_OK;
}

static enum status check_gauges(int strings, const double *gauge_mm)
{
    if (!gauge_mm)
        return STATUS_ABSENT;
    if (strings < 1 || strings > LAYOUT_STRINGS_MAX)
        return STATUS_DOMAIN;
    for (int i = 0; i < strings; i++)
        if (!check_is_positive(gauge_mm[i]))
            return STATUS_DOMAIN;
    return STATUS_OK;
}

/* The air between string edges when the centres are spread over span_mm with equal gaps. */
static double equal_gap(double span_mm, int strings, const double *gauge_mm)
{
    double taken_mm = (gauge_mm[0] + gauge_mm[strings - 1]) / 2;
    for (int i = 1; i < strings - 1; i++)
        taken_mm += gauge_mm[i];
    return (span_mm - taken_mm) / (strings - 1);
}

/* Centre to centre from string i to the one on its bass side. */
static double step_mm(double span_mm, enum layout_rule rule, int strings, const double *gauge_mm,
                      int i, double gap_mm)
{
    if (rule == LAYOUT_EQUAL_CENTRES)
        return span_mm / (strings - 1);
    return gap_mm + (gauge_mm[i] + gauge_mm[i + 1]) / 2;
}

static bool strings_touch(double span_mm, enum layout_rule rule, int strings,
                          const double *gauge_mm)
{
    const double gap_mm = equal_gap(span_mm, strings, gauge_mm);
    for (int i = 0; i < strings - 1; i++) {
        const double step = step_mm(span_mm, rule, strings, gauge_mm, i, gap_mm);
        if (!(step > (gauge_mm[i] + gauge_mm[i + 1]) / 2))
            return true;
    }
    return false;
}

/* Fills the centres from the bass string at `bass_mm` up to the treble string exactly at
 * bass_mm + span_mm. */
static enum status spread_centres(double bass_mm, double span_mm, enum layout_rule rule,
                                  int strings, const double *gauge_mm, double *ret_centre_mm)
{
    if (!isfinite(bass_mm + span_mm) || strings_touch(span_mm, rule, strings, gauge_mm))
        return STATUS_RANGE;
    const double gap_mm = equal_gap(span_mm, strings, gauge_mm);
    double centre_mm = bass_mm;
    ret_centre_mm[strings - 1] = bass_mm;
    for (int i = strings - 2; i > 0; i--) {
        centre_mm += step_mm(span_mm, rule, strings, gauge_mm, i, gap_mm);
        ret_centre_mm[i] = centre_mm;
    }
    ret_centre_mm[0] = bass_mm + span_mm;
    return STATUS_OK;
}

enum status layout_spread_nut(double width_mm, double margin_bass_mm, double margin_treble_mm,
                              enum layout_rule rule, int strings, const double *gauge_mm,
                              double *ret_centre_mm)
{
    enum status status = check_gauges(strings, gauge_mm);
    if (status)
        return status;
    if (!check_is_positive(width_mm) || !check_is_not_negative(margin_bass_mm) ||
        !check_is_not_negative(margin_treble_mm))
        return STATUS_DOMAIN;
    const double room_mm = width_mm - margin_bass_mm - margin_treble_mm;
    if (strings == 1) {
        if (!(room_mm >= gauge_mm[0]))
            return STATUS_RANGE;
        ret_centre_mm[0] = margin_bass_mm + room_mm / 2;
        return STATUS_OK;
    }
    const double bass_mm = margin_bass_mm + gauge_mm[strings - 1] / 2;
    const double span_mm = room_mm - (gauge_mm[0] + gauge_mm[strings - 1]) / 2;
    return spread_centres(bass_mm, span_mm, rule, strings, gauge_mm, ret_centre_mm);
}

enum status layout_spread_saddle(double span_mm, enum layout_rule rule, int strings,
                                 const double *gauge_mm, double *ret_centre_mm)
{
    enum status status = check_gauges(strings, gauge_mm);
    if (status)
        return status;
    if (strings < 2 || !check_is_positive(span_mm))
        return STATUS_DOMAIN;
    return spread_centres(0, span_mm, rule, strings, gauge_mm, ret_centre_mm);
}
