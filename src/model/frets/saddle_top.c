/* SPDX-License-Identifier: MIT */
#include "model/frets/saddle_top.h"

#include <math.h>

double saddle_top_radius_at_mm(const struct saddle_top_plan *plan, double x_mm)
{
    return plan->radius_nut_mm + (plan->radius_end_mm - plan->radius_nut_mm) * x_mm / plan->end_mm;
}

/* How far the crown of a fret under a string lies below the crest. No number beyond the cone. */
static double drop_mm(const struct saddle_top_plan *plan, int string, int fret)
{
    const struct board *board = plan->board;
    const double start = board->start_mm[string], x = start + board->station_mm[string][fret];
    const double share = x / (start + board->contact_mm[string]);
    const double y =
        plan->nut_mm[string] + (plan->saddle_mm[string] - plan->nut_mm[string]) * share;
    const double on_middle = x * board->scale_mm[LANE_MIDDLE] / board_scale_mm(board, string);
    const double radius = saddle_top_radius_at_mm(plan, on_middle);

    if (plan->radius_nut_mm == 0)
        return 0;
    return radius > 0 ? radius - sqrt(radius * radius - y * y) : (double)NAN;
}

/* Where a string's chord meets the saddle, over the crest. */
static double chord_mm(const struct saddle_top_plan *plan, int string)
{
    const struct board *board = plan->board;
    const double low = board->station_mm[string][board->end_low];
    const double high = board->station_mm[string][board->end_high];
    const double z_low = -drop_mm(plan, string, board->end_low);
    const double z_high = -drop_mm(plan, string, board->end_high);

    return z_low + (z_high - z_low) * (board->contact_mm[string] - low) / (high - low);
}

enum status saddle_top_heights(const struct saddle_top_plan *plan,
                               double ret_over_mm[STRINGS_MAX + 1])
{
    const int strings = plan->board->strings;
    double top[STRINGS_MAX + 1] = {0};

    if (plan->treble < 1 || plan->bass > strings || plan->treble >= plan->bass ||
        !plan->board->has_curve || (plan->radius_nut_mm == 0) != (plan->radius_end_mm == 0) ||
        !(plan->end_mm > 0))
        return STATUS_DOMAIN;
    const double treble = plan->saddle_mm[plan->treble], bass = plan->saddle_mm[plan->bass];
    for (int s = 1; s <= strings; s++) {
        top[s] = plan->over_chord_mm[s] + chord_mm(plan, s);
        if (!isfinite(top[s]))
            return STATUS_DOMAIN;
    }
    if (!isfinite(treble - bass) || treble == bass)
        return STATUS_DOMAIN;
    for (int s = 1; s <= strings; s++) {
        const double to_treble = (plan->saddle_mm[s] - bass) / (treble - bass);

        ret_over_mm[s] =
            top[s] - (top[plan->bass] + (top[plan->treble] - top[plan->bass]) * to_treble);
        if (!isfinite(ret_over_mm[s]))
            return STATUS_DOMAIN;
    }
    return STATUS_OK;
}

struct maybe saddle_top_circle_mm(int treble, int bass, const double saddle_mm[STRINGS_MAX + 1],
                                  const double over_mm[STRINGS_MAX + 1])
{
    const double flat_mm = 1e-6; /* rounding */
    const double middle = (saddle_mm[treble] + saddle_mm[bass]) / 2;
    const double half = fabs(saddle_mm[treble] - saddle_mm[bass]) / 2;
    double product = 0, square = 0;

    for (int s = treble + 1; s < bass; s++) {
        const double y = saddle_mm[s] - middle, h = over_mm[s];

        product += h * (half * half - y * y - h * h);
        square += h * h;
    }
    if (!(square > flat_mm * flat_mm))
        return maybe_absent();
    const double depth = product / (2 * square), radius = sqrt(half * half + depth * depth);
    return radius > SADDLE_TOP_FLAT_MM ? maybe_absent() : maybe_finite(copysign(radius, depth));
}
