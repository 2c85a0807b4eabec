/* SPDX-License-Identifier: MIT */
#include "model/pitch/saddle_fit.h"

#include <math.h>

/* How wide a strip at this slant, mm per measure across, has to be. */
static double width_at(const struct saddle_contact *contacts, int count, double slant)
{
    double low = (double)INFINITY, high = -(double)INFINITY;

    for (int i = 0; i < count; i++) {
        const double off = contacts[i].setback_mm - slant * contacts[i].across;

        low = fmin(low, off);
        high = fmax(high, off);
    }
    return high - low;
}

/* The narrowest strip has two of the contacts on one of its edges. */
double saddle_fit_strip(const struct saddle_contact *contacts, int count)
{
    double narrowest = count > 0 ? width_at(contacts, count, 0) : 0;

    for (int i = 0; i < count; i++)
        for (int k = 0; k < i; k++) {
            const double across = contacts[i].across - contacts[k].across;

            if (fabs(across) > 0)
                narrowest =
                    fmin(narrowest,
                         width_at(contacts, count,
                                  (contacts[i].setback_mm - contacts[k].setback_mm) / across));
        }
    return narrowest;
}

struct saddle_fit saddle_fit_find(double width_mm, const struct saddle_contact *contacts, int count)
{
    if (!(width_mm > 0) || count == 0)
        return (struct saddle_fit){.known = false};
    return (struct saddle_fit){.known = true,
                               .width_mm = width_mm,
                               .needed_mm = saddle_fit_strip(contacts, count),
                               .room_mm = fmax(width_mm - SADDLE_CROWN_MM, 0)};
}
