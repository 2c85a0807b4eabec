/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SURVEY_SURVEY_SEASON_H
#define SILLET_MODEL_SURVEY_SURVEY_SEASON_H

#include <stdbool.h>

#include "model/reading/record.h"
#include "model/reading/record_access.h"

/*
 * How the neck follows the air, from the visits up to the given one. Between two visits nobody
 * is meant to work on the neck, so the change of relief from the last pass of one to the first
 * pass of the next, less what turns logged after that last pass did, is attributed to the wood's
 * moisture. A straight line through the origin is fitted, sum(change of relief x change of
 * moisture) / sum(change of moisture^2). It is wrong if the owner turned the rod in between.
 * Source: our own reasoning; no published source.
 */
struct survey_season {
    struct maybe emc_pct; /* of the visit; where it is absent the fields below are not meaningful */
    double driest_pct, dampest_pct; /* of the visits up to this one */
    int pairs;                      /* of visits behind relief_per_pct_mm; 0: it is absent */
    double relief_per_pct_mm;
    /* The last pair of visits, and its changes. */
    int before, after;
    double emc_change_pct, relief_change_mm;
};

/* A smaller difference of moisture tells nothing: it is about the error of a hygrometer. */
#define SURVEY_SEASON_LEAST_PCT 0.5

void survey_season_find(const struct record *record, int visit, struct survey_season *ret_season);

#endif
