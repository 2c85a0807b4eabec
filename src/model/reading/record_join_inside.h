/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_RECORD_JOIN_INSIDE_H
#define SILLET_MODEL_READING_RECORD_JOIN_INSIDE_H

#include "model/reading/record_join.h"

/* Private to record_join.c, which lists the differences, and record_join_make.c. */

/* Whether a version has anything of the visit, pass or work line that a key belongs to. */
bool join_has(const struct record_join *join, enum join_version version,
              const struct reading_key *key, enum join_what what);

/* Whether a key belongs to what only one side has as a whole. */
bool join_is_in(const struct reading_key *key, const struct join_difference *difference);

/* The largest thing around a cell that only one side has; JOIN_CELL: both have all. */
enum join_what join_find_whole(const struct record_join *join, const struct reading_key *key);

/* A walk over the keys of two records, in order: the next key that either has, NULL at the end. */
struct join_walk {
    const struct record *a, *b;
    size_t i, j;
};
const struct reading_key *join_next_key(struct join_walk *walk);

/* A version's text under a key; NULL if it has none. */
const char *join_text(const struct record_join *join, enum join_version version,
                      const struct reading_key *key);

#endif
