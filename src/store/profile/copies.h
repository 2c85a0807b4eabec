/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_COPIES_H
#define SILLET_STORE_PROFILE_COPIES_H

#include <stddef.h>

#include "base/status.h"
#include "store/profile/copy.h"

/* All copies of a profile. What every kind does in its own way is a row of the table in copies.c.
 * A target is as safefile_target gives it. */

/*
 * Lists the kinds asked for, in their order above; of one kind the lowest number first, of
 * COPY_EARLIER the highest. Where a kind cannot be read, the list holds those before it, and the
 * status is that of disk_status or STATUS_NO_MEMORY. copies_done in any case.
 */
enum status copies_list(const char *target, unsigned kinds, struct copies *ret_list);

/* How long the part of a file's name is that names a profile, where the rest says that it is a
 * version beside that; 0 for any other name. */
size_t copies_profile_length(const char *file);

/* STATUS_CHANGED when there is something where a profile of that path would keep its own. */
enum status copies_none(const char *target);

/*
 * Moves what goes with a profile (versions and earlier states) to another target of the same disk,
 * and syncs that. What could not be moved stays as it is, and the first failure is told:
 * STATUS_CHANGED where a name is taken.
 */
enum status copies_move(const char *target, const char *to);

/*
 * Makes a version an earlier state of the profile, so that it lies beside it no more. Only what
 * opens as a profile is taken for one: else the failures of profile_load. Failures of
 * generations_keep; STATUS_CHANGED when it is being written just now. It stays where it is then.
 */
enum status copies_put_away(const char *target, const struct copy *version);

#endif
