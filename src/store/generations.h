/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_GENERATIONS_H
#define SILLET_STORE_GENERATIONS_H

#include <stddef.h>

#include "base/status.h"
#include "store/bytes.h"

/*
 * Earlier states of a profile: whole copies, kept in .generations/NAME/ beside the file NAME,
 * for the owner only. One is kept before the first change of each session. The newest
 * GENERATIONS_NEAR of them stay, and of those before them the last of each month.
 *
 * A copy's own name is its number, which only rises, and the minute it was kept, UTC:
 * 000012-2026-11-25T1306.ini. The order goes by the number, so that a clock which was wrong
 * or went backwards does not mix them up.
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
 * safefile_target gives it), unless the newest one holds the same, and drops what is over.
 * STATUS_NO_MEMORY; STATUS_FULL, STATUS_READ_ONLY, STATUS_IO as of safefile. A generation
 * that could not be kept costs nothing else.
 */
enum status generations_keep(const char *target, const struct bytes *bytes);

/* Lists them; an empty list where there are none, or where they cannot be read. */
enum status generations_list(const char *target, struct generations *ret_list);
void generations_done(struct generations *list);

/*
 * Makes the state of a generation the current one, as a change of its own: the record on disk
 * becomes a generation first. The readings are those of the generation; comments and order
 * stay as they are in the file. A file that is no profile any more (cut short, overwritten) is
 * kept beside as NAME.as-found, and the generation takes its place whole. STATUS_NEWER for a
 * generation of a later format; else as profile_open and profile_save say.
 */
enum status generations_bring_back(const char *target, const char *generation);

#endif
