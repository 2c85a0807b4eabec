/* SPDX-License-Identifier: MIT */
#include "model/survey/survey_season.h"

#include <math.h>

#include "model/derive/derive.h"
#include "model/derive/derive_climate.h"
#include "model/reading/place.h"
#include "model/setup/survey_rod.h"

/* Sums over pairs of visits. */
struct pairs {
    double product, square;
};

static struct maybe find_relief(struct place place)
{
    struct maybe relief = place_read(place, FIELD_RELIEF);
    struct findings unused = {.count = 0};
    struct setup setup;

    if (relief.given)
        return relief;
    setup_read(&setup, place, &unused);
    return neck_curve_find_relief(&setup);
}

static struct maybe first_relief(const struct record *record, int visit)
{
    struct place place = place_of(record, visit, 0);

    return place_next(&place) && place.visit == visit ? find_relief(place) : maybe_absent();
}

static struct maybe last_relief(const struct record *record, int visit)
{
    const struct place last = place_of(record, visit, record_last_read_pass(record, visit));
    const struct maybe relief = last.pass > 0 ? find_relief(last) : maybe_absent();

    return relief.given ? maybe_sum(relief, survey_rod_since(last)) : relief;
}

static void add_pair(const struct record *record, int before, int after, double emc_change_pct,
                     struct pairs *pairs, struct survey_season *season)
{
    const struct maybe from = last_relief(record, before), to = first_relief(record, after);

    if (!from.given || !to.given || fabs(emc_change_pct) < SURVEY_SEASON_LEAST_PCT)
        return;
    pairs->product += (to.value - from.value) * emc_change_pct;
    pairs->square += emc_change_pct * emc_change_pct;
    season->pairs++;
    season->before = before;
    season->after = after;
    season->emc_change_pct = emc_change_pct;
    season->relief_change_mm = to.value - from.value;
}

void survey_season_find(const struct record *record, int visit, struct survey_season *ret_season)
{
    struct survey_season season = {.emc_pct = derive_emc(record, visit)};
    struct pairs pairs = {.square = 0};
    struct maybe emc_before = maybe_absent();
    bool any = false;

    for (int at = 0, before = 0; record_next_visit(record, &at) && at <= visit; before = at) {
        const struct maybe emc = derive_emc(record, at);

        if (emc.given && emc_before.given)
            add_pair(record, before, at, emc.value - emc_before.value, &pairs, &season);
        emc_before = emc;
        if (!emc.given)
            continue;
        season.driest_pct = any ? fmin(season.driest_pct, emc.value) : emc.value;
        season.dampest_pct = any ? fmax(season.dampest_pct, emc.value) : emc.value;
        any = true;
    }
    if (season.pairs > 0)
        season.relief_per_pct_mm = pairs.product / pairs.square;
    *ret_season = season;
}
