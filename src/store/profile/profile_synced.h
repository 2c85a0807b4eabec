/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_PROFILE_SYNCED_H
#define SILLET_STORE_PROFILE_PROFILE_SYNCED_H

#include "store/profile/copy.h"

/*
 * What programs that copy folders from one machine to another leave where both have changed a file:
 * `dove (anything).ini` beside dove.ini. Its name can be any profile's; it is a version of the
 * other one if both are surely of one instrument (same_instrument.h).
 */

/* The length of "dove" at the start of such a name; 0 if it is none. */
size_t synced_stem_length(const char *file);

/* Whether the file at `path`, which has such a name, is a version of the profile at `target`. */
bool synced_is_version(const char *target, const char *path);

/* For copies.c. List: the versions, by name; it goes through all names of the folder. None:
 * STATUS_CHANGED if there is such a name, of whatever instrument. */
enum status synced_list(enum copy_kind kind, const char *target, struct copies *list);
enum status synced_none(enum copy_kind kind, const char *target);

#endif
