/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_ASIDE_H
#define SILLET_STORE_PROFILE_ASIDE_H

#include "model/record.h"
#include "store/profile/profile.h"

/*
 * A second place for a record that its own file does not take: a full disk, a folder that
 * turned read-only. It is a whole profile in $XDG_STATE_HOME/sillet/aside (else
 * ~/.local/state/sillet/aside), for the owner only, and is looked for when the profile is
 * opened again. aside_folder.h says what it is called.
 */

/*
 * Keeps `record` aside, after profile_save failed. *path is where the same session has kept it
 * before, which this one replaces, or NULL; then where it is now (owned by the caller). What any
 * other session kept stays. Failures of profile_edit, paths_make_folder and safefile: then it is
 * not kept, and what was kept before still is.
 */
enum status aside_keep(const struct profile *profile, const struct record *record, char **path);

enum aside_found {
    ASIDE_NONE,
    ASIDE_RECORD, /* of the state that is on disk: it is the later one */
    ASIDE_BESIDE, /* of another state: now beside the profile, as NAME.aside */
    ASIDE_STAYS,  /* one that can neither be taken nor be put beside it now */
    ASIDE_UNSEEN, /* there may be one, but the folder cannot be read */
};

/*
 * Looks for what an earlier session kept aside for an opened profile. Only ASIDE_RECORD gives
 * a record; its file at *ret_path stays until aside_drop. The others give the path to look at.
 * Where there are several, each opening deals with one of them, those of this state first.
 * One that holds what is on disk already is removed without a word.
 */
enum aside_found aside_find(const struct profile *profile, struct record *ret_record,
                            char **ret_path);

/* Removes the file once its record is where it belongs, and frees *path; NULL is fine. */
void aside_drop(char **path);

#endif
