/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_GENERATIONS_H
#define SILLET_STORE_GENERATIONS_H

#include <stddef.h>

#include "base/status.h"
#include "store/bytes.h"

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

struct generation {
    int number;    /* from 1 */
    char when[17]; /* 2026-11-25 13:06 */
    char *path;    /* owned by the list */
};

struct generations {
    struct generation *items; /* the newest first */
    size_t count, capacity;
};

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

/* Lists them; an empty list where there are none. Failures as of disk_status where they cannot all
 * be read. */
enum status generations_list(const char *target, struct generations *ret_list);
void generations_done(struct generations *list);

/* STATUS_CHANGED when there is something where a profile of that path would look for its own. */
enum status generations_none(const char *target);

/*
 * Moves them to those of another path on the same disk, which has none; fine when there are
 * none. STATUS_CHANGED where that one has some. On failure nothing has moved.
 */
enum status generations_move(const char *target, const char *to);

#endif
