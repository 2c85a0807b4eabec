/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_DISK_H
#define SILLET_STORE_DISK_H

#include <stdbool.h>

#include "base/status.h"

/* What the system says of files and folders, as a status. */

/* The status for an errno after a failed write: STATUS_FULL, STATUS_READ_ONLY, STATUS_NOWHERE,
 * STATUS_NO_MEMORY, STATUS_IO. */
enum status disk_status(int error);

/* Whether link() failed as it does where a file can have one name only: on FAT, on some network
 * shares. */
bool disk_lacks_links(int error);

/* STATUS_OK when nothing has that name, STATUS_CHANGED when anything has, a link too; failures
 * of the asking. */
enum status disk_none(const char *path);

/* Whether a file or folder has left its old name for the new one. errno stays as it is. */
bool disk_has_moved(const char *from, const char *to);

/* Gives a new name. What is there afterwards counts, not what the system said of it, as a file
 * server may lose its answer. Whether the name is free is for the caller to ask. */
enum status disk_rename(const char *from, const char *to);

/* Give back what a failure must not hide: errno stays as it is. */
void disk_free(void *memory);
void disk_close(int fd);

/* Hands over each name in a folder, which may be missing. What `take` says ends it; where not
 * every name could be read, the status says so. */
enum status disk_each_name(const char *folder, enum status (*take)(void *context, const char *name),
                           void *context);

/* A sync of a folder, opened or by its path; fine where the file system has none. */
enum status disk_sync_folder(int folder);
enum status disk_sync_path(const char *path);

#endif
