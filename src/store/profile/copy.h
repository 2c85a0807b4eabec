/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_COPY_H
#define SILLET_STORE_PROFILE_COPY_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "store/bytes.h"
#include "store/share.h"

/*
 * A copy of a profile: a whole file, kept so that no state of the profile is lost. Where each kind
 * is kept is for its own file to know; copies.h lists them all.
 */
enum copy_kind {
    COPY_CONFLICT = 1, /* NAME.conflict beside it: ours, where somebody else changed the file */
    COPY_ASIDE = 2,    /* NAME.aside beside it: what was kept aside of another state */
    COPY_FOUND = 4,    /* NAME.as-found beside it: before the first rewrite without a good [end] */
    COPY_EARLIER = 8,  /* in .generations/NAME: before the first change (generations.h) */
    COPY_HELD = 16,    /* in the state folder: what its file did not take (aside.h) */
    /* Said wherever the profile is met, until somebody has chosen which one stays: */
    COPY_VERSIONS = COPY_CONFLICT | COPY_ASIDE,
};

struct copy {
    enum copy_kind kind;
    int number;    /* from 1; 0 of COPY_HELD */
    char when[17]; /* it was kept: 2026-11-25 13:06, UTC; "" of COPY_HELD */
    char *path;    /* owned by the list */
};

struct copies {
    struct copy *items;
    size_t count, capacity;
};

/* Takes the path over, also on failure. STATUS_NO_MEMORY. */
enum status copies_add(struct copies *list, const struct copy *copy);
void copies_done(struct copies *list);

/* The first copy of a kind is called STEM.SUFFIX, the next one STEM.SUFFIX.2. NULL of
 * COPY_EARLIER, which has names of its own. */
const char *copy_suffix(enum copy_kind kind);

/* True when a file is there, no link of any kind, and holds just these bytes. */
bool copy_holds(const char *path, const struct bytes *bytes);

/* A file that was not there: STATUS_CHANGED when the name is taken by anything but a copy of the
 * same bytes. Failures as of safefile. */
enum status copy_write(const char *path, const struct share *share, const struct bytes *bytes);

#endif
