/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_JOIN_SAME_H
#define SILLET_MODEL_READING_JOIN_SAME_H

#include <stdbool.h>

#include "model/reading/record.h"

/*
 * Whether two versions of one record speak of the same visit, pass or work line. Their numbers do
 * not tell: each version may have filed a visit 5 of its own since they parted, and a pass that was
 * taken out moves those after it up. Two benches do not begin a pass in the same minute, so times
 * and dates come first; where nothing says otherwise, the same number is the same thing.
 */

/* A visit of a record; or with a section a pass or a work line of it, by its number. */
struct join_thing {
    const struct record *record;
    enum section section; /* SECTION_VISIT, SECTION_PASS or SECTION_WORK */
    int visit, part;
};

/* Whether it has a reading of its own; changes of the instrument do not count. */
bool join_exists(struct join_thing thing);

/* Whether two visits of one day, or of one number and not of two days, have a pass of the same
 * time. */
bool join_shares_pass(struct join_thing a, struct join_thing b);

/* Whether they are one visit, as far as these two records tell. */
bool join_same_visit(struct join_thing a, struct join_thing b);

/* Whether a visit is the one that stood in an earlier state of its record under this number. */
bool join_is_visit_of(struct join_thing earlier, struct join_thing visit);

enum join_likeness { JOIN_SAME, JOIN_OTHER, JOIN_UNSAID };

/* Two passes or work lines: the same time (and kind of work), another, or not both say. */
enum join_likeness join_compare_parts(struct join_thing a, struct join_thing b);

#endif
