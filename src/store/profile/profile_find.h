/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_PROFILE_FIND_H
#define SILLET_STORE_PROFILE_PROFILE_FIND_H

#include "store/ini_read.h"
#include "store/profile/profile_load.h"

/* For profile_load.c: which reading each key line holds. */

/* A key line on its way into the record. */
struct profile_found {
    struct profile_line at;
    uint64_t order; /* of its key in the record */
    const struct ini_entry *entry;
};

/* Fills *ret_found, which has room for all entries, with those that are readings, and returns how
 * many these are. The others become problems. */
size_t profile_find(const struct ini_entries *entries, struct problems *problems,
                    struct profile_found *ret_found);

/* Before the values are read: skips what is not a reading of a field that is `wanted`, but for the
 * first one of each visit and string (profile_glance). */
void profile_find_wanted(const struct ini_text *text, const bool wanted[FIELD_COUNT_],
                         struct ini_entries *entries);

#endif
