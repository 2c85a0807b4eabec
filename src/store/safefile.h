/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_SAFEFILE_H
#define SILLET_STORE_SAFEFILE_H

#include <stdbool.h>
#include <stddef.h>
#include <sys/types.h>

#include "base/status.h"
#include "store/share.h"

/*
 * Writes a file so that afterwards either the old one or the new one is there, whole:
 *
 *     struct safefile file;
 *     if (safefile_begin(path, SAFEFILE_REPLACE, &file) == STATUS_OK) {
 *         safefile_write(&file, bytes, length);   any number of times
 *         status = safefile_commit(&file);        or safefile_cancel(&file)
 *     }
 *
 * The bytes go to a temporary file in the same folder, which is synced and then renamed to the
 * real name; then the folder is synced. A failed write is remembered, so only the result of the
 * commit need be checked. A rename or link counts as done if the file has the name, even if a
 * network file system reported a failure. After a commit or cancel nothing is left to free, and
 * after a failure the temporary file is gone. Failures: STATUS_FULL for a full disk, quota or size
 * limit; STATUS_READ_ONLY if the file, its folder or the disk may not be written; else STATUS_IO;
 * errno is that of the failed call.
 *
 * SAFEFILE_REPLACE is for files that a user named and follows a symbolic link: its target is
 * replaced, never the link; STATUS_NOWHERE if the link is broken. Files that sillet makes itself
 * go through no link. The old file's mode and group are kept, and its owner if the system allows;
 * if the group cannot be kept, the group's rights are dropped. A new file gets mode 0600. Other
 * hard links to the old file keep the old content; access lists and extended attributes are lost.
 *
 * The process must ignore SIGXFSZ, or a size limit kills it instead of failing a write.
 */
enum safefile_mode {
    SAFEFILE_REPLACE, /* creates or replaces a file */
    SAFEFILE_NEW,     /* begin or commit say STATUS_CHANGED if the name is taken */
    SAFEFILE_OWN,     /* creates or replaces a file; STATUS_NOT_REGULAR for a link */
};

struct safefile {
    int fd, folder;
    char temp[144];
    char *name; /* within the folder; owned */
    enum safefile_mode mode;
    enum status status; /* of the first failed write */
    int error;          /* its errno */
    dev_t device;       /* of the temporary file */
    ino_t inode;        /* of it; 0 before it is known */
    bool over;          /* there is an old file, and the new one has its mode */
    bool replaced;      /* the new file has the name, even if the commit failed later */
};

enum status safefile_begin(const char *path, enum safefile_mode mode, struct safefile *ret_file);

/* Shares a new file. Does nothing if there is an old one, whose mode and group are kept. */
enum status safefile_share(struct safefile *file, const struct share *share);
enum status safefile_write(struct safefile *file, const char *bytes, size_t length);
enum status safefile_commit(struct safefile *file);
void safefile_cancel(struct safefile *file);

/* Begin, write and commit in one. With `share` NULL a new file is for its owner alone.
 * *ret_replaced, unless NULL, is as in struct safefile. */
enum status safefile_put(const char *path, enum safefile_mode mode, const struct share *share,
                         const char *bytes, size_t length, bool *ret_replaced);

/*
 * Removes the temporary files that dead processes of this machine left in a folder. Their names
 * say when they were made; a file that was written at another time is somebody's own and stays.
 * Returns how many were removed; 0 if the folder cannot be read.
 */
int safefile_sweep(const char *folder);
/* The same in the folder that a path is in. */
void safefile_sweep_beside(const char *path);

/*
 * The path with all links followed; its last part need not exist. NULL with errno set if its
 * folder does not exist, the link is broken (ENOLINK), or memory is short. The caller frees it.
 */
char *safefile_target(const char *path);

#endif
