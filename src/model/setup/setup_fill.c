/* SPDX-License-Identifier: MIT */
#include "model/setup/setup_fill.h"

/* The nearest string from `string` on that others may be taken from; 0 for none. */
static int find_sure(const struct maybe *read, const bool *unsure, int strings, int string, int by)
{
    for (; string >= 1 && string <= strings; string += by)
        if (read[string].given && !unsure[string])
            return string;
    return 0;
}

static enum known fill_string(const struct maybe *read, const bool *unsure,
                              const struct outfit *outfit, int string, double *ret_value)
{
    const int below = find_sure(read, unsure, outfit->strings, string, -1);
    const int above = find_sure(read, unsure, outfit->strings, string, 1);

    if (read[string].given) {
        *ret_value = read[string].value;
        return KNOWN_READ;
    }
    if (!below && !above)
        return KNOWN_ABSENT;
    const double from = read[below ? below : above].value, to = read[above ? above : below].value;
    double share = 0;

    if (below && above && below != above) {
        const int from_step = outfit_step(outfit, below);

        share = (double)(outfit_step(outfit, string) - from_step) /
                (outfit_step(outfit, above) - from_step);
    }
    *ret_value = from + share * (to - from);
    return KNOWN_INTERPOLATED;
}

bool setup_fill_strings(const struct maybe *read, const bool *unsure, const struct outfit *outfit,
                        double *ret_value, enum known *ret_known)
{
    bool any = false;

    for (int s = 1; s <= outfit->strings; s++) {
        const int first = outfit_first(outfit, s);
        const int as = read[s].given ? s : first;

        ret_known[s] = fill_string(read, unsure, outfit, as, &ret_value[s]);
        if (ret_known[s] == KNOWN_READ && as != s)
            ret_known[s] = KNOWN_INTERPOLATED;
        any = any || read[s].given;
    }
    return any;
}

bool setup_fill_gaps(const struct setup *setup, double *ret_mm, enum known *ret_known)
{
    return setup_fill_strings(setup->nut_gap_mm, setup->nut_gap_unsure, &setup->outfit, ret_mm,
                              ret_known);
}

bool setup_fill_actions(const struct setup *setup, double *ret_mm, enum known *ret_known)
{
    const struct outfit *outfit = &setup->outfit;
    const bool any =
        setup_fill_strings(setup->action_mm, setup->action_unsure, outfit, ret_mm, ret_known);

    for (int s = 1; s <= outfit->strings; s++)
        if (outfit->from_fret[s] > 0 && !setup->action_mm[s].given &&
            !setup->action_mm[outfit_first(outfit, s)].given)
            ret_known[s] = KNOWN_ABSENT;
    return any;
}
