/* SPDX-License-Identifier: MIT */
#include "model/derive/season.h"

#include <math.h>

#include "model/derive/derive_climate.h"
#include "model/setup/neck_curve.h"
#include "model/setup/survey_rod.h"

/* Of the fitted curve; without a board, as it was read. */
static struct maybe relief_of(struct setup *setup, struct place place)
{
    setup_follow(setup, place);
    const struct maybe fitted = neck_curve_find_relief(setup);

    return fitted.given ? fitted : place_read(place, FIELD_RELIEF);
}

struct season_visit season_see(const struct record *record, int visit, struct setup *setup)
{
    const struct place last = place_of(record, visit, record_last_read_pass(record, visit));
    struct season_visit seen = {.visit = visit, .emc_pct = derive_emc(record, visit)};

    if (!seen.emc_pct.given)
        return seen;
    seen.found_mm = relief_of(setup, place_of(record, visit, 1));
    seen.left_mm = maybe_sum(relief_of(setup, last), survey_rod_since(last));
    return seen;
}

struct season_walk season_walk_of(const struct record *record)
{
    return (struct season_walk){.place = place_of(record, 0, 0)};
}

static void take_visit(struct season_walk *walk, struct setup *setup)
{
    const struct season_visit seen = season_see(&walk->place.record, walk->place.visit, setup);

    if (!seen.found_mm.given)
        return;
    if (walk->before.left_mm.given)
        walk->answer += (seen.found_mm.value - walk->before.left_mm.value) *
                        (seen.emc_pct.value - walk->before.emc_pct.value);
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

void season_walk_to(struct season_walk *walk, const struct setup *setup, int visit)
{
    struct setup any = *setup;

    go_on(walk, &any, visit);
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
    const struct season_visit *before = &walk->before, now = season_see(record, visit, &any);
    if (!before->left_mm.given || !now.found_mm.given)
        return false;
    const double moist = now.emc_pct.value - before->emc_pct.value;
    return fabs(moist) > SEASON_EMC_PCT &&
           (now.found_mm.value - before->left_mm.value) * moist * (walk->answer < 0 ? -1 : 1) > 0;
}
