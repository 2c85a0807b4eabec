/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SURVEY_NEXT_CHECK_H
#define SILLET_MODEL_SURVEY_NEXT_CHECK_H

#include <stdbool.h>

#include "model/common/day.h"
#include "model/reading/record.h"
#include "model/survey/survey_season.h"

/*
 * When an instrument should be looked at again: when its wood has come from the shop's air to the
 * air where it lives. There both ends of the year count, and the farther one decides.
 */

enum next_check_reason {
    NEXT_CHECK_SHOP_UNKNOWN, /* not known yet: the air in the shop was not read */
    NEXT_CHECK_HOME_UNKNOWN, /* not known yet: nobody asked for the air of its home */
    NEXT_CHECK_SETTLES,      /* when the wood has followed most of the way (moisture_doubt.h) */
    NEXT_CHECK_LIKE_SHOP,    /* in a year: no farther from the shop's air than a season indoors */
    NEXT_CHECK_STEADY,       /* in a year: the relief hardly follows the air, as visits showed */
};

/* A year, where nothing asks for it sooner (common practice, no published source). */
#define NEXT_CHECK_YEAR_DAYS 365.0

/* Half of that, where the air that decides is not known (the same). */
#define NEXT_CHECK_USUAL_DAYS 182.0

struct next_check {
    enum next_check_reason reason;
    bool known;
    double days; /* from when it went home; the fields below too only where it is known */
    double least_days, most_days; /* 95 % lies between; both `days` for a year by practice */
    struct maybe day_number;      /* `days` after next_check_home_day, which may be absent */
    /* Moisture of the wood in the shop's air, and at the farther end of what is known of the air of
     * its home, or, where that is not known, of its visits. */
    struct maybe shop_pct, far_pct;
    bool by_home;
    struct maybe relief_change_mm; /* there, by what its visits taught */
    struct survey_season season;
};

/* The day (day.h) from which it is away: the one on which it was handed over, else the last on
 * which anything was measured or done; absent where the visit has no date. */
struct maybe next_check_home_day(const struct record *record, int visit);

/* For the end of a visit. */
void next_check_find(const struct record *record, int visit, struct next_check *ret_check);

#endif
