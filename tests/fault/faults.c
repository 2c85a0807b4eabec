/* SPDX-License-Identifier: MIT */
#define _GNU_SOURCE /* O_TMPFILE */
#include "faults.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <sys/stat.h>
#include <sys/types.h>
#include <unistd.h>

static struct {
    enum fault_call call;
    enum fault_way way;
    int nth, error, seen;
} armed;

static int seen[FAULT_COUNT_];

void fault_arm(enum fault_call call, enum fault_way way, int nth, int error)
{
    armed.call = call;
    armed.way = way;
    armed.nth = nth;
    armed.error = error;
    armed.seen = 0;
}

int fault_disarm(void)
{
    armed.call = FAULT_NONE;
    return armed.seen;
}

int fault_seen(enum fault_call call)
{
    return seen[call];
}

static struct {
    enum fault_call call;
    int error;
} lacking;

void fault_lack(enum fault_call call, int error)
{
    lacking.call = call;
    lacking.error = error;
}

static bool hit(enum fault_call call)
{
    seen[call]++;
    if (lacking.call == call) {
        errno = lacking.error;
        return true;
    }
    if (armed.call != call && (armed.call != FAULT_ANY || call == FAULT_MEMORY))
        return false;
    armed.seen++;
    if (armed.way == FAULT_KILL && armed.seen == armed.nth)
        kill(getpid(), SIGKILL);
    if (armed.way != FAULT_STAYS ? armed.seen != armed.nth : armed.seen < armed.nth)
        return false;
    errno = armed.error;
    return true;
}

/* What a call that was done reports all the same. */
static int lie(int done)
{
    (void)done;
    errno = armed.error;
    return -1;
}

/* For FAULT_SHORT: how much of a transfer is done now; 0 for an interruption. */
static size_t shortened(enum fault_call call, size_t length)
{
    if (armed.call != call || armed.way != FAULT_SHORT)
        return length;
    if (++armed.seen % 2 == 0)
        return 0;
    return length < 3 ? length : 3;
}

static mode_t mode_of(int flags, va_list arguments)
{
    /* Fewer bits than O_TMPFILE's stand for a folder. */
    return flags & O_CREAT || (flags & O_TMPFILE) == O_TMPFILE ? va_arg(arguments, mode_t) : 0;
}

/* What the linker makes of `name` once it is wrapped. */
#define WRAP(type, name, parameters, arguments, call, failure)                                     \
    type __real_##name parameters;                                                                 \
    type __wrap_##name parameters;                                                                 \
    type __wrap_##name parameters                                                                  \
    {                                                                                              \
        return hit(call) ? (failure) : __real_##name arguments;                                    \
    }

