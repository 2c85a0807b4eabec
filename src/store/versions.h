/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_VERSIONS_H
#define SILLET_STORE_VERSIONS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"

/*
 * Other versions of a profile, which lie beside it because neither was to be thrown away:
 * NAME.conflict where somebody else had changed the file, NAME.aside where what was kept aside
 * was of another state of it; more of them with .2, .3 and so on. They are said wherever the
 * profile is met, until somebody has chosen which one stays.
 */
struct version {
    char *path;         /* owned by the list */
    const char *suffix; /* "conflict" or "aside", */
    int number;         /* from 1 */
    char when[17];      /* it was written: 2026-11-25 13:06, UTC */
};

struct versions {
    struct version *items;
    size_t count, capacity;
};

/* Lists the regular files of these names, whatever is in them. `target` as safefile_target gives
 * it. STATUS_NO_MEMORY. */
enum status versions_list(const char *target, struct versions *ret_list);
void versions_done(struct versions *list);

/* The last part of a version's path. */
const char *version_name(const struct version *version);

/* How long the part of a file's name is that names a profile, where the rest says that it is a
 * version beside that; 0 for any other name. */
size_t versions_profile_length(const char *file);

/*
 * Makes a version an earlier state of the profile, so that it lies beside it no more. Only what
 * opens as a profile is taken for one: else the failures of profile_load. Failures of
 * generations_keep; STATUS_CHANGED when it is being written just now. It stays where it is then.
 */
enum status versions_put_away(const char *target, const struct version *version);

/*
 * Moves them beside another target of the same disk. On failure those that could not be moved stay
 * as they are, and the first failure is told: STATUS_CHANGED where a name is taken.
 */
enum status versions_move(const char *target, const char *to);

#endif
