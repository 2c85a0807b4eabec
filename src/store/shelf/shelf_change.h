/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_SHELF_SHELF_CHANGE_H
#define SILLET_STORE_SHELF_SHELF_CHANGE_H

#include "model/reading/record.h"
#include "store/profile/profile_name.h"

/*
 * Changes to a shelf: a new profile, a copy, a move to the archive. Nothing is ever overwritten or
 * lost. After a failure nothing has changed; errno is set with STATUS_IO. *ret_file is the new
 * file's name within the folder, which the caller frees.
 */

/*
 * Files a record under a name: sets the name in the record, makes the folder (mode 0700) if it is
 * missing, and writes a new profile (mode 0600, or 0660 in a folder made for a group). A file name
 * also counts as taken if an earlier profile left earlier states, a lock or copies under it.
 * STATUS_FULL with EEXIST if every numbered file name is taken. Fails as paths_make_folder,
 * profile_create and profile_save.
 */
enum status shelf_file_record(const char *folder, struct record *record, const char *name,
                              char **ret_file);

/* The same with what another instrument may begin as: the record of an existing profile without its
 * visits and what is of that one alone, as owner, serial number, year, notes and setbacks. Also
 * fails as profile_open. */
enum status shelf_copy(const char *folder, const char *file, const char *name, char **ret_file);

/*
 * Moves a profile and its earlier states to archive/ in the folder, under its own name or, if that
 * is taken, with -2, -3 ... added. It is removed here only after it is on disk there. *ret_file is
 * its name there. STATUS_LOCKED while another program edits it; STATUS_NOT_REGULAR if it is a link
 * or no file, or archive/ is no folder; STATUS_NOT_FOUND; STATUS_FULL, STATUS_READ_ONLY,
 * STATUS_IO.
 */
enum status shelf_archive(const char *folder, const char *file, char **ret_file);

/* STATUS_CHANGED if there are earlier states, a lock or copies that a new profile of that path
 * would take for its own, or a broken link has the name. Fails as disk_none. */
enum status shelf_path_is_free(const char *path);

#endif
