/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_PROFILE_H
#define SILLET_STORE_PROFILE_PROFILE_H

#include <stdbool.h>

#include "base/status.h"
#include "model/reading/record.h"
#include "store/problem.h"

/*
 * An instrument's profile on disk. It is opened as a record; saving it keeps every line that did
 * not change, byte for byte.
 *
 *     struct profile *profile;
 *     status = profile_open(path, PROFILE_TO_EDIT, &problems, &profile);
 *     ... record_copy(profile_record(profile), &mine); change mine ...
 *     status = profile_save(profile, &mine);      any number of times
 *     profile_close(profile);
 */
struct profile;

enum profile_access {
    PROFILE_TO_READ, /* takes no lock and writes nothing */
    PROFILE_TO_EDIT,
};

/* Things to tell the user about a profile, which is usable all the same. */
enum profile_notice {
    PROFILE_END_MISSING = 1,    /* no [end]: written by hand, or cut short */
    PROFILE_END_WRONG = 2,      /* [end] does not match: changed by hand, or damaged */
    PROFILE_NO_LOCK = 4,        /* locks do not work here: open it in one program only */
    PROFILE_KEPT_AS_FOUND = 8,  /* before a rewrite the file was copied as NAME.as-found */
    PROFILE_CONFLICT = 16,      /* saves go to profile_conflict_path() */
    PROFILE_NO_GENERATION = 32, /* the state before the first change is not or cannot be kept */
    PROFILE_WRITTEN_ANEW = 64,  /* its file was missing at the last save */
    PROFILE_LONG = 128,         /* more than half of what one file can hold is used */
    PROFILE_LOCK_TAKEN = 256,   /* with PROFILE_NO_LOCK: the lock's name is taken */
    PROFILE_CLOSED_GENERATIONS = 512, /* others who may change it cannot keep its states */
    PROFILE_VERSIONS = 1024,          /* other versions are beside it (copies.h) */
};

/*
 * Opens a profile. Never waits, never reads more than 32 MiB, never prints. Problems are added
 * to `problems` (may be NULL), sorted by line, even if it cannot be opened. A profile that may only
 * be read opens too: see profile_editable().
 *
 * STATUS_NOT_FOUND; STATUS_NOWHERE for a broken link; STATUS_NOT_REGULAR;
 * STATUS_TOO_LARGE (over 32 MiB or 500 000 lines); STATUS_BINARY; STATUS_TOO_LONG (a line over
 * 1022 bytes); STATUS_SYNTAX (not a profile); STATUS_NO_MEMORY; STATUS_IO with
 * errno set.
 */
enum status profile_open(const char *path, enum profile_access access, struct problems *problems,
                         struct profile **ret_profile);

/*
 * Begins a profile that is not on disk yet, for editing. Its record holds the format and
 * nothing else. STATUS_CHANGED if the name is taken; STATUS_NOT_FOUND if its folder is missing;
 * STATUS_LOCKED, STATUS_READ_ONLY, STATUS_NO_MEMORY, STATUS_IO.
 */
enum status profile_create(const char *path, struct profile **ret_profile);

/* Frees it and releases the lock. Saves nothing. Keeps errno. Does nothing for NULL. */
void profile_close(struct profile *profile);

/* The record as it was last opened or saved. Valid until the next save. */
const struct record *profile_record(const struct profile *profile);

/* The path it was opened by. */
const char *profile_path(const struct profile *profile);

/* STATUS_OK, or why it can only be read: STATUS_NEWER (a later format), STATUS_LOCKED (see
 * profile_lock_holder), STATUS_READ_ONLY, STATUS_NOT_OURS (somebody else's in a sticky folder),
 * STATUS_TOO_LARGE (longer than a profile may be written). */
enum status profile_editable(const struct profile *profile);

/* Why PROFILE_NO_GENERATION is set; STATUS_OK if nothing was tried yet. */
enum status profile_generation_status(const struct profile *profile);

/* Who is editing it: "anna, process 1234 on bench-laptop". "" unless it is STATUS_LOCKED. */
const char *profile_lock_holder(const struct profile *profile);

/* A set of enum profile_notice, updated by each save. */
unsigned profile_notices(const struct profile *profile);

/* Where saves go after STATUS_CHANGED; NULL before. */
const char *profile_conflict_path(const struct profile *profile);

/*
 * Saves `record`. Writes nothing if the file holds it already, with a matching [end]. Before the
 * first rewrite of a file whose [end] was missing or wrong, the file is copied beside it as
 * NAME.as-found (NAME.as-found.2 ...). Before the first rewrite since it was opened, the state on
 * disk is kept as a generation (generations.h). A file that was removed meanwhile is written again.
 *
 * STATUS_CHANGED: someone else changed the file. It is left alone, and this and all later saves go
 * to profile_conflict_path() beside it. A file that holds the record of an earlier save that was
 * reported as failed does not count as changed.
 * STATUS_MOVED: the file is missing or changed, and its folder is not the one it was opened in,
 * after an unmount, say. Nothing is written there.
 * Else what profile_editable says; STATUS_TOO_LONG, STATUS_TOO_LARGE for a record that could not be
 * opened again; STATUS_FULL, STATUS_READ_ONLY, STATUS_NO_MEMORY, STATUS_IO with errno set. After a
 * failure either the old file or the new one is there, whole; the profile stays usable, and saving
 * again may succeed.
 */
enum status profile_save(struct profile *profile, const struct record *record);

#endif
