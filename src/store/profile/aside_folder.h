/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_ASIDE_FOLDER_H
#define SILLET_STORE_PROFILE_ASIDE_FOLDER_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "store/profile/copy.h"

/*
 * The folder of what is kept aside (aside.h): $XDG_STATE_HOME/sillet/aside, else
 * ~/.local/state/sillet/aside. A file's name there tells of which profile it is, and of which
 * state of that profile:
 *
 *     uke-1A2B3C4D-5E6F7081.ini
 *
 * the profile's own name in short, the CRC-32 of its whole path, that of what it held; and .2 and
 * so on behind it where that name is taken.
 */

/* Room for a short file name, two sums and dashes. */
enum { ASIDE_NAME_SIZE = 96 };

/* Without the ending, and the number behind it. */
struct aside_name {
    char text[ASIDE_NAME_SIZE];
    size_t of_file; /* so much of it is the same for every state of the file */
};

/* The name for a profile that holds these bytes. */
struct aside_name aside_name_for(const char *target, const struct bytes *bytes);

/* Whether a path ends in that name, numbered or not: then it is of that state of the file. */
bool aside_is_named(const char *path, const struct aside_name *name);

/* The folder's path, owned by the caller. Failures of paths_state_folder. */
enum status aside_folder_find(char **ret_folder);

/* Lists what is there of any state of the profile, in the order of the names. Failures of
 * disk_each_name, after which the list holds those before it; STATUS_NO_MEMORY. */
enum status aside_folder_list(const char *folder, const struct aside_name *name,
                              struct copies *list);

/* For copies.c: aside_folder_list for a profile of that path; STATUS_CHANGED when there is any. */
enum status aside_list(enum copy_kind kind, const char *target, struct copies *list);
enum status aside_none(enum copy_kind kind, const char *target);

#endif
