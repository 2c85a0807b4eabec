/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_PROFILE_EDIT_H
#define SILLET_STORE_PROFILE_PROFILE_EDIT_H

#include "store/profile/profile_load.h"

/*
 * Inside store only. Appends to `out` the profile's text with `wanted` in place of its
 * record, closed by a fresh [end]: changed readings are edited in their lines, removed
 * ones go (and their section's line, once nothing is left under it), new ones come at the
 * end of their section, new sections behind the section before them in the record's
 * order. Every other byte stays. STATUS_TOO_LONG, STATUS_NO_MEMORY.
 */
enum status profile_edit(const struct profile_content *content, const struct record *wanted,
                         struct bytes *out);

#endif
