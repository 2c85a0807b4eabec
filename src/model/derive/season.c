/* SPDX-License-Identifier: MIT */
#include "model/derive/season.h"

#include <math.h>

#include "model/derive/derive_climate.h"
#include "model/setup/neck_curve.h"
#include "model/setup/survey_rod.h"

static struct maybe relief_of(struct setup *setup, struct place place)
{
    setup_follow(setup, place);
    return neck_curve_find_relief(setup);
}

static struct season_visit see(const struct record *record, int visit, struct setup *setup)
{
    struct season_visit seen = {.known = false};

    const struct maybe emc = derive_emc(record, visit);

    if (!emc.given)
        return seen;
    const struct maybe found = relief_of(setup, place_of(record, visit, 1));
    const struct place last = place_of(record, visit, record_last_read_pass(record, visit));
    seen.emc_pct = emc.value;
    seen.known = found.given;
    seen.found_mm = found.value;
    seen.left = maybe_sum(relief_of(setup, last), survey_rod_since(last));
    return seen;
}

struct season_walk season_walk_of(const struct record *record)
{
    return (struct season_walk){.place = place_of(record, 0, 0)};
}

static void take_visit(struct season_walk *walk, struct setup *setup)
{
    const struct season_visit seen = see(&walk->place.record, walk->place.visit, setup);

    if (seen.known && walk->before.left.given)
        walk->answer +=
            (seen.found_mm - walk->before.left.value) * (seen.emc_pct - walk->before.emc_pct);
    if (seen.known)
        walk->before = seen;
}

/* Takes in the visits with a pass that are before `visit` and not taken in yet. */
static void go_on(struct season_walk *walk, struct setup *setup, int visit)
{
    struct place next = walk->place;

    while (place_next(&next) && next.visit < visit) {
        const bool other = next.visit != walk->place.visit;

        walk->place = next;
        if (other)
            take_visit(walk, setup);
    }
}

bool season_is_other(struct season_walk *walk, const struct setup *setup, int visit)
{
    const struct record *record = &walk->place.record;
    struct setup any = *setup;

    if (visit < 2 || !derive_emc(record, visit).given)
        return false;
    if (walk->place.visit >= visit)
        *walk = season_walk_of(record);
    go_on(walk, &any, visit);
    const struct season_visit *before = &walk->before, now = see(record, visit, &any);
    if (!before->left.given || !now.known)
        return false;
    const double moist = now.emc_pct - before->emc_pct;
    return fabs(moist) > SEASON_EMC_PCT &&
           (now.found_mm - before->left.value) * moist * (walk->answer < 0 ? -1 : 1) > 0;
}
