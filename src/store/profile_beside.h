/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_BESIDE_H
#define SILLET_STORE_PROFILE_BESIDE_H

#include <stdbool.h>

#include "base/status.h"
#include "store/bytes.h"

/*
 * Inside store only. What sillet makes beside a profile is called TARGET.SUFFIX, then
 * TARGET.SUFFIX.2 and so on. Of a name longer than BESIDE_NAME_MAX bytes only its start stands
 * there, and its CRC-32, so that every name that a file can have leaves room for them.
 */
enum { BESIDE_NAME_MAX = 230 };

/* That path; to be freed, NULL without memory. */
char *beside_path(const char *target, const char *suffix, int number);

/*
 * Keeps a copy there, shared as the target is: under the first name that is free, or that of a
 * file of its own which holds the same bytes already. *ret_path (owned by the caller) says
 * which. Failures as of safefile; STATUS_FULL with EEXIST when every number is taken.
 */
enum status beside_keep_copy(const char *target, const char *suffix, const struct bytes *bytes,
                             char **ret_path);

/* True when a file is there, no link of any kind, and holds just these bytes. */
bool beside_holds(const char *path, const struct bytes *bytes);

/* STATUS_CHANGED when anything has the first of these names. */
enum status beside_none(const char *target, const char *suffix);

#endif
