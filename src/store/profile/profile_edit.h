/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_PROFILE_EDIT_H
#define SILLET_STORE_PROFILE_PROFILE_EDIT_H

#include "store/profile/profile_load.h"

/*
 * For this folder only. Appends to `out` the profile's text changed so that it holds `wanted`, with
 * a new [end]. Changed readings are edited in their lines. Removed readings are taken out, with the
 * section line if nothing is left under it. New readings go to the end of their section; a new
 * section goes after the one before it in the order of writing. Every other byte stays.
 * STATUS_TOO_LONG, STATUS_NO_MEMORY.
 */
enum status profile_edit(const struct profile_content *content, const struct record *wanted,
                         struct bytes *out);

#endif
