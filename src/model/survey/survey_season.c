/* SPDX-License-Identifier: MIT */
#include "model/survey/survey_season.h"

#include <math.h>

#include "model/derive/derive_climate.h"
#include "model/derive/season.h"

/* Sums over pairs of visits. */
struct pairs {
    double product, square;
};

static void add_pair(const struct season_visit *before, const struct season_visit *after,
                     struct pairs *pairs, struct survey_season *season)
{
    const double emc_change_pct = after->emc_pct.value - before->emc_pct.value;
    const double relief_change_mm = after->found_mm.value - before->left_mm.value;

    if (fabs(emc_change_pct) < SURVEY_SEASON_LEAST_PCT)
        return;
    pairs->product += relief_change_mm * emc_change_pct;
    pairs->square += emc_change_pct * emc_change_pct;
    season->pairs++;
    season->before = before->visit;
    season->after = after->visit;
    season->emc_change_pct = emc_change_pct;
    season->relief_change_mm = relief_change_mm;
}

void survey_season_find(const struct record *record, int visit, struct survey_season *ret_season)
{
    struct survey_season season = {.emc_pct = derive_emc(record, visit)};
    struct season_visit before = {.visit = 0};
    struct pairs pairs = {.square = 0};
    struct findings unused = {.count = 0};
    struct setup setup;
    bool any = false;

    setup_read(&setup, place_of(record, visit, 0), &unused);
    for (int at = 0; record_next_visit(record, &at) && at <= visit;) {
        const struct season_visit now = season_see(record, at, &setup);
        const double emc_pct = now.emc_pct.value;

        if (before.left_mm.given && now.found_mm.given)
            add_pair(&before, &now, &pairs, &season);
        before = now;
        if (!now.emc_pct.given)
            continue;
        season.driest_pct = any ? fmin(season.driest_pct, emc_pct) : emc_pct;
        season.dampest_pct = any ? fmax(season.dampest_pct, emc_pct) : emc_pct;
        any = true;
    }
    if (season.pairs > 0)
        season.relief_per_pct_mm = pairs.product / pairs.square;
    *ret_season = season;
}
