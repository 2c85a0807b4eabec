/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHEET_SHEET_SEASON_H
#define SILLET_SHEET_SHEET_SEASON_H

#include <stdbool.h>

#include "model/record.h"
#include "model/record_access.h"

/*
 * What the visits on file tell of how the neck follows the air: between two visits nobody
 * works on it, so what the relief did from the last pass of one to the first pass of the next
 * goes with the wood's moisture. A straight line through the origin is fitted,
 * sum(change of relief x change of moisture) / sum(change of moisture^2); where it comes from
 * owners and rods as well, it is off.
 * Source: our own reasoning; no published source.
 */
struct sheet_season {
    bool known; /* the visit has a climate, and what follows holds */
    double emc_pct;
    double driest_pct, dampest_pct; /* of all visits */
    int pairs;                      /* of visits that the next number rests on; 0: absent */
    double relief_per_pct_mm;
    /* Of the last pair: where it came from. */
    int before, after;
    double emc_change_pct, relief_change_mm;
};

/* Visits whose moisture differs by less tell nothing: about what a hygrometer is off by. */
#define SHEET_SEASON_LEAST_PCT 0.5

void sheet_season_find(const struct record *record, int visit, struct sheet_season *ret_season);

/* The year and month of 2026-07-06 so many months on; false for another text. */
bool sheet_season_month(const char *date, int months, int *ret_year, int *ret_month);

#endif
