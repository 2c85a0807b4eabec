/* SPDX-License-Identifier: MIT */
#include "model/survey/next_check.h"

#include <math.h>

#include "model/common/assumption.h"
#include "model/derive/season.h"
#include "model/neck/moisture_doubt.h"
#include "model/reading/moment.h"
#include "model/reading/record_access.h"
#include "model/reading/work_line.h"

static struct maybe home_emc(const struct record *record, enum field_id field)
{
    const struct maybe humidity = record_entered_one(record, field);
    const struct air air = {.temperature_c = assumption_get(ASSUME_HOME_TEMPERATURE)->value,
                            .humidity_pct = humidity.value};
    double emc_pct;

    if (!humidity.given || moisture_of_air(&air, &emc_pct) != STATUS_OK)
        return maybe_absent();
    return maybe_given(emc_pct);
}

static struct maybe farther(double from, struct maybe one, struct maybe other)
{
    if (!one.given || !other.given)
        return one.given ? one : other;
    return fabs(one.value - from) >= fabs(other.value - from) ? one : other;
}

/* Where the wood may go from here, and what the relief would do. */
static void find_far(const struct record *record, struct next_check *check)
{
    const struct survey_season *season = &check->season;
    const double shop_pct = check->shop_pct.value;
    const struct maybe home = farther(shop_pct, home_emc(record, FIELD_HOME_HUMIDITY_LOW),
                                      home_emc(record, FIELD_HOME_HUMIDITY_HIGH));

    check->by_home = home.given;
    check->far_pct = home.given ? home
                                : farther(shop_pct, maybe_given(season->dampest_pct),
                                          maybe_given(season->driest_pct));
    if (season->pairs > 0)
        check->relief_change_mm =
            maybe_finite(season->relief_per_pct_mm * (check->far_pct.value - shop_pct));
}

/* How thick and wide the neck is halfway, 0 for what was not measured. */
static struct moisture_lag find_lag(const struct record *record, double *ret_depth_u)
{
    const struct maybe board = record_entered_one(record, FIELD_THICKNESS);
    const struct maybe first = record_entered_one(record, FIELD_SHAFT_FIRST);
    const struct maybe heel = record_entered_one(record, FIELD_SHAFT_HEEL);
    const struct maybe nut = record_entered_one(record, FIELD_WIDTH_NUT);
    const struct maybe join = record_entered_one(record, FIELD_WIDTH_JOIN);
    const bool has_depth = board.given && first.given;
    const double shaft_mm = (first.value + maybe_or(heel, first.value)) / 2;

    *ret_depth_u = has_depth ? 0 : assumption_get(ASSUME_NECK_DEPTH)->u;
    return moisture_lag_assumed(has_depth ? board.value + shaft_mm : 0,
                                nut.given ? (nut.value + maybe_or(join, nut.value)) / 2 : 0);
}

static enum next_check_reason find_reason(const struct record *record,
                                          const struct next_check *check)
{
    const struct survey_season *season = &check->season;

    if (!check->by_home)
        return NEXT_CHECK_HOME_UNKNOWN;
    if (fabs(check->far_pct.value - check->shop_pct.value) <= SEASON_EMC_PCT)
        return NEXT_CHECK_LIKE_SHOP;
    if (check->relief_change_mm.given &&
        fabs(check->relief_change_mm.value) <= record_or_fallback(record, FIELD_RELIEF_TOLERANCE) &&
        season->dampest_pct - season->driest_pct > SEASON_EMC_PCT)
        return NEXT_CHECK_STEADY;
    return NEXT_CHECK_SETTLES;
}

static void find_days(const struct record *record, struct next_check *check)
{
    double depth_u, days;
    const struct moisture_lag lag = find_lag(record, &depth_u);

    if (check->reason == NEXT_CHECK_LIKE_SHOP || check->reason == NEXT_CHECK_STEADY) {
        check->known = true;
        check->days = check->least_days = check->most_days = NEXT_CHECK_YEAR_DAYS;
    } else if (check->reason == NEXT_CHECK_SETTLES && moisture_find_lag(&lag, &days) == STATUS_OK) {
        const double factor = moisture_lag_factor_u(&lag, depth_u);

        check->known = true;
        check->days = fmin(days, NEXT_CHECK_YEAR_DAYS);
        check->least_days = fmin(days / factor, check->days);
        check->most_days = days * factor;
    }
}

static struct maybe later(struct maybe one, struct maybe other)
{
    if (!one.given || !other.given)
        return one.given ? one : other;
    return one.value >= other.value ? one : other;
}

/* When it left the air of the shop. */
static struct maybe find_end(const struct record *record, int visit)
{
    const struct maybe handed = moment_of_day(record, FIELD_VISIT_HANDED_OVER, visit);
    struct maybe end = moment_of_day(record, FIELD_VISIT_DATE, visit);

    if (handed.given)
        return handed;
    for (int pass = record_last_pass(record, visit); pass > 0; pass--) {
        const struct reading_key read = reading_key_pass(FIELD_PASS_TIME, visit, pass);

        end = later(end, moment_of(record, &read));
    }
    for (int line = record_last_work(record, visit); line > 0; line--) {
        const struct reading_key done = work_key(WORK_TIME, visit, line);

        end = later(end, moment_of(record, &done));
    }
    return end;
}

struct maybe next_check_home_day(const struct record *record, int visit)
{
    const struct maybe end = find_end(record, visit);

    return end.given ? maybe_given(floor(end.value)) : maybe_absent();
}

void next_check_find(const struct record *record, int visit, struct next_check *ret_check)
{
    const struct record then = record_as_of(record, visit);
    struct next_check check = {.reason = NEXT_CHECK_SHOP_UNKNOWN};

    survey_season_find(&then, visit, &check.season);
    check.shop_pct = check.season.emc_pct;
    if (check.shop_pct.given) {
        find_far(&then, &check);
        check.reason = find_reason(&then, &check);
        find_days(&then, &check);
    }
    const struct maybe home = next_check_home_day(&then, visit);
    if (check.known && home.given)
        check.day_number = maybe_given(home.value + round(check.days));
    *ret_check = check;
}
