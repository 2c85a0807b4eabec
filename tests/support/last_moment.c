/* SPDX-License-Identifier: MIT */

/*
 * Linked into the program under test: a slow disk, and no memory left, for every library too.
 * While the file named by $TEST_SLOW_DISK exists, a sync announces itself by creating a second
 * file, ".in", and waits; while the one named by $TEST_NO_MEMORY exists, allocations fail.
 */
#define _GNU_SOURCE

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/syscall.h>
#include <unistd.h>

static int is_there(const char *path)
{
    return path != NULL && access(path, F_OK) == 0;
}

int fsync(int fd)
{
    const char *path = getenv("TEST_SLOW_DISK");
    char in[600];

    if (is_there(path)) {
        snprintf(in, sizeof in, "%s.in", path);
        close(open(in, O_WRONLY | O_CREAT | O_CLOEXEC, 0600));
    }
    while (is_there(path))
        poll(NULL, 0, 5);
    return (int)syscall(SYS_fsync, fd);
}

#if SILLET_OWN_MALLOC
void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *old, size_t size);

static int is_gone(void)
{
    const int kept_errno = errno;
    const int gone = is_there(getenv("TEST_NO_MEMORY"));

    errno = gone ? ENOMEM : kept_errno;
    return gone;
}

void *malloc(size_t size)
{
    return is_gone() ? NULL : __libc_malloc(size);
}

void *calloc(size_t count, size_t size)
{
    return is_gone() ? NULL : __libc_calloc(count, size);
}

void *realloc(void *old, size_t size)
{
    return is_gone() ? NULL : __libc_realloc(old, size);
}
#endif
