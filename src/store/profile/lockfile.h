/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_LOCKFILE_H
#define SILLET_STORE_PROFILE_LOCKFILE_H

#include <stdbool.h>

#include "base/status.h"

/*
 * Keeps two programs from editing one profile, by a lock on NAME.lock beside it, which also says
 * who holds it. The system drops the lock when its process ends, so the file of a dead process is
 * simply taken over, whichever user left it.
 *
 * A file of that name that does not read as a lock belongs to somebody and is left alone. An empty
 * one may be either: it is used and not removed.
 */
struct lockfile {
    int fd;     /* -1: not held */
    char *path; /* owned */
    bool found; /* an empty file was there, and will be left */
};

/* Who holds a lock, as the lock file says: "anna, process 1234 on bench-laptop". */
struct lockfile_holder {
    char words[160];
};

/*
 * Takes the lock for a target (safefile_target). STATUS_LOCKED with *ret_holder filled in;
 * STATUS_READ_ONLY, STATUS_FULL if the lock file cannot be made; STATUS_NOT_REGULAR if something
 * else has its name; STATUS_IO with errno if locks do not work here; STATUS_NO_MEMORY.
 */
enum status lockfile_take(const char *target, struct lockfile *ret_lock,
                          struct lockfile_holder *ret_holder);

/*
 * Whether somebody seems to hold the lock. Only reads the lock file: trying the lock would block
 * a program that takes it at the same moment. False if a dead process of this machine left the
 * file.
 */
bool lockfile_is_held(const char *target);

/* Releases the lock and removes the file. Keeps errno. Does nothing if it is not held. */
void lockfile_drop(struct lockfile *lock);

#endif
