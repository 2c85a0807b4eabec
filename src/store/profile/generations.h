/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_GENERATIONS_H
#define SILLET_STORE_PROFILE_GENERATIONS_H

#include "base/status.h"
#include "store/bytes.h"
#include "store/profile/copy.h"

/*
 * Earlier states of a profile: whole copies, kept in .generations/NAME/ beside the file NAME, for
 * everyone who may write the profile (share.h). No link is followed there. One is kept before the
 * first change of each session. The newest GENERATIONS_NEAR stay, and the last of each month before
 * them.
 *
 * A copy is named by its number, which only rises, and the minute it was kept, UTC:
 * 000012-2026-11-25T1306.ini. They are ordered by number, so a wrong clock does no harm. A file
 * with a number far above the others is ignored: somebody made it up.
 */
enum { GENERATIONS_NEAR = 20 };

/*
 * Keeps the bytes as a generation of the profile at `target` (as safefile_target returns it),
 * unless the newest one holds the same, and drops old ones; but never the one at `spared` (may be
 * NULL), which is about to be brought back. After STATUS_OK it is on disk and has been read back.
 * STATUS_NO_MEMORY; STATUS_NOT_REGULAR if its folder is a link; STATUS_DAMAGED if it reads back
 * differently; STATUS_FULL (also if the numbers are used up), STATUS_READ_ONLY, STATUS_IO as of
 * safefile.
 */
enum status generations_keep(const char *target, const struct bytes *bytes, const char *spared);

/* Whether a generation could be kept, without trying. */
enum generations_room {
    GENERATIONS_OPEN,
    GENERATIONS_CLOSED,           /* not by us: the name is taken, or we may not write there */
    GENERATIONS_CLOSED_TO_OTHERS, /* by us, but not by the others who may write the profile */
};
enum generations_room generations_room(const char *target);

/*
 * For copies.c. List: the newest first. None: STATUS_CHANGED if there is a folder. Move: moves the
 * folder; STATUS_CHANGED if there is one for `to`; after a failure nothing has moved.
 */
enum status generations_list(enum copy_kind kind, const char *target, struct copies *list);
enum status generations_none(enum copy_kind kind, const char *target);
enum status generations_move(enum copy_kind kind, const char *target, const char *to);

#endif
