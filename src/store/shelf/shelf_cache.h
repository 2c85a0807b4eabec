/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_SHELF_SHELF_CACHE_H
#define SILLET_STORE_SHELF_SHELF_CACHE_H

#include "store/shelf/shelf_entry.h"

/*
 * Inside store only. What was read of a folder's profiles, kept so that the next start need
 * not read them again. A text file of our own, one line an entry, closed by a CRC-32 of all
 * before it. It is a hint and nothing more: whoever uses an entry compares its stamp with the
 * file's first, and a cache that is not whole is as good as none.
 */

/* The cache's path for a folder (its real path), in the cache folder; to be freed.
 * Failures of paths_cache_folder. */
enum status shelf_cache_path(const char *folder, char **ret_path);

/* STATUS_DAMAGED for anything but a whole cache of this folder, written by this version;
 * failures of file_read. *ret_entries is sorted, every entry read and settled. */
enum status shelf_cache_read(const char *path, const char *folder,
                             struct shelf_entries *ret_entries);

/* Writes the entries that are worth keeping: read, settled, and the same for everyone who
 * reads them. Makes the cache's folder where it is missing. Failures of safefile. */
enum status shelf_cache_write(const char *path, const char *folder,
                              const struct shelf_entries *entries);

/* Whether an entry is one of these. */
bool shelf_cache_wants(const struct shelf_entry *entry);

#endif