/* The same for what changes something: it can be done and say that it was not. */
#define WRAP_CHANGE(name, parameters, arguments, call)                                             \
    WRAP(int, name, parameters, arguments, call,                                                   \
         armed.way == FAULT_LIES ? lie(__real_##name arguments) : -1)

#define WRAP_OPEN(name)                                                                            \
    int __real_##name(const char *path, int flags, ...);                                           \
    int __wrap_##name(const char *path, int flags, ...);                                           \
    int __wrap_##name(const char *path, int flags, ...)                                            \
    {                                                                                              \
        va_list arguments;                                                                         \
        va_start(arguments, flags);                                                                \
        const mode_t mode = mode_of(flags, arguments);                                             \
        va_end(arguments);                                                                         \
        return hit(FAULT_OPEN) ? -1 : __real_##name(path, flags, mode);                            \
    }

#define WRAP_OPENAT(name)                                                                          \
    int __real_##name(int folder, const char *path, int flags, ...);                               \
    int __wrap_##name(int folder, const char *path, int flags, ...);                               \
    int __wrap_##name(int folder, const char *path, int flags, ...)                                \
    {                                                                                              \
        va_list arguments;                                                                         \
        va_start(arguments, flags);                                                                \
        const mode_t mode = mode_of(flags, arguments);                                             \
        va_end(arguments);                                                                         \
        return hit(FAULT_OPEN) ? -1 : __real_##name(folder, path, flags, mode);                    \
    }

/* With large files each of these has a second name. */
#define BOTH(name) WRAP_OPEN(name) WRAP_OPEN(name##64)
BOTH(open)
#undef BOTH
#define BOTH(name) WRAP_OPENAT(name) WRAP_OPENAT(name##64)
BOTH(openat)
#undef BOTH
#define BOTH(type, name, parameters, arguments, call)                                              \
    WRAP(type, name, parameters, arguments, call, -1)                                              \
    WRAP(type, name##64, parameters, arguments, call, -1)
BOTH(int, stat, (const char *path, struct stat *facts), (path, facts), FAULT_STAT)
BOTH(int, lstat, (const char *path, struct stat *facts), (path, facts), FAULT_STAT)
BOTH(int, fstat, (int fd, struct stat *facts), (fd, facts), FAULT_STAT)
BOTH(int, fstatat, (int folder, const char *path, struct stat *facts, int flags),
     (folder, path, facts, flags), FAULT_STAT)
BOTH(ssize_t, pwrite, (int fd, const void *bytes, size_t length, off_t at), (fd, bytes, length, at),
     FAULT_WRITE)

WRAP_CHANGE(fchmod, (int fd, mode_t mode), (fd, mode), FAULT_MODE)
WRAP_CHANGE(fchown, (int fd, uid_t user, gid_t group), (fd, user, group), FAULT_MODE)
WRAP_CHANGE(fsync, (int fd), (fd), FAULT_SYNC)
WRAP_CHANGE(renameat, (int from, const char *old, int to, const char *new), (from, old, to, new),
            FAULT_RENAME)
WRAP_CHANGE(linkat, (int from, const char *old, int to, const char *new, int flags),
            (from, old, to, new, flags), FAULT_LINK)
WRAP_CHANGE(unlink, (const char *path), (path), FAULT_UNLINK)
WRAP_CHANGE(unlinkat, (int folder, const char *path, int flags), (folder, path, flags),
            FAULT_UNLINK)
WRAP_CHANGE(mkdir, (const char *path, mode_t mode), (path, mode), FAULT_FOLDER)
WRAP_CHANGE(mkdirat, (int folder, const char *path, mode_t mode), (folder, path, mode),
            FAULT_FOLDER)
WRAP(int, flock, (int fd, int operation), (fd, operation), FAULT_LOCK, -1)
WRAP(int, memfd_create, (const char *name, unsigned flags), (name, flags), FAULT_MEMFD, -1)
WRAP(DIR *, opendir, (const char *path), (path), FAULT_FOLDER, NULL)
WRAP(struct dirent *, readdir, (DIR * folder), (folder), FAULT_FOLDER, NULL)
WRAP(struct dirent *, readdir64, (DIR * folder), (folder), FAULT_FOLDER, NULL)
WRAP(char *, realpath, (const char *path, char *out), (path, out), FAULT_STAT, NULL)
WRAP(void *, malloc, (size_t size), (size), FAULT_MEMORY, NULL)
WRAP(void *, calloc, (size_t count, size_t size), (count, size), FAULT_MEMORY, NULL)
WRAP(void *, realloc, (void *memory, size_t size), (memory, size), FAULT_MEMORY, NULL)
WRAP(char *, strdup, (const char *text), (text), FAULT_MEMORY, NULL)
WRAP(char *, strndup, (const char *text, size_t length), (text, length), FAULT_MEMORY, NULL)

int __real_close(int fd);
int __wrap_close(int fd);
int __wrap_close(int fd)
{
    const bool failing = hit(FAULT_CLOSE);
    const int error = errno;
    const int result = __real_close(fd);

    if (failing)
        errno = error;
    return failing ? -1 : result;
}

ssize_t __real_read(int fd, void *bytes, size_t length);
ssize_t __wrap_read(int fd, void *bytes, size_t length);
ssize_t __wrap_read(int fd, void *bytes, size_t length)
{
    const size_t part = shortened(FAULT_READ, length);

    if (part == 0)
        errno = EINTR;
    if (part == 0 || hit(FAULT_READ))
        return -1;
    return __real_read(fd, bytes, part);
}

ssize_t __real_write(int fd, const void *bytes, size_t length);
ssize_t __wrap_write(int fd, const void *bytes, size_t length);
ssize_t __wrap_write(int fd, const void *bytes, size_t length)
{
    /* What the terminal is sent is no file's: a test reads there what has become of the faults. */
    if (fd == STDOUT_FILENO)
        return __real_write(fd, bytes, length);
    const size_t part = shortened(FAULT_WRITE, length);

    if (part == 0)
        errno = EINTR;
    if (part == 0 || hit(FAULT_WRITE))
        return -1;
    return __real_write(fd, bytes, part);
}
