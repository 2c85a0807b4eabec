/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_PROFILE_BESIDE_H
#define SILLET_STORE_PROFILE_PROFILE_BESIDE_H

#include "store/profile/copy.h"

/*
 * Inside store only. What sillet makes beside a profile is called TARGET.SUFFIX, then
 * TARGET.SUFFIX.2 and so on. Of a name longer than BESIDE_NAME_MAX bytes only its start stands
 * there, and its CRC-32, so that every name that a file can have leaves room for them.
 */
enum {
    BESIDE_NAME_MAX = 230,
    BESIDE_NUMBER_MAX = 999999, /* so many that nobody reaches it; it only ends a search */
};

/* That path; to be freed, NULL without memory. */
char *beside_path(const char *target, const char *suffix, int number);

/* STATUS_CHANGED when anything has the first of these names. */
enum status beside_is_free(const char *target, const char *suffix);

/*
 * Keeps a copy under the suffix of its kind, shared as the target is: under the first name that is
 * free, or that of a file of its own which holds the same bytes already. *ret_path (owned by the
 * caller) says which. Failures as of safefile; STATUS_FULL with EEXIST when every number is taken.
 */
enum status beside_keep(enum copy_kind kind, const char *target, const struct bytes *bytes,
                        char **ret_path);

/* For copies.c: lists the regular files of these names, whatever is in them; asks for the first
 * name; moves them one by one. */
enum status beside_list(enum copy_kind kind, const char *target, struct copies *list);
enum status beside_none(enum copy_kind kind, const char *target);
enum status beside_move(enum copy_kind kind, const char *target, const char *to);

#endif
