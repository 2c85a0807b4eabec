/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_INNER_H
#define SILLET_STORE_PROFILE_INNER_H

#include "store/profile.h"
#include "store/profile_load.h"

/* Inside store only: what is behind an open profile. */

/* Its file, links followed. */
const char *profile_target(const struct profile *profile);

/* The text that is on disk, as far as we know, and its record. Valid until the next save. */
const struct profile_content *profile_content(const struct profile *profile);

#endif
