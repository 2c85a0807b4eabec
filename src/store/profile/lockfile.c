/* SPDX-License-Identifier: MIT */
#include "store/profile/lockfile.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "store/disk.h"
#include "store/host.h"
#include "store/paths.h"
#include "store/profile/profile_beside.h"
#include "store/share.h"

/* What a lock file says: "sillet PID HOST USER", one line. */
struct words {
    long pid;
    char host[49], user[33];
    bool empty; /* not written yet, or not a lock */
};

static char *lock_path(const char *target)
{
    return beside_path(target, "lock", 1);
}

/* False for a file that is not a lock. */
static bool read_words(int fd, struct words *words)
{
    char text[192];
    const ssize_t length = pread(fd, text, sizeof text - 1, 0);

    *words = (struct words){.empty = length == 0};
    if (length <= 0 || memchr(text, '\0', (size_t)length) || text[length - 1] != '\n')
        return false;
    text[length] = '\0';
    if (strchr(text, '\n') != text + length - 1)
        return false;
    return sscanf(text, "sillet %9ld %48[A-Za-z0-9._] %32[A-Za-z0-9._]", &words->pid, words->host,
                  words->user) >= 2;
}

/* Shows nothing of a file that is not a lock. */
static void read_holder(int fd, struct lockfile_holder *ret_holder)
{
    struct words words;
    struct strbuf out = STRBUF(ret_holder->words);

    if (!read_words(fd, &words)) {
        strbuf_add(&out, "another process");
        return;
    }
    if (words.user[0])
        strbuf_addf(&out, "%s, ", words.user);
    strbuf_addf(&out, "process %ld on %s", words.pid, words.host);
}

static enum status write_holder(int fd)
{
    char memory[192];
    struct strbuf text = STRBUF(memory);

    strbuf_addf(&text, "sillet %d ", (int)getpid());
    host_add_name(&text);
    strbuf_add_char(&text, ' ');
    host_add_user(&text, geteuid());
    strbuf_add_char(&text, '\n');
    if (ftruncate(fd, 0) != 0)
        return disk_status(errno);
    const ssize_t written = pwrite(fd, memory, text.length, 0);
    if (written < 0)
        return disk_status(errno);
    return (size_t)written == text.length ? STATUS_OK : STATUS_FULL;
}

/* False if the file was removed after it was opened. */
static bool still_named(int fd, const char *path)
{
    struct stat held, named;

    return fstat(fd, &held) == 0 && lstat(path, &named) == 0 && held.st_dev == named.st_dev &&
           held.st_ino == named.st_ino;
}

/* Refuses a file that is neither a lock nor empty: it belongs to somebody. */
static enum status look_at_found(int fd, bool *ret_empty)
{
    struct words words;
    struct stat facts;

    if (fstat(fd, &facts) != 0)
        return STATUS_IO;
    if (!S_ISREG(facts.st_mode) || facts.st_nlink > 1)
        return STATUS_NOT_REGULAR;
    *ret_empty = false;
    if (read_words(fd, &words))
        return STATUS_OK;
    *ret_empty = words.empty;
    return words.empty ? STATUS_OK : STATUS_NOT_REGULAR;
}

static enum status lock_opened(int fd, struct lockfile_holder *ret_holder)
{
    if (flock(fd, LOCK_EX | LOCK_NB) == 0)
        return STATUS_OK;
    if (errno != EWOULDBLOCK)
        return STATUS_IO;
    read_holder(fd, ret_holder);
    return STATUS_LOCKED;
}

/* A lock file that we may not open. If we may write in its folder, another user holds the lock and
 * does not share it. */
static enum status refuse_closed(const char *path, struct lockfile_holder *ret_holder)
{
    struct strbuf out = STRBUF(ret_holder->words);
    char *folder = paths_folder_of(path);
    const bool open_folder = folder && access(folder, W_OK | X_OK) == 0;
    struct stat facts;

    free(folder);
    errno = EACCES;
    if (!open_folder || lstat(path, &facts) != 0)
        return STATUS_READ_ONLY;
    host_add_user(&out, facts.st_uid);
    strbuf_add(&out, " (nobody else may read their .lock file)");
    return STATUS_LOCKED;
}

static enum status open_found(const char *path, int *ret_fd, bool *ret_empty,
                              struct lockfile_holder *ret_holder)
{
    const int fd = open(path, O_RDWR | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);

    if (fd < 0 && errno == EACCES)
        return refuse_closed(path, ret_holder);
    if (fd < 0)
        return errno == ELOOP || errno == EISDIR || errno == ENXIO ? STATUS_NOT_REGULAR
                                                                   : disk_status(errno);
    const enum status status = look_at_found(fd, ret_empty);
    if (status == STATUS_OK)
        *ret_fd = fd;
    else
        close(fd);
    return status;
}

/* Opens the lock file, or makes it. */
static enum status open_lock(const char *path, const struct share *share, int *ret_fd,
                             bool *ret_empty, struct lockfile_holder *ret_holder)
{
    const int fd = open(path, O_RDWR | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0600);

    if (fd < 0)
        return errno == EEXIST ? open_found(path, ret_fd, ret_empty, ret_holder)
                               : disk_status(errno);
    if (share_is_wide(share))
        (void)share_give(fd, share);
    *ret_fd = fd;
    *ret_empty = false;
    return STATUS_OK;
}

static enum status try_path(struct lockfile *lock, const struct share *share,
                            struct lockfile_holder *ret_holder)
{
    enum { TRIES = 20 };

    for (int i = 0; i < TRIES; i++) {
        int fd = -1;
        enum status status = open_lock(lock->path, share, &fd, &lock->found, ret_holder);

        if (status == STATUS_IO && errno == ENOENT)
            continue; /* removed just now */
        if (status != STATUS_OK)
            return status;
        status = lock_opened(fd, ret_holder);
        if (status == STATUS_OK && still_named(fd, lock->path)) {
            /* The name is for people only; the lock holds without it. */
            (void)write_holder(fd);
            lock->fd = fd;
            return STATUS_OK;
        }
        disk_close(fd);
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
    const struct share share = share_of(target);
    const enum status status = try_path(&lock, &share, ret_holder);
    if (status != STATUS_OK) {
        disk_free(lock.path);
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
    struct words words;
    char *path = lock_path(target);
    const int fd =
        path ? open(path, O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY | O_CLOEXEC) : -1;

    free(path);
    if (fd < 0)
        return false;
    const bool known = read_words(fd, &words);
    close(fd);
    return known && !(is_this_host(words.host) && host_process_gone(words.pid));
}

void lockfile_drop(struct lockfile *lock)
{
    const int kept_errno = errno;

    if (lock->fd >= 0) {
        /* Removed before the lock is released, or it could be somebody's newer file. */
        if (lock->found)
            (void)!ftruncate(lock->fd, 0);
        else if (still_named(lock->fd, lock->path))
            unlink(lock->path);
        close(lock->fd);
    }
    free(lock->path);
    *lock = (struct lockfile){.fd = -1};
    errno = kept_errno;
}
