/* SPDX-License-Identifier: MIT */
#include "model/setup/straight_cut.h"

#include <math.h>

double straight_cut_at(const struct straight_cut *cut, const struct outfit *outfit, int string)
{
    const int first = outfit_step(outfit, cut->treble);
    const int steps = outfit_step(outfit, cut->bass) - first;
    const double share = steps > 0 ? (outfit_step(outfit, string) - first) / (double)steps : 0;

    return cut->treble_mm + (cut->bass_mm - cut->treble_mm) * share;
}

struct straight_cut straight_cut_find(const struct outfit *outfit, const double *change_mm)
{
    struct straight_cut cut = {.treble = 1, .bass = outfit->strings};
    double raise = 0;

    while (!outfit_has_slot(outfit, cut.treble))
        cut.treble++;
    while (!outfit_has_slot(outfit, cut.bass))
        cut.bass--;
    cut.treble_mm = change_mm[cut.treble];
    cut.bass_mm = change_mm[cut.bass];
    for (int s = cut.treble; s <= cut.bass; s++)
        if (outfit_has_slot(outfit, s))
            raise = fmax(raise, change_mm[s] - straight_cut_at(&cut, outfit, s));
    cut.treble_mm += raise;
    cut.bass_mm += raise;
    return cut;
}
