/* SPDX-License-Identifier: MIT */
#include "model/derive/season.h"

#include <math.h>

#include "model/derive/derive_climate.h"
#include "model/setup/neck_curve.h"
#include "model/reading/place.h"
#include "model/setup/setup.h"

/* A visit as the seasons see it. */
struct seen {
    bool known;
    double emc_pct, found_mm, left_mm; /* the relief in its first and in its last pass */
};

/* `setup` is any one of the record's. */
static struct maybe relief_of(struct setup *setup, struct place place)
{
    setup_read_relief(setup, place);
    return neck_curve_find_relief(setup);
}

static struct seen see(const struct record *record, int visit, struct setup *setup)
{
    struct seen seen = {.known = false};

    const struct maybe emc = derive_emc(record, visit);

    if (!emc.given)
        return seen;
    const struct maybe found = relief_of(setup, place_of(record, visit, 1));
    const struct maybe left =
        relief_of(setup, place_of(record, visit, record_last_read_pass(record, visit)));
    seen.emc_pct = emc.value;
    seen.known = found.given && left.given;
    seen.found_mm = found.value;
    seen.left_mm = left.value;
    return seen;
}

bool season_is_other(const struct record *record, int visit)
{
    struct seen before = {.known = false};
    struct place place = place_of(record, 0, 0);
    struct findings unused = {.count = 0};
    struct setup setup;
    double answer = 0; /* sum of the changes of relief times those of moisture */

    if (visit < 2 || !derive_emc(record, visit).given)
        return false;
    setup_read(&setup, place, &unused);
    for (int v = 0; place_next(&place) && place.visit < visit;) {
        if (place.visit == v)
            continue;
        v = place.visit;
        const struct seen seen = see(record, v, &setup);

        if (seen.known && before.known)
            answer += (seen.found_mm - before.left_mm) * (seen.emc_pct - before.emc_pct);
        if (seen.known)
            before = seen;
    }
    const struct seen now = see(record, visit, &setup);
    if (!before.known || !now.known)
        return false;
    const double moist = now.emc_pct - before.emc_pct;
    return fabs(moist) > SEASON_EMC_PCT &&
           (now.found_mm - before.left_mm) * moist * (answer < 0 ? -1 : 1) > 0;
}
