/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_SAFEFILE_H
#define SILLET_STORE_SAFEFILE_H

#include <stdbool.h>
#include <stddef.h>
#include <sys/types.h>

#include "base/status.h"
#include "store/share.h"

/*
 * A file written so that afterwards either the old one or the new one is there, whole:
 *
 *     struct safefile file;
 *     if (safefile_begin(path, SAFEFILE_REPLACE, &file) == STATUS_OK) {
 *         safefile_write(&file, bytes, length);   as often as wanted
 *         status = safefile_commit(&file);        or safefile_cancel(&file)
 *     }
 *
 * The bytes go to a temporary file in the same folder, which is synced and then takes
 * the name over; the folder is synced after. A failed write is remembered, so only the
 * commit needs asking. A rename or link that was done and reported as failed, as network file
 * systems may, counts as done. After a commit or cancel nothing is left to free, and after a
 * failure the temporary file is gone. Failures are STATUS_IO (STATUS_FULL for a full
 * disk, quota or size limit; STATUS_READ_ONLY where the file, its folder or the disk
 * may not be written), with errno as the failing call left it.
 *
 * A symbolic link is followed where a user named the file (SAFEFILE_REPLACE): its target is
 * replaced, never the link, and one that leads nowhere is STATUS_NOWHERE. What sillet makes
 * by itself goes through no link. The existing file's mode and group are kept, and its owner
 * where the system allows; where not even the group can be, its rights go. A new file gets
 * mode 0600. Other hard links to the old file keep the old content; access lists and extended
 * attributes are not carried over.
 *
 * The process must ignore SIGXFSZ, else a size limit kills it instead of failing a write.
 */
enum safefile_mode {
    SAFEFILE_REPLACE, /* whatever has that name */
    SAFEFILE_NEW,     /* nothing may have that name: STATUS_CHANGED at begin or commit */
    SAFEFILE_OWN,     /* nothing but a file, which is replaced; a link is STATUS_NOT_REGULAR */
};

struct safefile {
    int fd, folder;
    char temp[144];
    char *name; /* within the folder; owned */
    enum safefile_mode mode;
    enum status status; /* of the first failed write */
    int error;          /* its errno */
    dev_t device;       /* of the temporary file, and */
    ino_t inode;        /* 0 while it is not known */
    bool over;          /* there is an old file, whose mode the new one has */
    bool replaced;      /* the new file has the name, even if the commit failed after that */
};

enum status safefile_begin(const char *path, enum safefile_mode mode, struct safefile *ret_file);

/* Shares a new file; one that takes another's place has that one's mode and group already. */
enum status safefile_share(struct safefile *file, const struct share *share);
enum status safefile_write(struct safefile *file, const char *bytes, size_t length);
enum status safefile_commit(struct safefile *file);
void safefile_cancel(struct safefile *file);

/* All in one: a file of these bytes; `share` NULL: for the owner alone. *ret_replaced (NULL: nobody
 * asks) as in struct safefile. */
enum status safefile_put(const char *path, enum safefile_mode mode, const struct share *share,
                         const char *bytes, size_t length, bool *ret_replaced);

/*
 * Removes the temporary files that dead processes of this machine left in a folder. Their names
 * tell when they were made; a file that was not written then is somebody's own and stays.
 * Returns how many; 0 also when the folder cannot be read.
 */
int safefile_sweep(const char *folder);
/* The folder that a path lies in. */
void safefile_sweep_beside(const char *path);

/*
 * The file that a path leads to, links followed; the last part need not exist. NULL with
 * errno set when there is no such folder, the link leads nowhere (ENOLINK), or memory is
 * short. The caller frees it.
 */
char *safefile_target(const char *path);

#endif
