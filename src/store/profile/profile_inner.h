/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_PROFILE_INNER_H
#define SILLET_STORE_PROFILE_PROFILE_INNER_H

#include <stdbool.h>
#include <sys/types.h>

#include "store/profile/lockfile.h"
#include "store/profile/profile.h"
#include "store/profile/profile_load.h"
#include "store/share.h"

/* Inside store only: what is behind an open profile. profile.c opens and asks, profile_save.c
 * writes. */

/* Which folder it is, whatever it is called: another file system may be mounted over it, or
 * be taken away from under the name. */
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
    struct share share; /* as it was opened: for a file that is written anew */
    bool on_disk;       /* the content was read from the target or written to it */
    bool unsure;        /* it was written, but its folder could not be synced */
    bool changed;       /* it was written since it was opened */
    enum status editable;
    enum status generation; /* how keeping the state before the first change went */
    unsigned notices;
    struct bytes attempt; /* the text of a save that failed, which may be on disk all the same */
    struct lockfile lock;
    struct lockfile_holder holder;
    char *conflict_path;
    struct bytes conflict; /* what we wrote there last */
};

struct profile_folder profile_folder_now(const struct profile *profile);

/* Its file, links followed. */
const char *profile_target(const struct profile *profile);

/* The text that is on disk, as far as we know, and its record. Valid until the next save. */
const struct profile_content *profile_content(const struct profile *profile);

#endif
