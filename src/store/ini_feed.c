/* SPDX-License-Identifier: MIT */
/* memfd_create is not in POSIX. */
#ifndef _GNU_SOURCE
#define _GNU_SOURCE
#endif
#include "store/ini_feed.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

#include "store/disk.h"

/* A file for iniparser, which reads nothing else. */
struct source {
    int fd;
    char path[256];
    bool named; /* the file has a name, which has to be removed */
};

static int stay_silent(const char *format, ...)
{
    (void)format;
    return 0;
}

static bool write_all(int fd, const struct bytes *bytes)
{
    size_t at = 0;

    while (at < bytes->length) {
        const ssize_t written = write(fd, bytes->data + at, bytes->length - at);

        if (written < 0 && errno == EINTR)
            continue;
        if (written <= 0)
            return false;
        at += (size_t)written;
    }
    return true;
}

/* Makes a path of an open file's number; false if the system has no paths for open files. */
static bool name_by_number(struct source *source)
{
    static const char *const folders[] = {"/proc/self/fd", "/dev/fd"};
    char path[sizeof source->path];

    for (size_t i = 0; source->fd >= 0 && i < sizeof folders / sizeof folders[0]; i++) {
        snprintf(path, sizeof path, "%s/%d", folders[i], source->fd);
        if (access(path, R_OK) != 0)
            continue;
        memcpy(source->path, path, sizeof path);
        return true;
    }
    return false;
}

static bool open_in_memory(struct source *source)
{
#ifdef SILLET_HAVE_MEMFD
    source->fd = memfd_create("profile", MFD_CLOEXEC);
#endif
    return name_by_number(source);
}

static const char *temporary_folder(void)
{
    const char *folder = getenv("TMPDIR");

    return folder && folder[0] == '/' ? folder : "/tmp";
}

/* A file without a name, so that a killed process leaves nothing behind. */
static bool open_unnamed(struct source *source)
{
#ifdef O_TMPFILE
    source->fd = open(temporary_folder(), O_TMPFILE | O_RDWR | O_EXCL | O_CLOEXEC, 0600);
#endif
    return name_by_number(source);
}

/* The last resort: a named file that only this user may open. The name is removed at once if the
 * file can be opened without it. */
static bool open_temporary(struct source *source)
{
    const int length =
        snprintf(source->path, sizeof source->path, "%s/sillet-XXXXXX", temporary_folder());
    char path[sizeof source->path];

    if (length < 0 || (size_t)length >= sizeof source->path)
        return false;
    source->fd = mkstemp(source->path);
    memcpy(path, source->path, sizeof path);
    source->named = source->fd >= 0 && !(name_by_number(source) && unlink(path) == 0);
    if (source->named)
        memcpy(source->path, path, sizeof path);
    return source->fd >= 0;
}

static void close_source(struct source *source)
{
    if (source->named)
        unlink(source->path);
    if (source->fd >= 0)
        close(source->fd);
}

static void close_unused(struct source *source)
{
    if (source->fd >= 0)
        close(source->fd);
    source->fd = -1;
}

static enum status open_source(struct source *source)
{
    if (open_in_memory(source))
        return STATUS_OK;
    close_unused(source);
    if (open_unnamed(source))
        return STATUS_OK;
    close_unused(source);
    return open_temporary(source) ? STATUS_OK : disk_status(errno);
}

enum status ini_feed(const struct bytes *bytes, dictionary **ret_dictionary)
{
    struct source source = {.fd = -1};
    dictionary *loaded = NULL;
    enum status status = open_source(&source);

    /* This can fail even in memory: a limit on file sizes holds there as well. */
    if (status == STATUS_OK && !write_all(source.fd, bytes))
        status = disk_status(errno);
    if (status == STATUS_OK) {
        iniparser_set_error_callback(stay_silent);
        loaded = iniparser_load(source.path);
        iniparser_set_error_callback(NULL);
        if (!loaded)
            status = STATUS_IO;
    }
    const int kept_errno = errno;
    close_source(&source);
    errno = kept_errno;
    if (status == STATUS_OK)
        *ret_dictionary = loaded;
    return status;
}
