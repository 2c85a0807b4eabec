/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_ASIDE_FOLDER_H
#define SILLET_STORE_PROFILE_ASIDE_FOLDER_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "store/profile/copy.h"

/*
 * The folder of records kept aside (aside.h): $XDG_STATE_HOME/sillet/aside, else
 * ~/.local/state/sillet/aside. The name of a file there says which profile it belongs to, and which
 * state of it:
 *
 *     uke-1A2B3C4D-5E6F7081.ini
 *
 * These are the profile's name, shortened, the CRC-32 of its path, and the CRC-32 of its bytes. If
 * the name is taken, .2, .3 ... is added.
 */

/* Room for a shortened file name, two checksums and dashes. */
enum { ASIDE_NAME_SIZE = 96 };

/* Without .ini and the number. */
struct aside_name {
    char text[ASIDE_NAME_SIZE];
    size_t of_file; /* the length of the part that is the same for every state */
};

/* The name for a profile that holds these bytes. */
struct aside_name aside_name_for(const char *target, const struct bytes *bytes);

/* Whether a path ends in that name, numbered or not, and so belongs to that state. */
bool aside_is_named(const char *path, const struct aside_name *name);

/* The folder's path, owned by the caller. Fails as paths_state_folder. */
enum status aside_folder_find(char **ret_folder);

/* Lists the files of every state of the profile, by name. Fails as disk_each_name; the list then
 * holds those found before. STATUS_NO_MEMORY. */
enum status aside_folder_list(const char *folder, const struct aside_name *name,
                              struct copies *list);

/* For copies.c. The first lists all for a target; the second is STATUS_CHANGED if there are any. */
enum status aside_list(enum copy_kind kind, const char *target, struct copies *list);
enum status aside_none(enum copy_kind kind, const char *target);

#endif
