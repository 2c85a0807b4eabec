/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_SHARE_H
#define SILLET_STORE_SHARE_H

#include <stdbool.h>
#include <sys/types.h>

#include "base/status.h"

/*
 * Who may use what sillet makes beside a profile: its owner, and whoever else may write the
 * profile itself. So two people with one folder share its locks and earlier states, and
 * somebody who may only look at a profile sees no more than that. What the administrator's program
 * makes is the profile's owner's too: left behind, it must not shut them out.
 */
struct share {
    mode_t mode; /* of a file: 0600, with 060 for the group and 06 for all where they may write */
    gid_t group;
    uid_t owner; /* (uid_t)-1: whoever makes it */
};

/* As the profile at `target` has it. One that is not there yet is for its owner alone, in a
 * folder made for a group (setgid, writable by it) for that group too. */
struct share share_of(const char *target);

/* Whether anybody but who makes it shares it, so that it has to be given. */
bool share_is_wide(const struct share *share);

/*
 * Gives an opened file or folder of one's own that mode (a folder with the right to enter),
 * group and, where the system lets us, owner. Where the group cannot be given, its rights are left
 * out: they would go to another one. Failures as of safefile.
 */
enum status share_give(int fd, const struct share *share);

/*
 * Makes a folder of sillet's own for a share and syncs the one that it lies in; fine when it is
 * there. Only the last part is made, and no link is taken for it: STATUS_NOT_REGULAR for
 * anything but a folder. Failures as of safefile.
 */
enum status share_make_folder(const char *path, const struct share *share);

/* Whether the system lets us put another file in this one's place: in a sticky folder only the
 * file's owner and the folder's may. True also where it cannot be told. */
bool share_may_replace(const char *target);

#endif
