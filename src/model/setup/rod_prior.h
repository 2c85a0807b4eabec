/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SETUP_ROD_PRIOR_H
#define SILLET_MODEL_SETUP_ROD_PRIOR_H

#include <stdbool.h>

/*
 * What a turn of the rod did to other necks of a kind, for one whose own answer is not known yet.
 * Source of the limits: memory.
 */

enum {
    ROD_NECKS_LEAST = 3, /* fewer say nothing about their kind */
    ROD_NECKS_MAX = 256,
    ROD_KINDS_MAX = 16,
};

/* No more than this at first on the word of other necks, turns. */
#define ROD_TURN_OF_OTHERS 0.5

/* One neck's answer: relief per turn, mm, below 0, with its expanded uncertainty. A neck whose
 * answer is not known has 0. */
struct rod_neck {
    double per_turn_mm, per_turn_u_mm;
};

/* Whether it is an answer that a rod may have: below 0, no more than a neck bends, u not negative.
 */
bool rod_neck_is_known(const struct rod_neck *neck);

/* Sorted by per_turn_mm. */
struct rod_necks {
    int count;
    struct rod_neck at[ROD_NECKS_MAX];
};

/* Adds a neck whose answer is known; of more than fit the first ones stay. */
void rod_necks_add(struct rod_necks *necks, const struct rod_neck *neck);

/* What they have in common. necks 0: nothing is known. */
struct rod_prior {
    int necks;
    double per_turn_mm;   /* the median */
    double per_turn_u_mm; /* twice the standard deviation about it, at least that of the median neck
                           */
};

/* Nothing from fewer than ROD_NECKS_LEAST, nor where they scatter by as much as they answer. */
struct rod_prior rod_prior_of(const struct rod_necks *necks);

/* By the kind of instrument, a choice's index. */
struct rod_priors {
    struct rod_prior of[ROD_KINDS_MAX];
};

#endif
