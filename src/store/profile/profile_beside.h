/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_PROFILE_BESIDE_H
#define SILLET_STORE_PROFILE_PROFILE_BESIDE_H

#include "store/profile/copy.h"

/*
 * For the store only. Files that sillet makes beside a profile are called TARGET.SUFFIX, then
 * TARGET.SUFFIX.2 and so on. A name longer than BESIDE_NAME_MAX bytes is cut and its CRC-32 added,
 * so that even the longest file name leaves room for a suffix.
 */
enum {
    BESIDE_NAME_MAX = 230,
    BESIDE_NUMBER_MAX = 999999, /* never reached; only ends a search */
};

/* That path, which the caller frees; NULL if out of memory. */
char *beside_path(const char *target, const char *suffix, int number);

/* STATUS_CHANGED if anything has the first of these names. */
enum status beside_is_free(const char *target, const char *suffix);

/*
 * Keeps a copy with the suffix of its kind, shared as the target is. It gets the first name that is
 * free or holds the same bytes already: *ret_path, owned by the caller. Fails as safefile;
 * STATUS_FULL with EEXIST if every number is taken.
 */
enum status beside_keep(enum copy_kind kind, const char *target, const struct bytes *bytes,
                        char **ret_path);

/* For copies.c. List: the regular files of these names, whatever they hold. None: STATUS_CHANGED if
 * anything has the first name. Move: one by one; if some stay, the first failure
 * with its errno. */
enum status beside_list(enum copy_kind kind, const char *target, struct copies *list);
enum status beside_none(enum copy_kind kind, const char *target);
enum status beside_move(enum copy_kind kind, const char *target, const char *to);

#endif
