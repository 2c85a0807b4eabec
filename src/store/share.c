/* SPDX-License-Identifier: MIT */
#include "store/share.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "store/disk.h"
#include "store/paths.h"

/* stat for the folder that a path is in. */
static bool stat_folder(const char *path, struct stat *facts)
{
    char *folder = paths_folder_of(path);
    const bool known = folder && stat(folder, facts) == 0;

    free(folder);
    return known;
}

struct share share_of(const char *target)
{
    struct share share = {.mode = S_IRUSR | S_IWUSR, .group = (gid_t)-1, .owner = (uid_t)-1};
    struct stat facts;

    if (stat(target, &facts) == 0) {
        share.owner = facts.st_uid;
        if (facts.st_mode & S_IWGRP)
            share.mode |= S_IRGRP | S_IWGRP;
        if (facts.st_mode & S_IWOTH)
            share.mode |= S_IROTH | S_IWOTH;
    } else if (stat_folder(target, &facts) && facts.st_mode & S_ISGID && facts.st_mode & S_IWGRP) {
        share.mode |= S_IRGRP | S_IWGRP;
    } else {
        return share;
    }
    share.group = facts.st_gid;
    return share;
}

/* Only the administrator can give a file away. */
static bool is_for_another(const struct share *share)
{
    return geteuid() == 0 && share->owner != (uid_t)-1 && share->owner != 0;
}

bool share_is_wide(const struct share *share)
{
    return (share->mode & (S_IRWXG | S_IRWXO)) != 0 || is_for_another(share);
}

static mode_t folder_mode(mode_t mode)
{
    return mode | (mode & (S_IRUSR | S_IRGRP | S_IROTH)) >> 2;
}

enum status share_give(int fd, const struct share *share)
{
    const mode_t rights = S_IRWXU | S_IRWXG | S_IRWXO;
    mode_t mode = share->mode;
    struct stat own;

    if (fstat(fd, &own) != 0)
        return disk_status(errno);
    if (is_for_another(share) && own.st_uid != share->owner)
        (void)!fchown(fd, share->owner, (gid_t)-1);
    if (S_ISDIR(own.st_mode))
        mode = folder_mode(mode);
    if (own.st_gid != share->group && fchown(fd, (uid_t)-1, share->group) != 0)
        mode &= ~(mode_t)S_IRWXG;
    /* Not set needlessly: file systems without modes (FAT) refuse. */
    if ((own.st_mode & rights) == mode)
        return STATUS_OK;
    return fchmod(fd, mode | (own.st_mode & S_ISGID)) == 0 ? STATUS_OK : disk_status(errno);
}

static enum status give_folder(const char *path, const struct share *share)
{
    const int fd = open(path, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);

    if (fd < 0)
        return disk_status(errno);
    const enum status status = share_give(fd, share);
    disk_close(fd);
    return status;
}

enum status share_make_folder(const char *path, const struct share *share)
{
    struct stat facts;

    if (mkdir(path, 0700) != 0) {
        const int error = errno;

        /* Checked after any error: for an existing folder it can be EROFS as well as EEXIST. */
        if (lstat(path, &facts) != 0) {
            errno = error;
            return disk_status(error);
        }
        return S_ISDIR(facts.st_mode) ? STATUS_OK : STATUS_NOT_REGULAR;
    }
    const enum status status = share_is_wide(share) ? give_folder(path, share) : STATUS_OK;
    return status == STATUS_OK ? paths_sync_above(path) : status;
}

bool share_may_replace(const char *target)
{
    const uid_t user = geteuid();
    struct stat facts, folder;

    if (user == 0 || stat(target, &facts) != 0 || !stat_folder(target, &folder))
        return true;
    return !(folder.st_mode & S_ISVTX) || facts.st_uid == user || folder.st_uid == user;
}
