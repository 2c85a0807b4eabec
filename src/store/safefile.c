/* SPDX-License-Identifier: MIT */
#include "store/safefile.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "store/disk.h"
#include "store/host.h"
#include "store/paths.h"

/* The path with the links of its folder followed, but not a link with the last name. */
static char *target_in_folder(const char *path)
{
    const char *name = paths_name_of(path);

    if (*name == '\0' || strcmp(name, ".") == 0 || strcmp(name, "..") == 0) {
        errno = ENOENT;
        return NULL;
    }
    char *given = paths_folder_of(path);
    char *folder = given ? realpath(given, NULL) : NULL;
    char *target = folder ? paths_join(folder, name) : NULL;
    free(folder);
    free(given);
    return target;
}

char *safefile_target(const char *path)
{
    struct stat facts;
    char *target = realpath(path, NULL);

    if (target || errno != ENOENT)
        return target;
    if (lstat(path, &facts) == 0) {
        errno = ENOLINK;
        return NULL;
    }
    return target_in_folder(path);
}

/* Opens the folder of a target; *ret_name points into the target. */
static int open_folder(char *target, const char **ret_name)
{
    char *slash = strrchr(target, '/');

    *ret_name = slash + 1;
    if (slash == target)
        return open("/", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    *slash = '\0';
    const int folder = open(target, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    *slash = '/';
    return folder;
}

/* safefile_sweep compares the time in the name with that of the file. */
static void write_temp_name(char *name, size_t size, unsigned number)
{
    struct strbuf text = strbuf_over(name, size);

    strbuf_add(&text, ".sillet-");
    host_add_name(&text);
    strbuf_addf(&text, "-%d-%lld-%u.tmp", (int)getpid(), (long long)time(NULL), number);
}

static int create_temp(struct safefile *file)
{
    for (unsigned number = 0; number < 1000; number++) {
        write_temp_name(file->temp, sizeof file->temp, number);
        const int fd = openat(file->folder, file->temp,
                              O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0600);
        if (fd >= 0 || errno != EEXIST)
            return fd;
    }
    return -1;
}

/*
 * Gives the temporary file the owner, group and mode of the old file. Any member of a group can
 * keep it.
 */
static enum status copy_mode(int fd, const struct stat *facts)
{
    const struct share share = {.mode = facts->st_mode & (S_IRWXU | S_IRWXG | S_IRWXO),
                                .group = facts->st_gid,
                                .owner = facts->st_uid};

    return share_give(fd, &share);
}

/* Whether the name may be used; takes the old file's mode over. */
static enum status look_at_old(struct safefile *file)
{
    struct stat facts;

    if (fstatat(file->folder, file->name, &facts, AT_SYMLINK_NOFOLLOW) != 0)
        return errno == ENOENT ? STATUS_OK : disk_status(errno);
    if (file->mode == SAFEFILE_NEW) {
        errno = EEXIST;
        return STATUS_CHANGED;
    }
    if (!S_ISREG(facts.st_mode))
        return STATUS_NOT_REGULAR;
    /* A rename would ignore the old file's write protection. */
    if (faccessat(file->folder, file->name, W_OK, 0) != 0)
        return disk_status(errno);
    file->over = true;
    return copy_mode(file->fd, &facts);
}

static void release(struct safefile *file)
{
    if (file->fd >= 0)
        close(file->fd);
    if (file->folder >= 0)
        close(file->folder);
    free(file->name);
    file->fd = file->folder = -1;
    file->name = NULL;
}

void safefile_cancel(struct safefile *file)
{
    const int kept_errno = errno;

    if (file->folder >= 0 && file->temp[0])
        unlinkat(file->folder, file->temp, 0);
    file->temp[0] = '\0';
    release(file);
    errno = kept_errno;
}

static enum status begin_target(char *target, struct safefile *file)
{
    const char *name;

    file->folder = open_folder(target, &name);
    if (file->folder < 0)
        return disk_status(errno);
    file->name = strdup(name);
    if (!file->name)
        return STATUS_NO_MEMORY;
    file->fd = create_temp(file);
    if (file->fd < 0) {
        const enum status status = disk_status(errno);
        file->temp[0] = '\0'; /* the file of that name is not ours */
        return status;
    }
    return look_at_old(file);
}

enum status safefile_begin(const char *path, enum safefile_mode mode, struct safefile *ret_file)
{
    struct safefile file = {.fd = -1, .folder = -1, .mode = mode};
    char *target = mode == SAFEFILE_REPLACE ? safefile_target(path) : target_in_folder(path);

    if (!target)
        return errno == ENOENT ? STATUS_NOT_FOUND : disk_status(errno);
    const enum status status = begin_target(target, &file);
    disk_free(target);
    if (status != STATUS_OK)
        safefile_cancel(&file);
    else
        *ret_file = file;
    return status;
}

enum status safefile_share(struct safefile *file, const struct share *share)
{
    return file->over || !share_is_wide(share) ? STATUS_OK : share_give(file->fd, share);
}

static enum status remember(struct safefile *file, int error)
{
    file->error = error;
    file->status = disk_status(error);
    return file->status;
}

enum status safefile_write(struct safefile *file, const char *bytes, size_t length)
{
    if (file->status != STATUS_OK)
        return file->status;
    while (length > 0) {
        const ssize_t written = write(file->fd, bytes, length);

        if (written < 0 && errno == EINTR)
            continue;
        if (written <= 0)
            return remember(file, written < 0 ? errno : EIO);
        bytes += written;
        length -= (size_t)written;
    }
    return STATUS_OK;
}

static void note_temp(struct safefile *file)
{
    struct stat facts;

    if (fstat(file->fd, &facts) != 0)
        return;
    file->device = facts.st_dev;
    file->inode = facts.st_ino;
}

/* Whether the temporary file got the name although the call reported a failure. */
static bool has_name(const struct safefile *file)
{
    const int kept_errno = errno;
    struct stat facts;
    const bool has = file->inode != 0 &&
                     fstatat(file->folder, file->name, &facts, AT_SYMLINK_NOFOLLOW) == 0 &&
                     facts.st_dev == file->device && facts.st_ino == file->inode;

    errno = kept_errno;
    return has;
}

static enum status rename_temp(struct safefile *file)
{
    if (renameat(file->folder, file->temp, file->folder, file->name) != 0 && !has_name(file))
        return disk_status(errno);
    file->temp[0] = '\0';
    file->replaced = true;
    return STATUS_OK;
}

/* link() fails if the name is taken; rename() would replace the file. */
static enum status link_temp(struct safefile *file)
{
    struct stat facts;

    if (linkat(file->folder, file->temp, file->folder, file->name, 0) == 0 || has_name(file)) {
        file->replaced = true;
        if (unlinkat(file->folder, file->temp, 0) != 0)
            return disk_status(errno);
        file->temp[0] = '\0';
        return STATUS_OK;
    }
    if (errno == EEXIST)
        return STATUS_CHANGED;
    if (!disk_lacks_links(errno))
        return disk_status(errno);
    if (fstatat(file->folder, file->name, &facts, AT_SYMLINK_NOFOLLOW) == 0) {
        errno = EEXIST;
        return STATUS_CHANGED;
    }
    return rename_temp(file);
}

static enum status close_temp(struct safefile *file)
{
    const int fd = file->fd;

    file->fd = -1;
    return close(fd) == 0 ? STATUS_OK : disk_status(errno);
}

static enum status finish(struct safefile *file)
{
    enum status status = file->status;

    if (status != STATUS_OK) {
        errno = file->error;
        return status;
    }
    if (fsync(file->fd) != 0)
        return disk_status(errno);
    note_temp(file);
    if ((status = close_temp(file)) != STATUS_OK)
        return status;
    status = file->mode == SAFEFILE_NEW ? link_temp(file) : rename_temp(file);
    return status == STATUS_OK ? disk_sync_folder(file->folder) : status;
}

enum status safefile_commit(struct safefile *file)
{
    const enum status status = finish(file);

    safefile_cancel(file);
    return status;
}

enum status safefile_put(const char *path, enum safefile_mode mode, const struct share *share,
                         const char *bytes, size_t length, bool *ret_replaced)
{
    struct safefile file;
    enum status status = safefile_begin(path, mode, &file);

    if (status == STATUS_OK && share && (status = safefile_share(&file, share)) != STATUS_OK)
        safefile_cancel(&file);
    if (status != STATUS_OK)
        return status;
    safefile_write(&file, bytes, length);
    status = safefile_commit(&file);
    if (ret_replaced)
        *ret_replaced = file.replaced;
    return status;
}
