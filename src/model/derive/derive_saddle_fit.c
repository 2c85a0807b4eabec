/* SPDX-License-Identifier: MIT */
#include "model/derive/derive_saddle_fit.h"

#include "model/derive/string_places.h"

static void find_places(const struct record *record, const struct derived *derived,
                        double ret_across[STRINGS_MAX + 1])
{
    const struct outfit *outfit = &derived->setup.outfit;

    if (string_places_saddle(record, derived->string, outfit, ret_across))
        return;
    for (int s = 1; s <= outfit->strings; s++)
        ret_across[s] = outfit_step(outfit, s);
}

struct saddle_fit derive_saddle_fit(const struct record *record, const struct derived *derived,
                                    const struct maybe wanted_mm[STRINGS_MAX + 1])
{
    const struct setup *setup = &derived->setup;
    struct saddle_contact contacts[2 * STRINGS_MAX];
    double across[STRINGS_MAX + 1];
    int count = 0;

    if (setup->bridge != BRIDGE_BLANK)
        return (struct saddle_fit){.known = false};
    find_places(record, derived, across);
    for (int s = 1; s <= setup->board.strings; s++) {
        const struct maybe now = setup->setback[s].mm;

        if (now.given)
            contacts[count++] = (struct saddle_contact){across[s], now.value};
        if (wanted_mm[s].given)
            contacts[count++] = (struct saddle_contact){across[s], wanted_mm[s].value};
    }
    return saddle_fit_find(maybe_or(record_entered_one(record, FIELD_SADDLE_WIDTH), 0), contacts,
                           count);
}
