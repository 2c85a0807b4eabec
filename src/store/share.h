/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_SHARE_H
#define SILLET_STORE_SHARE_H

#include <stdbool.h>
#include <sys/types.h>

#include "base/status.h"

/*
 * Who may use the files that sillet makes beside a profile: its owner, and everyone else who may
 * write the profile. Two people who share a folder thus share its locks and earlier states, and
 * somebody who may only read a profile sees no more than that. Files made by the administrator
 * are given to the profile's owner, or they would shut the owner out.
 */
struct share {
    mode_t mode; /* of a file: 0600, plus 060 for a group and 06 for others that may write */
    gid_t group;
    uid_t owner; /* (uid_t)-1: the user who makes it */
};

/* The share of the profile at `target`. One that does not exist yet is for its owner alone, or,
 * in a folder made for a group (setgid and writable by it), for that group too. */
struct share share_of(const char *target);

/* Whether anyone else shares the file, so that share_give is needed. */
bool share_is_wide(const struct share *share);

/*
 * Sets mode and group of an open file or folder, and its owner if the system allows. A folder
 * also gets the right to enter it. If the group cannot be set, the group's rights are left out:
 * another group would get them. Fails as safefile.
 */
enum status share_give(int fd, const struct share *share);

/*
 * Makes a folder for a share and syncs the folder above it. STATUS_OK if it exists. Makes only the
 * last part of the path. STATUS_NOT_REGULAR if the name is taken by anything but a folder, or by
 * a link. Fails as safefile.
 */
enum status share_make_folder(const char *path, const struct share *share);

/* Whether the system lets us replace this file: in a sticky folder only the owners of the file and
 * of the folder may. True if it cannot be told. */
bool share_may_replace(const char *target);

#endif
