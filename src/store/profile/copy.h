/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_COPY_H
#define SILLET_STORE_PROFILE_COPY_H

#include <stdbool.h>
#include <stddef.h>
#include <time.h>

#include "base/status.h"
#include "base/strbuf.h"
#include "store/bytes.h"
#include "store/share.h"

/*
 * A copy of a profile: a whole file, kept so that no state of the profile is lost. copies.h lists
 * the copies of all kinds.
 */
enum copy_kind {
    COPY_CONFLICT = 1, /* NAME.conflict beside it: our record, after somebody changed the file */
    COPY_ASIDE = 2,    /* NAME.aside beside it: a record kept aside of another state */
    COPY_FOUND = 4,    /* NAME.as-found beside it: a file whose [end] was missing or wrong */
    COPY_EARLIER = 8,  /* in .generations/NAME: an earlier state (generations.h) */
    COPY_HELD = 16,    /* in the state folder: a record that could not be saved (aside.h) */
    COPY_SYNCED = 32, /* NAME (anything).ini beside it (profile_synced.h); the shelf lists it too */
    /* A version: another record of the same instrument, beside its profile, of which somebody has
     * to choose one. The shelf and every opening mention it until it is put away. */
    COPY_VERSIONS = COPY_CONFLICT | COPY_ASIDE | COPY_SYNCED,
    /* Those whose names are known: the folder need not be gone through for them. */
    COPY_NAMED = COPY_CONFLICT | COPY_ASIDE,
};

struct copy {
    enum copy_kind kind;
    int number;    /* from 1; 0 for COPY_HELD */
    char when[17]; /* when it was kept, UTC: 2026-11-25 13:06; "" for COPY_HELD */
    char *path;    /* owned by the list */
};

struct copies {
    struct copy *items;
    size_t count, capacity;
};

/* Takes over copy->path, even on failure. STATUS_NO_MEMORY. */
enum status copies_add(struct copies *list, const struct copy *copy);
void copies_done(struct copies *list);

/* The first copy of a kind is called STEM.SUFFIX, the next one STEM.SUFFIX.2. NULL for COPY_EARLIER
 * and COPY_SYNCED, whose names are different. */
const char *copy_suffix(enum copy_kind kind);

/* Appends a file's time as in struct copy. */
void copy_add_time(time_t written, struct strbuf *out);

/* True if the path is a regular file with just one name, and holds just these bytes. With a second
 * name (a hard link) it could be changed by way of that one, so it does not count as a copy. */
bool copy_holds(const char *path, const struct bytes *bytes);

/* The same, however many names the file has. */
bool copy_reads(const char *path, const struct bytes *bytes);

/* Writes a new file, unless it is there with the same bytes. STATUS_CHANGED if anything else has
 * the name. Fails as safefile. */
enum status copy_write(const char *path, const struct share *share, const struct bytes *bytes);

#endif
