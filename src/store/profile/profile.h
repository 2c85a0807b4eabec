/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_PROFILE_H
#define SILLET_STORE_PROFILE_PROFILE_H

#include <stdbool.h>

#include "base/status.h"
#include "model/record.h"
#include "store/problem.h"

/*
 * An instrument's profile on disk: opened as a record, saved with every line that did not
 * change kept byte for byte.
 *
 *     struct profile *profile;
 *     status = profile_open(path, PROFILE_TO_EDIT, &problems, &profile);
 *     ... record_copy(profile_record(profile), &mine); change mine ...
 *     status = profile_save(profile, &mine);      as often as wanted
 *     profile_close(profile);
 */
struct profile;

enum profile_access {
    PROFILE_TO_READ, /* takes no lock, writes nothing */
    PROFILE_TO_EDIT,
};

/* Things to tell whoever opened a profile; it is usable all the same. */
enum profile_notice {
    PROFILE_END_MISSING = 1,    /* no [end]: written by hand, or cut short */
    PROFILE_END_WRONG = 2,      /* [end] does not match: changed by hand, or damaged */
    PROFILE_NO_LOCK = 4,        /* locks do not work here: open it in one program only */
    PROFILE_KEPT_AS_FOUND = 8,  /* the file as found was copied beside it before a rewrite */
    PROFILE_CONFLICT = 16,      /* saves go to profile_conflict_path() */
    PROFILE_NO_GENERATION = 32, /* the state before the first change is not or cannot be kept */
    PROFILE_WRITTEN_ANEW = 64,  /* its file was gone from its folder at the last save */
    PROFILE_LONG = 128,         /* half of what one file can hold is used */
    PROFILE_LOCK_TAKEN = 256,   /* with PROFILE_NO_LOCK: something else has its name */
    PROFILE_CLOSED_GENERATIONS = 512, /* others who may change it cannot keep its states */
    PROFILE_VERSIONS = 1024,          /* other versions lie beside it: copies.h */
};

/*
 * Opens a profile. Never waits, never reads more than 32 MiB, never prints. What is odd
 * in it is added to `problems` (may be NULL), sorted by line, also when it cannot be
 * opened. A profile that may only be read opens too: see profile_editable().
 *
 * STATUS_NOT_FOUND; STATUS_NOWHERE for a link that leads nowhere; STATUS_NOT_REGULAR;
 * STATUS_TOO_LARGE (over 32 MiB or 500 000 lines); STATUS_BINARY; STATUS_TOO_LONG (a line over
 * 1022 bytes); STATUS_SYNTAX (nothing of a profile in it); STATUS_NO_MEMORY; STATUS_IO with
 * errno set.
 */
enum status profile_open(const char *path, enum profile_access access, struct problems *problems,
                         struct profile **ret_profile);

/*
 * Begins a profile that is not on disk yet, for editing. Its record holds the format and
 * nothing else. STATUS_CHANGED when something has that name already; STATUS_NOT_FOUND
 * when its folder is missing; STATUS_LOCKED, STATUS_READ_ONLY, STATUS_NO_MEMORY,
 * STATUS_IO.
 */
enum status profile_create(const char *path, struct profile **ret_profile);

/* Frees it and gives the lock back. Saves nothing; errno stays as it is. NULL is fine. */
void profile_close(struct profile *profile);

/* The record as it was opened or saved last. Valid until the next save. */
const struct record *profile_record(const struct profile *profile);

/* The path it was opened by. */
const char *profile_path(const struct profile *profile);

/* STATUS_OK, or why it can only be read: STATUS_NEWER (its format is not known),
 * STATUS_LOCKED (see profile_lock_holder), STATUS_READ_ONLY, STATUS_NOT_OURS (somebody else's
 * in a sticky folder), STATUS_TOO_LARGE (longer than what is written). */
enum status profile_editable(const struct profile *profile);

/* Why PROFILE_NO_GENERATION is set; STATUS_OK where nothing was tried yet. */
enum status profile_generation_status(const struct profile *profile);

/* Who edits it, "anna, process 1234 on bench-laptop"; "" unless profile_editable is STATUS_LOCKED.
 */
const char *profile_lock_holder(const struct profile *profile);

/* A set of enum profile_notice; saving adds to it. */
unsigned profile_notices(const struct profile *profile);

/* Where saves go after STATUS_CHANGED; NULL before. */
const char *profile_conflict_path(const struct profile *profile);

/*
 * Saves `record`. When the kept text holds it already, with a matching [end], nothing is
 * written. Before the first rewrite of a file whose [end] was missing or wrong, the file
 * as found is copied beside it as NAME.as-found (NAME.as-found.2 ...). Before the first
 * rewrite since it was opened, what is on disk is kept as a generation (generations.h).
 *
 * STATUS_CHANGED: someone else changed the file since. It is left alone and `record` is
 * written beside it, to profile_conflict_path(); so are all later saves.
 * STATUS_MOVED: the file is not there, or not as it was left, and its folder is another one
 * than it was opened in (a file system taken away, say): nothing is begun in that one.
 * A file that was removed meanwhile is written anew. One that holds what an earlier save was
 * said to have failed with is nobody else's change.
 * What profile_editable says; STATUS_TOO_LONG, STATUS_TOO_LARGE for a record that could
 * not be opened again; STATUS_FULL, STATUS_READ_ONLY, STATUS_NO_MEMORY, STATUS_IO with
 * errno set. After a failure the old file is whole, or the new one is; the profile stays
 * usable, and saving again may succeed.
 */
enum status profile_save(struct profile *profile, const struct record *record);

#endif
