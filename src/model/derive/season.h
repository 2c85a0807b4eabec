/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SEASON_H
#define SILLET_MODEL_SEASON_H

#include <stdbool.h>

#include "model/reading/record.h"

/* So far the wood's moisture is off from the last visit's before the neck is expected to have moved
 * with it, percent (common practice: about a season indoors). */
#define SEASON_EMC_PCT 2.0

/*
 * Whether the air has changed the neck since the instrument was last read in another visit: the
 * wood's moisture (EMC) is off by more than SEASON_EMC_PCT, and the relief moved, in the direction
 * that the record's earlier visits show; where there are none, damp air puts relief in.
 */
bool season_is_other(const struct record *record, int visit);

#endif
