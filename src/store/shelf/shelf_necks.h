/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_SHELF_SHELF_NECKS_H
#define SILLET_STORE_SHELF_SHELF_NECKS_H

#include "model/setup/rod_prior.h"
#include "store/shelf/shelf_entry.h"

/* What the necks on a shelf say about the rods of their kinds. */

/* From what has been read so far. `own`, the file that is open, does not count, under whatever name
 * or link it is there. */
void shelf_necks_read(const struct shelf_entries *entries, const char *own,
                      struct rod_priors *ret_priors);

/* The same for a profile that was opened by its path, from the cache of its folder alone, so that
 * no other profile is read. Files that have changed since do not count; nor does anything where
 * there is no cache, or it is not of this version. */
void shelf_necks_read_cached(const char *path, struct rod_priors *ret_priors);

#endif
