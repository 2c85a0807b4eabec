/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_SHELF_SHELF_CHANGE_H
#define SILLET_STORE_SHELF_SHELF_CHANGE_H

#include "model/record.h"
#include "store/profile/profile_name.h"

/*
 * What changes a shelf: a new profile, a copy, one put into the archive. Nothing is ever
 * written over and nothing removed. On failure nothing has changed, and errno is set with
 * STATUS_IO. *ret_file is the new file's name within the folder, to be freed.
 */

/*
 * Files a record under a name: sets it, makes the folder (mode 0700) where it is missing and
 * writes a new profile (mode 0600, 0660 in a folder made for a group). The record is changed. A
 * file name is taken, too, while anything lies there that an instrument of that name has left:
 * earlier states, a lock, copies beside it or aside. STATUS_FULL with EEXIST when every file name
 * of that kind is taken; failures of paths_make_folder, profile_create, profile_save.
 */
enum status shelf_file_record(const char *folder, struct record *record, const char *name,
                              char **ret_file);

/* The same with the instrument of an existing profile, its visits left out. Failures of
 * profile_open too. */
enum status shelf_copy(const char *folder, const char *file, const char *name, char **ret_file);

/*
 * Moves a profile to archive/ below the folder, under its own name or, where that is taken,
 * with -2, -3 ... behind it, and its earlier states with it. It is gone from here only once it
 * is on disk there. *ret_file is its name there. STATUS_LOCKED while another program
 * edits it; STATUS_NOT_REGULAR for a link or anything but a file, and where archive/ is no
 * folder; STATUS_NOT_FOUND; STATUS_FULL, STATUS_READ_ONLY, STATUS_IO.
 */
enum status shelf_archive(const char *folder, const char *file, char **ret_file);

/* STATUS_CHANGED where earlier states, a lock or copies lie that a new profile of that path
 * would find as its own, or a link that leads nowhere has its name; failures of disk_none. */
enum status shelf_path_is_free(const char *path);

#endif
