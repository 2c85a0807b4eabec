/* SPDX-License-Identifier: MIT */
#include "store/lockfile.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "store/host.h"
#include "store/safefile.h"

static char *lock_path(const char *target)
{
    const size_t size = strlen(target) + sizeof ".lock";
    char *path = malloc(size);

    if (path)
        snprintf(path, size, "%s.lock", target);
    return path;
}

/* "sillet PID HOST", one line. */
static bool read_words(int fd, long *ret_pid, char host[49])
{
    char text[128];
    const ssize_t length = pread(fd, text, sizeof text - 1, 0);

    text[length > 0 ? length : 0] = '\0';
    return sscanf(text, "sillet %9ld %48[A-Za-z0-9._]", ret_pid, host) == 2;
}

/* Whatever else the file holds is not repeated. */
static void read_holder(int fd, struct lockfile_holder *ret_holder)
{
    char host[49];
    long pid;
    struct strbuf words = STRBUF(ret_holder->words);

    if (read_words(fd, &pid, host))
        strbuf_addf(&words, "process %ld on %s", pid, host);
    else
        strbuf_add(&words, "another process");
}

static enum status write_holder(int fd)
{
    char memory[128];
    struct strbuf text = STRBUF(memory);

    strbuf_addf(&text, "sillet %d ", (int)getpid());
    host_add_name(&text);
    strbuf_add_char(&text, '\n');
    if (ftruncate(fd, 0) != 0)
        return safefile_status(errno);
    const ssize_t written = pwrite(fd, memory, text.length, 0);
    if (written < 0)
        return safefile_status(errno);
    return (size_t)written == text.length ? STATUS_OK : STATUS_FULL;
}

/* False when the file was removed between its opening and its locking. */
static bool still_named(int fd, const char *path)
{
    struct stat held, named;

    return fstat(fd, &held) == 0 && lstat(path, &named) == 0 && held.st_dev == named.st_dev &&
           held.st_ino == named.st_ino;
}

static enum status lock_opened(int fd, struct lockfile_holder *ret_holder)
{
    struct stat facts;

    if (fstat(fd, &facts) != 0)
        return STATUS_IO;
    if (!S_ISREG(facts.st_mode)) {
        errno = EINVAL;
        return STATUS_IO;
    }
    if (flock(fd, LOCK_EX | LOCK_NB) == 0)
        return STATUS_OK;
    if (errno != EWOULDBLOCK)
        return STATUS_IO;
    read_holder(fd, ret_holder);
    return STATUS_LOCKED;
}

static enum status try_path(const char *path, int *ret_fd, struct lockfile_holder *ret_holder)
{
    enum { TRIES = 20 };
    const int flags = O_RDWR | O_CREAT | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY | O_CLOEXEC;

    for (int i = 0; i < TRIES; i++) {
        const int fd = open(path, flags, 0600);

        if (fd < 0)
            return safefile_status(errno);
        enum status status = lock_opened(fd, ret_holder);
        if (status == STATUS_OK && still_named(fd, path)) {
            /* Who we are is for people only; the lock holds without it. */
            (void)write_holder(fd);
            *ret_fd = fd;
            return STATUS_OK;
        }
        const int kept_errno = errno;
        close(fd);
        errno = kept_errno;
        if (status != STATUS_OK)
            return status;
    }
    errno = EAGAIN;
    return STATUS_IO;
}

enum status lockfile_take(const char *target, struct lockfile *ret_lock,
                          struct lockfile_holder *ret_holder)
{
    struct lockfile lock = {.fd = -1, .path = lock_path(target)};

    if (!lock.path)
        return STATUS_NO_MEMORY;
    const enum status status = try_path(lock.path, &lock.fd, ret_holder);
    if (status != STATUS_OK) {
        const int kept_errno = errno;
        free(lock.path);
        errno = kept_errno;
        return status;
    }
    *ret_lock = lock;
    return STATUS_OK;
}

static bool is_this_host(const char *host)
{
    char memory[64];
    struct strbuf name = STRBUF(memory);

    host_add_name(&name);
    return strcmp(memory, host) == 0;
}

bool lockfile_is_held(const char *target)
{
    char host[49];
    long pid;
    char *path = lock_path(target);
    const int fd =
        path ? open(path, O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY | O_CLOEXEC) : -1;

    free(path);
    if (fd < 0)
        return false;
    const bool known = read_words(fd, &pid, host);
    close(fd);
    return known && !(is_this_host(host) && host_process_gone(pid));
}

void lockfile_drop(struct lockfile *lock)
{
    if (lock->fd >= 0) {
        /* While still locked, so that nobody's newer file of that name is hit. */
        unlink(lock->path);
        close(lock->fd);
    }
    free(lock->path);
    *lock = (struct lockfile){.fd = -1};
}
