/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_COPIES_H
#define SILLET_STORE_COPIES_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "store/bytes.h"

/*
 * Copies of a profile: whole files, kept so that no state of it is lost. What every kind does in
 * its own way is a row of the table in copies.c. A target is as safefile_target gives it.
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

/*
 * Lists the kinds asked for, in their order above; of one kind the lowest number first, of
 * COPY_EARLIER the highest. Where a kind cannot be read, the list holds those before it, and the
 * status is that of disk_status or STATUS_NO_MEMORY. copies_done in any case.
 */
enum status copies_list(const char *target, unsigned kinds, struct copies *ret_list);
void copies_done(struct copies *list);

/* How long the part of a file's name is that names a profile, where the rest says that it is a
 * version beside that; 0 for any other name. */
size_t copies_profile_length(const char *file);

/*
 * Keeps a copy of a kind that is numbered from 1, shared as the target is: under the first name
 * that is free, or that of a file of its own which holds the same bytes already. *ret_path (owned
 * by the caller) says which. Failures as of safefile; STATUS_FULL with EEXIST when every number is
 * taken.
 */
enum status copies_keep(enum copy_kind kind, const char *target, const struct bytes *bytes,
                        char **ret_path);

/* True when a file is there, no link of any kind, and holds just these bytes. */
bool copies_hold(const char *path, const struct bytes *bytes);

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
