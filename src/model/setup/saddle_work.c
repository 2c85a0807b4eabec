/* SPDX-License-Identifier: MIT */
#include "model/setup/saddle_work.h"

#include <math.h>

/* The straight line that comes nearest to all changes (least squares). */
static struct straight_cut find_nearest(const struct outfit *outfit, const double *change_mm)
{
    struct straight_cut line = straight_cut_find(outfit, change_mm);
    const int first = outfit_step(outfit, line.treble), last = outfit_step(outfit, line.bass);
    double count = 0, x = 0, y = 0, xx = 0, xy = 0;

    for (int s = line.treble; s <= line.bass; s++) {
        const double step = outfit_step(outfit, s);

        if (!outfit_has_slot(outfit, s))
            continue;
        count++;
        x += step;
        y += change_mm[s];
        xx += step * step;
        xy += step * change_mm[s];
    }
    const double spread = count * xx - x * x;
    const double slope = spread > 0 ? (count * xy - x * y) / spread : 0;
    line.treble_mm = y / count + slope * (first - x / count);
    line.bass_mm = y / count + slope * (last - x / count);
    return line;
}

/* Nothing is put on a saddle's top: no string may be left lower than can be told. */
static void lift(struct straight_cut *line, const struct outfit *outfit, const double *change_mm,
                 const double *u_mm)
{
    double lift_mm = 0;

    for (int s = line->treble; s <= line->bass; s++)
        if (outfit_has_slot(outfit, s))
            lift_mm = fmax(lift_mm, change_mm[s] - u_mm[s] - straight_cut_at(line, outfit, s));
    line->treble_mm += lift_mm;
    line->bass_mm += lift_mm;
}

/* Less than its ± is no amount for a hand: what the string there asks for, if that is more. */
static double end_at(double line_mm, double change_mm, double u_mm)
{
    if (fabs(line_mm) > u_mm)
        return line_mm;
    return fabs(change_mm) > u_mm ? change_mm : 0;
}

struct saddle_work saddle_work_find(const struct outfit *outfit, const double *change_mm,
                                    const double *u_mm)
{
    struct saddle_work work = {.known = true, .bottom = find_nearest(outfit, change_mm)};
    struct straight_cut *bottom = &work.bottom;

    lift(bottom, outfit, change_mm, u_mm);
    bottom->treble_mm = end_at(bottom->treble_mm, change_mm[bottom->treble], u_mm[bottom->treble]);
    bottom->bass_mm = end_at(bottom->bass_mm, change_mm[bottom->bass], u_mm[bottom->bass]);
    for (int s = bottom->treble; s <= bottom->bass; s++) {
        const double over_mm = straight_cut_at(bottom, outfit, s) - change_mm[s];

        if (outfit_has_slot(outfit, s) && over_mm > u_mm[s])
            work.top_mm[s] = -over_mm;
    }
    return work;
}

double saddle_work_at(const struct saddle_work *work, const struct outfit *outfit, int string)
{
    return straight_cut_at(&work->bottom, outfit, string) + work->top_mm[string];
}

int saddle_work_next_top(const struct saddle_work *work, int string)
{
    for (int s = string - 1; s >= 1; s--)
        if (work->top_mm[s] < 0)
            return s;
    return 0;
}
