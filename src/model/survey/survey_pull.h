/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SURVEY_SURVEY_PULL_H
#define SILLET_MODEL_SURVEY_SURVEY_PULL_H

#include "model/derive/derive.h"

/*
 * What another pull of the strings does to relief and action, with rod, slots and saddle left
 * alone. From the neck's beam where its measures are known, else as necks of the kind do
 * (pull_table.h), and from what its own restrings showed (pulls_seen.h). The action follows from
 * the relief as it does when a rod is turned: the saddle stays on the body, the slots on the neck
 * (moves.h).
 *
 * What the +- rests on stands in assumption_table.h: the beam's own, or that of the kind; what a
 * rod that turns takes up; how surely the pulls are known. They are expanded, k = 2.
 */
struct survey_pull {
    bool by_kind;                /* the neck's own measures are not known */
    int seen;                    /* restrings of this neck that bear on it */
    struct maybe bend_change_mm; /* more relief (+) or less */
    double bend_u_mm;            /* of that change */
    struct maybe relief_mm;      /* to expect; absent where none was read */
    struct maybe relief_u_mm;    /* of the change and of the reading */
    struct maybe action_mm[STRINGS_MAX + 1];
    struct maybe action_u_mm[STRINGS_MAX + 1];
};

/* Another pull, N, > 0. The same strings at other notes are off to the same side before and after,
 * others each by themselves. */
struct pull_change {
    struct maybe before_n, after_n;
    bool other_strings;
};

/* Nothing is known where a pull is absent or there is no board. */
void survey_pull(const struct record *record, const struct derived *derived,
                 const struct pull_change *change, struct survey_pull *ret_pull);

#endif
