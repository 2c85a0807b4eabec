/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_ASIDE_H
#define SILLET_STORE_PROFILE_ASIDE_H

#include "model/reading/record.h"
#include "store/profile/profile.h"

/*
 * A second place for a record that cannot be saved to its own file, because the disk is full or the
 * folder has become read-only. It is kept as a whole profile in the folder of aside_folder.h, for
 * its owner alone, and looked for when the profile is opened again.
 */

/*
 * Keeps `record` aside after profile_save failed. *path is the file that this session kept before,
 * which is replaced, or NULL; it becomes the new file, owned by the caller. Files that other
 * sessions kept stay. Fails as profile_edit, paths_make_folder and safefile; the file kept before
 * is then still there.
 */
enum status aside_keep(const struct profile *profile, const struct record *record, char **path);

enum aside_found {
    ASIDE_NONE,
    ASIDE_RECORD, /* a later record, based on the state that is on disk */
    ASIDE_BESIDE, /* based on another state; moved beside the profile as NAME.aside */
    ASIDE_STAYS,  /* one that can neither be used nor be moved beside the profile now */
    ASIDE_UNSEEN, /* there may be one, but the folder cannot be read */
};

/*
 * Looks for a record that an earlier session kept aside for an open profile. Only ASIDE_RECORD sets
 * *ret_record; its file stays until aside_drop. All but ASIDE_NONE set *ret_path to the path to
 * look at. If there are several, each opening deals with one of them, those of this state first.
 * One that holds what is on disk already is removed silently.
 */
enum aside_found aside_find(const struct profile *profile, struct record *ret_record,
                            char **ret_path);

/* Removes the file, once its record is saved, and frees *path, which may be NULL. */
void aside_drop(char **path);

#endif
