/* SPDX-License-Identifier: MIT */
/* memfd_create is no part of POSIX. */
#ifndef _GNU_SOURCE
#define _GNU_SOURCE
#endif
#include "store/ini_feed.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

#include "store/safefile.h"

/* iniparser takes only the name of a file. */
struct source {
    int fd;
    char path[256];
    bool named; /* the file has a name of its own, to be removed */
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

static bool open_in_memory(struct source *source)
{
#ifdef SILLET_HAVE_MEMFD
    source->fd = memfd_create("profile", MFD_CLOEXEC);
    if (source->fd < 0)
        return false;
    snprintf(source->path, sizeof source->path, "/proc/self/fd/%d", source->fd);
    if (access(source->path, R_OK) == 0)
        return true;
    close(source->fd);
#endif
    source->fd = -1;
    return false;
}

/* Where there is no file in memory, or no /proc to name it by: one that only we may open. */
static bool open_temporary(struct source *source)
{
    const char *folder = getenv("TMPDIR");
    const int length = snprintf(source->path, sizeof source->path, "%s/sillet-XXXXXX",
                                folder && folder[0] == '/' ? folder : "/tmp");

    if (length < 0 || (size_t)length >= sizeof source->path)
        return false;
    source->fd = mkstemp(source->path);
    source->named = source->fd >= 0;
    return source->named;
}

static void close_source(struct source *source)
{
    if (source->named)
        unlink(source->path);
    if (source->fd >= 0)
        close(source->fd);
}

static enum status open_source(struct source *source)
{
    if (open_in_memory(source) || open_temporary(source))
        return STATUS_OK;
    return safefile_status(errno);
}

enum status ini_feed(const struct bytes *bytes, dictionary **ret_dictionary)
{
    struct source source = {.fd = -1};
    dictionary *loaded = NULL;
    enum status status = open_source(&source);

    /* A limit on the size of files holds for one in memory as well. */
    if (status == STATUS_OK && !write_all(source.fd, bytes))
        status = safefile_status(errno);
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
