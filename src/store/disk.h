/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_DISK_H
#define SILLET_STORE_DISK_H

#include <stdbool.h>

#include "base/status.h"

/* Calls on files and folders that answer with a status. */

/* The status for an errno after a failed write: STATUS_FULL, STATUS_READ_ONLY, STATUS_NOWHERE,
 * STATUS_NO_MEMORY, STATUS_IO. */
enum status disk_status(int error);

/* True for the errors of link() on file systems without hard links: FAT, some network shares. */
bool disk_lacks_links(int error);

/* STATUS_OK if nothing has that name; STATUS_CHANGED if something has, even a broken link; the
 * status of disk_status if that cannot be told. */
enum status disk_none(const char *path);

/* Whether a file or folder has left its old name for the new one. Keeps errno. */
bool disk_has_moved(const char *from, const char *to);

/* Renames. Succeeds if the new name is there afterwards, even if the call reported a failure: a
 * file server may lose its answer. The caller makes sure that the name is free. */
enum status disk_rename(const char *from, const char *to);

/* free and close for clean-up after a failure: they keep errno. */
void disk_free(void *memory);
void disk_close(int fd);

/* Calls `take` for each name in a folder, until it returns anything but STATUS_OK, which is then
 * returned. A missing folder has no names. Fails if not every name could be read. */
enum status disk_each_name(const char *folder, enum status (*take)(void *context, const char *name),
                           void *context);

/* Sync a folder, open or by its path. STATUS_OK too if the file system cannot sync folders. */
enum status disk_sync_folder(int folder);
enum status disk_sync_path(const char *path);

#endif
