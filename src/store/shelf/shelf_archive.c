/* SPDX-License-Identifier: MIT */
#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "store/disk.h"
#include "store/paths.h"
#include "store/profile/copies.h"
#include "store/profile/lockfile.h"
#include "store/shelf/shelf_change.h"

static const char ending[] = ".ini";

struct move {
    const char *from, *to; /* the profile's paths */
    const char *archive;
};

static bool is_same_file(const char *a, const char *b)
{
    struct stat x, y;

    return lstat(a, &x) == 0 && lstat(b, &y) == 0 && x.st_dev == y.st_dev && x.st_ino == y.st_ino;
}

/* Moves its earlier states and versions back to its old name. */
static enum status put_back(const struct move *move, enum status status)
{
    const int kept_errno = errno;

    (void)copies_move(move->to, move->from);
    errno = kept_errno;
    return status;
}

/* Gives it back its old name alone. If the old name is gone, although the system reported a
 * failure, it keeps the new one. */
static enum status undo(const struct move *move, enum status status)
{
    const int kept_errno = errno;

    if (is_same_file(move->from, move->to)) {
        (void)put_back(move, status);
        (void)unlink(move->to);
    }
    errno = kept_errno;
    return status;
}

/* It has both names. Removes the old one last, when the new one is on disk. */
static enum status leave_old_name(const struct move *move)
{
    enum status status = disk_sync_path(move->archive);

    if (status == STATUS_OK)
        status = copies_move(move->from, move->to);
    if (status != STATUS_OK)
        return undo(move, status);
    if (unlink(move->from) == 0)
        return STATUS_OK;
    status = disk_status(errno);
    return disk_has_moved(move->from, move->to) ? STATUS_OK : undo(move, status);
}

/* For file systems without hard links. */
static enum status rename_file(const struct move *move)
{
    enum status status = disk_none(move->to);

    if (status != STATUS_OK)
        return status;
    status = copies_move(move->from, move->to);
    if (status == STATUS_OK)
        status = disk_rename(move->from, move->to);
    return status == STATUS_OK ? STATUS_OK : put_back(move, status);
}

/* STATUS_CHANGED if the name is taken. A link then fails, while a rename would replace the file. */
static enum status move_file(const struct move *move)
{
    /* An earlier try was interrupted, and the file has both names. */
    if (is_same_file(move->from, move->to))
        return leave_old_name(move);
    const enum status status = shelf_path_is_free(move->to);
    if (status != STATUS_OK)
        return status;
    const int error = linkat(AT_FDCWD, move->from, AT_FDCWD, move->to, 0) == 0 ? 0 : errno;
    /* It counts as done if the file has both names, even if the call reported a failure. */
    if (error == 0 || is_same_file(move->from, move->to))
        return leave_old_name(move);
    errno = error;
    if (error == EEXIST)
        return STATUS_CHANGED;
    return disk_lacks_links(error) ? rename_file(move) : disk_status(error);
}

static enum status move_numbered(const char *from, const char *file, const char *archive,
                                 char **ret_file)
{
    const size_t length = strlen(file) - (sizeof ending - 1);
    enum status status = STATUS_CHANGED;

    for (int number = 1; number <= PROFILE_NUMBERS_MAX && status == STATUS_CHANGED; number++) {
        char *name = profile_name_numbered(file, length, number);
        char *to = name ? paths_join(archive, name) : NULL;
        const struct move move = {.from = from, .to = to, .archive = archive};

        status = to ? move_file(&move) : STATUS_NO_MEMORY;
        disk_free(to);
        if (status == STATUS_OK)
            *ret_file = name;
        else
            disk_free(name);
    }
    if (status != STATUS_CHANGED)
        return status;
    errno = EEXIST;
    return STATUS_FULL;
}

/* A file that another program copied here may not be on disk yet. */
static enum status sync_file(const char *path)
{
    const int fd = open(path, O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);

    if (fd < 0)
        return disk_status(errno);
    const enum status status = fsync(fd) == 0 ? STATUS_OK : disk_status(errno);
    disk_close(fd);
    return status;
}

static enum status look_at_file(const char *path)
{
    struct stat facts;

    if (lstat(path, &facts) != 0)
        return errno == ENOENT ? STATUS_NOT_FOUND : disk_status(errno);
    return S_ISREG(facts.st_mode) ? STATUS_OK : STATUS_NOT_REGULAR;
}

static enum status archive_file(const char *folder, const char *path, const char *file,
                                char **ret_file)
{
    const struct share share = share_of(path);
    char *archive = paths_join(folder, "archive");
    enum status status = archive ? look_at_file(path) : STATUS_NO_MEMORY;

    if (status == STATUS_OK)
        status = share_make_folder(archive, &share);
    if (status == STATUS_OK)
        status = sync_file(path);
    if (status == STATUS_OK)
        status = move_numbered(path, file, archive, ret_file);
    const int kept_errno = errno;
    /* Not essential: after a loss of power it may be in both folders. */
    if (status == STATUS_OK)
        (void)disk_sync_path(folder);
    free(archive);
    errno = kept_errno;
    return status;
}

/* If locks do not work here, the file is moved without one, just as it would be edited. */
static enum status archive_locked(const char *folder, const char *path, const char *file,
                                  char **ret_file)
{
    struct lockfile lock = {.fd = -1};
    struct lockfile_holder holder;
    enum status status = lockfile_take(path, &lock, &holder);

    if (status == STATUS_LOCKED || status == STATUS_NO_MEMORY || status == STATUS_READ_ONLY)
        return status;
    status = archive_file(folder, path, file, ret_file);
    lockfile_drop(&lock);
    return status;
}

enum status shelf_archive(const char *folder, const char *file, char **ret_file)
{
    const size_t length = strlen(file);

    if (length < sizeof ending || strcmp(file + length - (sizeof ending - 1), ending) != 0)
        return STATUS_NOT_REGULAR;
    char *path = paths_join(folder, file);
    if (!path)
        return STATUS_NO_MEMORY;
    const enum status status = archive_locked(folder, path, file, ret_file);
    disk_free(path);
    return status;
}
