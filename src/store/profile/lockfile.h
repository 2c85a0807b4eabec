/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_LOCKFILE_H
#define SILLET_STORE_PROFILE_LOCKFILE_H

#include <stdbool.h>

#include "base/status.h"

/*
 * Keeps two programs from editing one profile: a lock on NAME.lock beside it, which also
 * says who holds it. The system drops the lock when its process ends, so that a dead
 * one's file is simply taken over, whoever of those that share the profile left it.
 *
 * A file of that name which does not read as a lock is somebody's own, and is left alone.
 * An empty one may be either: it is used, and stays.
 */
struct lockfile {
    int fd;     /* -1: not held */
    char *path; /* owned */
    bool found; /* it was there, empty: it is left as it was */
};

/* Who holds a lock, as their lock file says: "anna, process 1234 on bench-laptop". */
struct lockfile_holder {
    char words[160];
};

/*
 * Takes the lock for a target (safefile_target). STATUS_LOCKED with *ret_holder filled in;
 * STATUS_READ_ONLY, STATUS_FULL where the lock file cannot be made; STATUS_NOT_REGULAR where
 * something else has its name; STATUS_IO with errno where locks do not work; STATUS_NO_MEMORY.
 */
enum status lockfile_take(const char *target, struct lockfile *ret_lock,
                          struct lockfile_holder *ret_holder);

/*
 * Whether somebody seems to hold the lock, by the lock file's own words: the lock itself is
 * not tried, for that would be in the way of whoever takes it at the same moment. False for
 * a file that a dead process of this machine left.
 */
bool lockfile_is_held(const char *target);

/* Gives it back and removes the file; errno stays as it is. Harmless when not held. */
void lockfile_drop(struct lockfile *lock);

#endif
