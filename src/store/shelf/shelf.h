/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_SHELF_SHELF_H
#define SILLET_STORE_SHELF_SHELF_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "store/shelf/shelf_entry.h"

/*
 * The instruments on file: the profiles of one folder. Their names are there at once; what
 * stands on each card comes from a cache where the file did not change since, and is read
 * piece by piece where it did:
 *
 *     struct shelf *shelf;
 *     status = shelf_open(folder, &shelf);
 *     while (shelf_read_next(shelf))      one file a call, the newest first
 *         ... shelf_entries(shelf) may be shown in between ...
 *     shelf_keep_cache(shelf);
 *     shelf_close(shelf);
 *
 * Nothing is ever written into the folder itself.
 */
struct shelf;

/*
 * Begins with a folder and lists it as shelf_scan does. STATUS_NO_MEMORY; a folder that
 * cannot be listed opens too: see shelf_status.
 */
enum status shelf_open(const char *folder, struct shelf **ret_shelf);
void shelf_close(struct shelf *shelf);

/*
 * Lists the folder anew; what was read of an unchanged file stays. The result is what
 * shelf_status says from then on; after a failure the shelf is empty.
 */
enum status shelf_scan(struct shelf *shelf);

/* How the last listing went: STATUS_OK; STATUS_NOT_FOUND when there is no such folder (yet);
 * STATUS_NOT_REGULAR when it is none; STATUS_NO_MEMORY; STATUS_IO, see shelf_error. */
enum status shelf_status(const struct shelf *shelf);
int shelf_error(const struct shelf *shelf);

/* True when names came, went or were replaced since the last listing. */
bool shelf_is_stale(const struct shelf *shelf);

/* The folder as it was given. */
const char *shelf_folder(const struct shelf *shelf);

/* Sorted by file. Valid until the next shelf_scan, shelf_read_next or shelf_close. */
const struct shelf_entries *shelf_entries(const struct shelf *shelf);

/* How many entries are still unread. */
size_t shelf_unread(const struct shelf *shelf);

/* Reads one of them; false when none was left. */
bool shelf_read_next(struct shelf *shelf);

/* Writes the cache when it would say something new. That it cannot be written is no
 * failure: the next start is slower. */
void shelf_keep_cache(struct shelf *shelf);

#endif
