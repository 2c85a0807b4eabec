/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_SHELF_SHELF_CACHE_H
#define SILLET_STORE_SHELF_SHELF_CACHE_H

#include "store/shelf/shelf_entry.h"

/*
 * For this folder only. Keeps the cards of a folder's profiles, so that the next start need not
 * read the profiles again. It is a text file, one line an entry, with a CRC-32 at the end. It is
 * only a hint: an entry is used if its stamp is that of the file, and a damaged cache is ignored.
 */

/* The path of the cache for a folder, given by its real path. The caller frees it. Fails as
 * paths_cache_folder. */
enum status shelf_cache_path(const char *folder, char **ret_path);

/* STATUS_DAMAGED unless it is a whole cache of this folder, written by this version. Fails as
 * file_read. *ret_entries is sorted, and every entry is read and settled. */
enum status shelf_cache_read(const char *path, const char *folder,
                             struct shelf_entries *ret_entries);

/* Writes the entries that shelf_cache_wants. Makes the cache's folder if it is missing. Fails as
 * safefile. */
enum status shelf_cache_write(const char *path, const char *folder,
                              const struct shelf_entries *entries);

/* Whether an entry is worth keeping: read, settled, and the same for every reader. */
bool shelf_cache_wants(const struct shelf_entry *entry);

#endif
