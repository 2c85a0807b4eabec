/* SPDX-License-Identifier: MIT */
#include "sheet/sheet_season.h"

#include <math.h>
#include <string.h>

#include "base/num.h"
#include "model/derive.h"
#include "model/derive_climate.h"
#include "model/record_walk.h"

/* Sums over pairs of visits. */
struct pairs {
    double product, square;
};

static struct entered find_relief(const struct record *record, int visit, int pass)
{
    struct entered relief = record_entered(record, reading_key_pass(FIELD_RELIEF, visit, pass));
    struct findings unused = {.count = 0};
    struct setup setup;

    if (relief.given)
        return relief;
    setup_read(&setup, record, visit, pass, &unused);
    return neck_curve_find_relief(&setup);
}

static struct entered first_relief(const struct record *record, int visit)
{
    const struct entered none = {.given = false};
    int at = visit, pass = 0;

    if (!record_next_pass(record, &at, &pass) || at != visit)
        return none;
    return find_relief(record, visit, pass);
}

static struct entered last_relief(const struct record *record, int visit)
{
    const struct entered none = {.given = false};
    const int pass = record_last_pass(record, visit);

    return pass > 0 ? find_relief(record, visit, pass) : none;
}

static void add_pair(const struct record *record, int before, int after, double emc_change_pct,
                     struct pairs *pairs, struct sheet_season *season)
{
    const struct entered from = last_relief(record, before), to = first_relief(record, after);

    if (!from.given || !to.given || fabs(emc_change_pct) < SHEET_SEASON_LEAST_PCT)
        return;
    pairs->product += (to.value - from.value) * emc_change_pct;
    pairs->square += emc_change_pct * emc_change_pct;
    season->pairs++;
    season->before = before;
    season->after = after;
    season->emc_change_pct = emc_change_pct;
    season->relief_change_mm = to.value - from.value;
}

void sheet_season_find(const struct record *record, int visit, struct sheet_season *ret_season)
{
    struct sheet_season season = {.known = false};
    struct pairs pairs = {.square = 0};
    double emc, emc_before = 0;
    bool any = false;

    for (int at = 0, before = 0; record_next_visit(record, &at) && at <= visit; before = at) {
        if (!derive_emc(record, at, &emc))
            continue;
        if (any && before > 0 && derive_emc(record, before, &emc_before))
            add_pair(record, before, at, emc - emc_before, &pairs, &season);
        season.driest_pct = any ? fmin(season.driest_pct, emc) : emc;
        season.dampest_pct = any ? fmax(season.dampest_pct, emc) : emc;
        any = true;
    }
    season.known = derive_emc(record, visit, &season.emc_pct);
    if (season.pairs > 0)
        season.relief_per_pct_mm = pairs.product / pairs.square;
    *ret_season = season;
}

bool sheet_season_month(const char *date, int months, int *ret_year, int *ret_month)
{
    int year, month;

    if (strlen(date) != 10 || num_count(date, 4, 9000, &year) != STATUS_OK ||
        num_count(date + 5, 2, 12, &month) != STATUS_OK || month < 1)
        return false;
    *ret_year = year + (month - 1 + months) / 12;
    *ret_month = (month - 1 + months) % 12 + 1;
    return true;
}
