/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_PROFILE_FIND_H
#define SILLET_STORE_PROFILE_PROFILE_FIND_H

#include "store/profile/profile_load.h"

/* For profile_load.c: which reading each key line holds. */

/* Fills *ret_lines, which has room for all lines of the text, with the key lines that are readings,
 * and returns how many these are. The others become problems. */
size_t profile_find(const struct ini_text *text, struct problems *problems,
                    struct profile_line *ret_lines);

/* Before the values are read: skips what is not a reading of a field that is `wanted`, but for the
 * first one of each visit and string (profile_glance). */
void profile_find_wanted(struct ini_text *text, const bool wanted[FIELD_COUNT_]);

#endif
