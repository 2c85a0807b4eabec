/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_GENERATIONS_H
#define SILLET_STORE_PROFILE_GENERATIONS_H

#include "base/status.h"
#include "store/bytes.h"
#include "store/profile/copy.h"

/*
 * Earlier states of a profile: whole copies, kept in .generations/NAME/ beside the file NAME,
 * for whoever may write the profile (share.h). No link is followed there. One is kept before the
 * first change of each session. The newest GENERATIONS_NEAR of them stay, and of those before them
 * the last of each month.
 *
 * A copy's own name is its number, which only rises, and the minute it was kept, UTC:
 * 000012-2026-11-25T1306.ini. The order goes by the number, so that a clock which was wrong
 * or went backwards does not mix them up. A number that ours cannot have come to yet is no name of
 * ours, so that one which somebody made up takes no room.
 */
enum { GENERATIONS_NEAR = 20 };

/*
 * Keeps the bytes as a generation of the profile at `target` (links followed, as
 * safefile_target gives it), unless the newest one holds the same, and drops what is over; but
 * never the one at `spared`, which somebody wants back (NULL for none).
 * After STATUS_OK it is on disk for certain, and was read back. STATUS_NO_MEMORY;
 * STATUS_NOT_REGULAR where its folder is a link; STATUS_DAMAGED where it reads back as
 * something else; STATUS_FULL (also where the numbers are used up), STATUS_READ_ONLY, STATUS_IO as
 * of safefile.
 */
enum status generations_keep(const char *target, const struct bytes *bytes, const char *spared);

/* Whether a generation could be kept, before anything is tried. */
enum generations_room {
    GENERATIONS_OPEN,
    GENERATIONS_CLOSED,           /* not by us: something else is there, or somebody's own folder */
    GENERATIONS_CLOSED_TO_OTHERS, /* not by the others who may write the profile */
};
enum generations_room generations_room(const char *target);

/*
 * For copies.c: lists them, the newest first, none where there are none; asks for the folder, moves
 * it. STATUS_CHANGED where the other path has some; on failure nothing has moved.
 */
enum status generations_list(enum copy_kind kind, const char *target, struct copies *list);
enum status generations_none(enum copy_kind kind, const char *target);
enum status generations_move(enum copy_kind kind, const char *target, const char *to);

#endif
