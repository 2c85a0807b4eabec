/* SPDX-License-Identifier: MIT */
#include "store/file_read.h"

#include <errno.h>
#include <fcntl.h>
#include <stdbool.h>
#include <sys/stat.h>
#include <unistd.h>

#include "store/disk.h"

enum { FLAGS = O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC };

static enum status refusal(void)
{
    return errno == ENOENT || errno == ENOTDIR ? STATUS_NOT_FOUND : STATUS_IO;
}

/* It may hold less or more than was `expected`. */
static enum status read_all(int fd, size_t expected, size_t max, struct bytes *bytes)
{
    enum { MORE = 4096 };

    for (;;) {
        const size_t left = expected > bytes->length ? expected - bytes->length : 0;
        char *to = bytes_room(bytes, left + MORE);

        if (!to)
            return STATUS_NO_MEMORY;
        const ssize_t got = read(fd, to, left + MORE);
        if (got < 0 && errno == EINTR)
            continue;
        if (got < 0)
            return STATUS_IO;
        if (got == 0)
            return STATUS_OK;
        if ((size_t)got > max - bytes->length)
            return STATUS_TOO_LARGE;
        bytes->length += (size_t)got;
    }
}

static enum status read_regular(int fd, size_t max, struct bytes *bytes)
{
    struct stat facts;

    if (fstat(fd, &facts) != 0)
        return STATUS_IO;
    if (!S_ISREG(facts.st_mode))
        return STATUS_NOT_REGULAR;
    if ((unsigned long long)facts.st_size > max)
        return STATUS_TOO_LARGE;
    return read_all(fd, (size_t)facts.st_size, max, bytes);
}

static enum status read_path(const char *path, bool follow, size_t max, struct bytes *ret_bytes)
{
    struct stat facts;
    struct bytes bytes;

    /* Checked before the open as well: opening a device can already have an effect. */
    if ((follow ? stat(path, &facts) : lstat(path, &facts)) != 0)
        return refusal();
    if (!S_ISREG(facts.st_mode))
        return STATUS_NOT_REGULAR;
    const int fd = follow ? open(path, FLAGS) : open(path, FLAGS | O_NOFOLLOW);
    if (fd < 0)
        return refusal();
    bytes_init(&bytes);
    const enum status status = read_regular(fd, max, &bytes);
    disk_close(fd);
    if (status != STATUS_OK)
        bytes_done(&bytes);
    else
        *ret_bytes = bytes;
    return status;
}

enum status file_read(const char *path, size_t max, struct bytes *ret_bytes)
{
    return read_path(path, true, max, ret_bytes);
}

enum status file_read_own(const char *path, size_t max, struct bytes *ret_bytes)
{
    return read_path(path, false, max, ret_bytes);
}
