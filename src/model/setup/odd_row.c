/* SPDX-License-Identifier: MIT */
#include "model/setup/odd_row.h"

#include <math.h>

/* Beyond so many standard deviations a reading is odd. */
#define ODD_GATE 4.0

enum { TOLD_BY_LEAST = 3 };

/* The line by string number through the readings that are left. */
struct line {
    int count;
    double middle, height, slope, square; /* middle: mean string number; square: sum about it */
};

static bool counts(const struct maybe *read, const bool *odd, int string, int but)
{
    return read[string].given && !odd[string] && string != but;
}

static struct line fit(const struct maybe *read, int strings, const bool *odd, int but)
{
    struct line line = {.count = 0};
    double product = 0;

    for (int s = 1; s <= strings; s++)
        if (counts(read, odd, s, but)) {
            line.count++;
            line.middle += s;
            line.height += read[s].value;
        }
    if (line.count == 0)
        return line;
    line.middle /= line.count;
    line.height /= line.count;
    for (int s = 1; s <= strings; s++)
        if (counts(read, odd, s, but)) {
            line.square += (s - line.middle) * (s - line.middle);
            product += (s - line.middle) * (read[s].value - line.height);
        }
    line.slope = line.square > 0 ? product / line.square : 0;
    return line;
}

static double off_of(const struct maybe *read, int strings, double uneven_mm, const bool *odd,
                     int string, double value)
{
    const struct line line = fit(read, strings, odd, string);
    const double away = string - line.middle;

    if (line.count < TOLD_BY_LEAST || !(line.square > 0))
        return 0;
    return (value - line.height - line.slope * away) /
           (uneven_mm * sqrt(1 + 1.0 / line.count + away * away / line.square));
}

void odd_row_find(const struct maybe *read, int strings, double uneven_mm, bool *ret_odd)
{
    int worst;

    for (int s = 1; s <= strings; s++)
        ret_odd[s] = false;
    do {
        double most = ODD_GATE;

        worst = 0;
        for (int s = 1; s <= strings; s++) {
            const double off =
                counts(read, ret_odd, s, 0)
                    ? fabs(off_of(read, strings, uneven_mm, ret_odd, s, read[s].value))
                    : 0;

            if (off > most) {
                most = off;
                worst = s;
            }
        }
        if (worst > 0)
            ret_odd[worst] = true;
    } while (worst > 0);
}

double odd_row_off(const struct maybe *read, int strings, double uneven_mm, int string,
                   double value)
{
    const bool none[STRINGS_MAX + 1] = {false};

    return off_of(read, strings, uneven_mm, none, string, value);
}
