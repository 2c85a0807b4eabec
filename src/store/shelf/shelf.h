/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_SHELF_SHELF_H
#define SILLET_STORE_SHELF_SHELF_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "store/shelf/shelf_entry.h"

/*
 * The instruments on file: the profiles of one folder. Their names are known at once. Their cards
 * come from a cache if the file has not changed, else the file is read, one file a call:
 *
 *     struct shelf *shelf;
 *     status = shelf_open(folder, &shelf);
 *     while (shelf_read_next(shelf))      the newest first
 *         ... shelf_entries(shelf) may be shown in between ...
 *     shelf_keep_cache(shelf);
 *     shelf_close(shelf);
 *
 * A list on the screen calls shelf_look_next instead. It goes through the files twice: what is
 * listed of each is soon there for all, and what has to be worked out comes after it.
 *
 * Nothing is ever written to the folder itself.
 */
struct shelf;

/*
 * Opens a folder and lists it as shelf_scan does. STATUS_NO_MEMORY. A folder that cannot be listed
 * opens too: see shelf_status.
 */
enum status shelf_open(const char *folder, struct shelf **ret_shelf);
void shelf_close(struct shelf *shelf);

/*
 * Lists the folder again and keeps the cards of unchanged files. The status is also that of
 * shelf_status from then on. After a failure the shelf is empty.
 */
enum status shelf_scan(struct shelf *shelf);

/* The status of the last listing: STATUS_OK; STATUS_NOT_FOUND if there is no folder (yet);
 * STATUS_NOT_REGULAR if it is not a folder; STATUS_NO_MEMORY; STATUS_IO, with the errno in
 * shelf_error. */
enum status shelf_status(const struct shelf *shelf);
int shelf_error(const struct shelf *shelf);

/* True if files were added, removed or replaced since the last listing. */
bool shelf_is_stale(const struct shelf *shelf);

/* The folder as given to shelf_open. */
const char *shelf_folder(const struct shelf *shelf);

/* Sorted by file. Valid until the next shelf_scan or shelf_close; the texts and facts of an entry
 * until it is read or looked at. */
const struct shelf_entries *shelf_entries(const struct shelf *shelf);

/* How many entries are still unread; and how many of them were not even looked at. */
size_t shelf_unread(const struct shelf *shelf);
size_t shelf_unseen(const struct shelf *shelf);

/* Reads the next one; false if none is left. */
bool shelf_read_next(struct shelf *shelf);

/* Looks at the next one (shelf_glance.h); if all were looked at, reads the next one. *ret_at is the
 * entry's index. False if none is left. */
bool shelf_look_next(struct shelf *shelf, size_t *ret_at);

/* Writes the cache if it has changed. A failure is ignored: the next start is merely slower. */
void shelf_keep_cache(struct shelf *shelf);

#endif
