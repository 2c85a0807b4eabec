/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SEASON_H
#define SILLET_MODEL_SEASON_H

#include <stdbool.h>

#include "model/reading/place.h"
#include "model/setup/setup.h"

/* So far the wood's moisture is off from the last visit's before the neck is expected to have moved
 * with it, percent (common practice: about a season indoors). */
#define SEASON_EMC_PCT 2.0

/* A visit as the seasons see it. Where its air is not known, nor is the rest. */
struct season_visit {
    int visit;
    struct maybe emc_pct;           /* the wood's moisture in its air */
    struct maybe found_mm, left_mm; /* the relief in its first pass, and as it ended: its last one,
                                       and what turns logged after that did */
    struct maybe found_action_mm[STRINGS_MAX + 1]; /* the same of the actions, by string; as it */
    struct maybe left_action_mm[STRINGS_MAX + 1];  /* ended only where no move was made after it */
};

/* `setup` is any one of the record's, and follows. */
struct season_visit season_see(const struct record *record, int visit, struct setup *setup);

/* How far through the record's visits a walk has come, and what they showed. */
struct season_walk {
    struct place place;         /* a pass of the last visit taken in; of none before the first */
    struct season_visit before; /* the last one that is known */
    double answer;              /* sum of the changes of relief times those of moisture */
    struct maybe other_pct;     /* the last moisture that was another than that of `before` */
};

struct season_walk season_walk_of(const struct record *record);

/* On to the last visit before this one. */
void season_walk_to(struct season_walk *walk, const struct setup *setup, int visit);

/*
 * Whether the air has changed the neck since the instrument was last read in another visit: the
 * wood's moisture (EMC) is off by more than SEASON_EMC_PCT, and the relief moved, in the direction
 * that the record's earlier visits show; where there are none, damp air puts relief in. The walk
 * goes on from where it is, or begins again if it is past that visit. `setup` is any one of the
 * record's.
 */
bool season_is_other(struct season_walk *walk, const struct setup *setup, int visit);

/*
 * The same of a neck that no rod holds, on which all that is off might be the season's: the
 * wood's moisture is as far off, and relief or action went along with it by more than its
 * tolerance. Not where the air is back to what it was before the visit before: there the neck has
 * settled.
 */
bool season_has_moved(struct season_walk *walk, const struct setup *setup, int visit);

/* How wood stands in the air of a visit against the middle of the air that the instrument lives in,
 * or of a usual room's, by more than SEASON_EMC_PCT: 1 damp, -1 dry, 0 neither, or not known. */
int season_of_air(const struct record *record, int visit);

#endif
