/* SPDX-License-Identifier: MIT */
#include "store/disk.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

enum status disk_status(int error)
{
    switch (error) {
    case ENOSPC:
    case EDQUOT:
    case EFBIG:
        return STATUS_FULL;
    case EACCES:
    case EPERM:
    case EROFS:
        return STATUS_READ_ONLY;
    case ENOLINK:
        return STATUS_NOWHERE;
    case ENOMEM:
        return STATUS_NO_MEMORY;
    default:
        return STATUS_IO;
    }
}

bool disk_lacks_links(int error)
{
    return error == EPERM || error == EOPNOTSUPP || error == ENOTSUP || error == ENOSYS ||
           error == EMLINK;
}

enum status disk_none(const char *path)
{
    struct stat facts;

    if (lstat(path, &facts) == 0)
        return STATUS_CHANGED;
    return errno == ENOENT || errno == ENOTDIR ? STATUS_OK : disk_status(errno);
}

bool disk_has_moved(const char *from, const char *to)
{
    const int kept_errno = errno;
    const bool moved = disk_none(from) == STATUS_OK && disk_none(to) == STATUS_CHANGED;

    errno = kept_errno;
    return moved;
}

enum status disk_rename(const char *from, const char *to)
{
    if (renameat(AT_FDCWD, from, AT_FDCWD, to) == 0)
        return STATUS_OK;
    const enum status status = disk_status(errno);
    return disk_has_moved(from, to) ? STATUS_OK : status;
}

void disk_free(void *memory)
{
    const int kept_errno = errno;

    free(memory);
    errno = kept_errno;
}

void disk_close(int fd)
{
    const int kept_errno = errno;

    close(fd);
    errno = kept_errno;
}

enum status disk_each_name(const char *folder, enum status (*take)(void *context, const char *name),
                           void *context)
{
    enum status status = STATUS_OK;
    const struct dirent *entry;
    DIR *names = opendir(folder);

    if (!names)
        return errno == ENOENT ? STATUS_OK : disk_status(errno);
    while (status == STATUS_OK && (errno = 0, entry = readdir(names)) != NULL)
        status = take(context, entry->d_name);
    /* errno tells the end of the folder from a failed read. */
    if (status == STATUS_OK && errno != 0)
        status = disk_status(errno);
    const int kept_errno = errno;
    closedir(names);
    errno = kept_errno;
    return status;
}

/* File systems that cannot sync a folder answer EINVAL or ENOTSUP. */
enum status disk_sync_folder(int folder)
{
    if (fsync(folder) == 0 || errno == EINVAL || errno == ENOTSUP)
        return STATUS_OK;
    return disk_status(errno);
}

enum status disk_sync_path(const char *path)
{
    const int fd = open(path, O_RDONLY | O_DIRECTORY | O_CLOEXEC);

    if (fd < 0)
        return disk_status(errno);
    const enum status status = disk_sync_folder(fd);
    disk_close(fd);
    return status;
}
