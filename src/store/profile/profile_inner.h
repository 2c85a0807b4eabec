/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_PROFILE_INNER_H
#define SILLET_STORE_PROFILE_PROFILE_INNER_H

#include <stdbool.h>
#include <sys/types.h>

#include "store/profile/lockfile.h"
#include "store/profile/profile.h"
#include "store/profile/profile_load.h"
#include "store/share.h"

/* For this folder only: an open profile from inside. profile.c opens it, profile_save.c writes. */

/* Which folder it is, whatever its name: a file system may be mounted or unmounted there. */
struct profile_folder {
    dev_t device;
    ino_t inode;
    bool known;
};

struct profile {
    char *path;   /* as given */
    char *target; /* links followed */
    struct profile_content content;
    struct profile_folder folder;
    struct share share; /* as opened, for when the file has to be created again */
    bool on_disk;       /* the content was read from the target or written to it */
    bool unsure;        /* written, but the folder could not be synced */
    bool changed;       /* written since it was opened */
    enum status editable;
    enum status generation; /* of keeping the state before the first change */
    unsigned notices;
    struct bytes attempt; /* the text of a failed save, which may still be on disk */
    struct lockfile lock;
    struct lockfile_holder holder;
    char *conflict_path;
    struct bytes conflict; /* what was last written there */
};

struct profile_folder profile_folder_now(const struct profile *profile);

/* The path of its file, with links followed. */
const char *profile_target(const struct profile *profile);

/* Its text as last read or written, and its record. Valid until the next save. */
const struct profile_content *profile_content(const struct profile *profile);

#endif
