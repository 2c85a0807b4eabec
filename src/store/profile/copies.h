/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_COPIES_H
#define SILLET_STORE_PROFILE_COPIES_H

#include <stddef.h>

#include "base/status.h"
#include "store/profile/copy.h"

/* All copies of a profile; each kind is a row of the table in copies.c. Targets are paths as
 * safefile_target returns them. */

/*
 * Lists the copies of some kinds, in the order of enum copy_kind, each with the lowest number
 * first, COPY_EARLIER with the highest. If one kind cannot be read, the list holds the kinds before
 * it, and the status is that of disk_status; after STATUS_NO_MEMORY it may hold a part of one kind
 * too. Call copies_done in any case.
 */
enum status copies_list(const char *target, unsigned kinds, struct copies *ret_list);

/* The length of the profile's name at the start of the file name of a COPY_NAMED one (copy.h); 0
 * if the file is none. Of a name that beside_path had to cut, it is the length of what was left and
 * its sum, which is no profile's name. */
size_t copies_profile_length(const char *file);

/* What the file name of a version has beside that of its profile: "conflict.2", "(1).ini". */
const char *copies_label(const char *file);

/* STATUS_CHANGED if there is anything that a new profile at `target` would take for its own. */
enum status copies_none(const char *target);

/*
 * Moves a profile's versions and earlier states to another target on the same disk, and syncs.
 * Anything that cannot be moved stays, and the first failure is returned, with its errno:
 * STATUS_CHANGED if a name is taken.
 */
enum status copies_move(const char *target, const char *to);

/*
 * Turns a version into an earlier state of the profile and removes its file; another name (a hard
 * link) of that file stays. Fails as file_read, as profile_load if it is no profile, and as
 * generations_keep; STATUS_CHANGED if it was written meanwhile; as disk_status if it cannot be
 * removed. After a failure it is still there. In the last two cases what it held is an earlier
 * state all the same, which a second try does not keep twice.
 */
enum status copies_put_away(const char *target, const struct copy *version);

#endif
