/* SPDX-License-Identifier: MIT */
#include "model/derive/season.h"

#include <math.h>

#include "model/common/assumption.h"
#include "model/derive/derive_climate.h"
#include "model/reading/record_access.h"
#include "model/reading/work_mark.h"
#include "model/setup/neck_curve.h"
#include "model/setup/survey_rod.h"

/* Of the fitted curve; without a board, as it was read. */
static struct maybe relief_of(struct setup *setup, struct place place)
{
    setup_follow(setup, place);
    const struct maybe fitted = neck_curve_find_relief(setup);

    return fitted.given ? fitted : place_read(place, FIELD_RELIEF);
}

static void read_actions(struct place place, struct maybe action_mm[STRINGS_MAX + 1])
{
    for (int s = 1; s <= STRINGS_MAX; s++)
        action_mm[s] = place_read_at(place, FIELD_ACTION, s, 0);
}

/* Whether no move was made after a pass. */
static bool is_left_so(struct place place)
{
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        if (work_mark_line(place, (enum move_kind)kind) > 0)
            return false;
    return !work_mark_is_restrung(place) && !work_mark_is_retuned(place);
}

struct season_visit season_see(const struct record *record, int visit, struct setup *setup)
{
    const struct place last = place_of(record, visit, record_last_read_pass(record, visit));
    struct season_visit seen = {.visit = visit, .emc_pct = derive_emc(record, visit)};

    if (!seen.emc_pct.given)
        return seen;
    seen.found_mm = relief_of(setup, place_of(record, visit, 1));
    seen.left_mm = maybe_sum(relief_of(setup, last), survey_rod_since(last));
    read_actions(place_of(record, visit, 1), seen.found_action_mm);
    if (is_left_so(last))
        read_actions(last, seen.left_action_mm);
    return seen;
}

struct season_walk season_walk_of(const struct record *record)
{
    return (struct season_walk){.place = place_of(record, 0, 0)};
}

static bool is_other_air(const struct season_visit *one, const struct season_visit *other)
{
    return fabs(one->emc_pct.value - other->emc_pct.value) > SEASON_EMC_PCT;
}

static void take_visit(struct season_walk *walk, struct setup *setup)
{
    const struct season_visit seen = season_see(&walk->place.record, walk->place.visit, setup);

    if (!seen.found_mm.given)
        return;
    if (walk->before.left_mm.given)
        walk->answer += (seen.found_mm.value - walk->before.left_mm.value) *
                        (seen.emc_pct.value - walk->before.emc_pct.value);
    if (walk->before.visit > 0 && is_other_air(&walk->before, &seen))
        walk->other_pct = walk->before.emc_pct;
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

/* What a visit shows in other air than the one before it; false where the air is much the same, or
 * not known. */
static bool see_in_other_air(struct season_walk *walk, const struct setup *setup, int visit,
                             struct season_visit *ret_now)
{
    const struct record *record = &walk->place.record;
    struct setup any = *setup;

    if (visit < 2 || !derive_emc(record, visit).given)
        return false;
    if (walk->place.visit >= visit)
        *walk = season_walk_of(record);
    go_on(walk, &any, visit);
    *ret_now = season_see(record, visit, &any);
    return walk->before.visit > 0 && is_other_air(&walk->before, ret_now);
}

/* By how much a change went the way that the air takes the neck. */
static double along(const struct season_walk *walk, const struct season_visit *now,
                    double change_mm)
{
    const bool damper = now->emc_pct.value > walk->before.emc_pct.value;

    return damper == (walk->answer >= 0) ? change_mm : -change_mm;
}

static double relief_along(const struct season_walk *walk, const struct season_visit *now)
{
    const struct maybe *left = &walk->before.left_mm;

    return left->given && now->found_mm.given ? along(walk, now, now->found_mm.value - left->value)
                                              : 0;
}

/* Of the strings that were read in both, on the average. */
static double action_along(const struct season_walk *walk, const struct season_visit *now)
{
    double sum_mm = 0;
    int count = 0;

    for (int s = 1; s <= STRINGS_MAX; s++) {
        const struct maybe *left = &walk->before.left_action_mm[s];

        if (!left->given || !now->found_action_mm[s].given)
            continue;
        sum_mm += now->found_action_mm[s].value - left->value;
        count++;
    }
    return count > 0 ? along(walk, now, sum_mm / count) : 0;
}

bool season_is_other(struct season_walk *walk, const struct setup *setup, int visit)
{
    struct season_visit now;

    return see_in_other_air(walk, setup, visit, &now) && relief_along(walk, &now) > 0;
}

/* Where no home is on file: the middle of the 40 to 60 % that an instrument's room should have. */
#define USUAL_HUMIDITY_PCT 50.0

static struct maybe usual_emc(const struct record *record)
{
    const struct maybe low = record_entered_one(record, FIELD_HOME_HUMIDITY_LOW);
    const struct maybe high = record_entered_one(record, FIELD_HOME_HUMIDITY_HIGH);
    const struct air air = {.temperature_c = assumption_get(ASSUME_HOME_TEMPERATURE)->value,
                            .humidity_pct = low.given && high.given ? (low.value + high.value) / 2
                                                                    : USUAL_HUMIDITY_PCT};
    double emc_pct;

    return moisture_of_air(&air, &emc_pct) == STATUS_OK ? maybe_given(emc_pct) : maybe_absent();
}

int season_of_air(const struct record *record, int visit)
{
    const struct maybe now = derive_emc(record, visit), usual = usual_emc(record);
    const double off = now.value - usual.value;

    if (!now.given || !usual.given || fabs(off) <= SEASON_EMC_PCT)
        return 0;
    return off > 0 ? 1 : -1;
}

bool season_has_moved(struct season_walk *walk, const struct setup *setup, int visit)
{
    struct season_visit now;

    if (!see_in_other_air(walk, setup, visit, &now) ||
        (walk->other_pct.given &&
         fabs(now.emc_pct.value - walk->other_pct.value) <= SEASON_EMC_PCT))
        return false;
    return setup_is_off(fmax(relief_along(walk, &now), 0), setup->relief_tolerance_mm) ||
           setup_is_off(fmax(action_along(walk, &now), 0), setup->action_tolerance_mm);
}
