/* SPDX-License-Identifier: MIT */
#include "store/profile/generations.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "base/num.h"
#include "store/disk.h"
#include "store/paths.h"
#include "store/safefile.h"

enum {
    NUMBER_DIGITS = 6,
    NUMBER_MAX = 999999,
    GAP_MAX = 100000, /* more sessions than a month ever has */
    NAME_LENGTH = 26,
};

static const char ending[] = ".ini";

/* Where a profile's generations are. */
struct folders {
    char *all; /* FOLDER/.generations of FOLDER/NAME */
    char *own; /* FOLDER/.generations/NAME */
};

static void folders_done(struct folders *folders)
{
    disk_free(folders->all);
    disk_free(folders->own);
}

static enum status folders_of(const char *target, struct folders *folders)
{
    char *folder = paths_folder_of(target);

    folders->all = folder ? paths_join(folder, ".generations") : NULL;
    folders->own = folders->all ? paths_join(folders->all, paths_name_of(target)) : NULL;
    free(folder);
    if (folders->own)
        return STATUS_OK;
    folders_done(folders);
    return STATUS_NO_MEMORY;
}

static enum status look_at(const char *path, bool *ret_folder)
{
    struct stat facts;

    if (lstat(path, &facts) == 0)
        *ret_folder = S_ISDIR(facts.st_mode);
    else if (errno == ENOENT || errno == ENOTDIR)
        *ret_folder = false;
    else
        return disk_status(errno);
    return STATUS_OK;
}

/* Whether both are folders and not links to folders. */
static enum status is_there(const struct folders *folders, bool *ret_there)
{
    enum status status = look_at(folders->all, ret_there);

    if (status == STATUS_OK && *ret_there)
        status = look_at(folders->own, ret_there);
    return status;
}

/* --- listing --- */

/* 000012-2026-11-25T1306.ini */
static bool read_name(const char *name, struct copy *copy)
{
    static const char pattern[] = "000000-0000-00-00T0000.ini";

    if (strlen(name) != NAME_LENGTH)
        return false;
    for (int i = 0; i < NAME_LENGTH; i++)
        if (pattern[i] == '0' ? name[i] < '0' || name[i] > '9' : name[i] != pattern[i])
            return false;
    if (num_count(name, NUMBER_DIGITS, NUMBER_MAX, &copy->number) != STATUS_OK)
        return false;
    snprintf(copy->when, sizeof copy->when, "%.10s %.2s:%.2s", name + 7, name + 18, name + 20);
    return true;
}

struct listing {
    const char *folder;
    struct copies *list;
};

static enum status take_name(void *context, const char *name)
{
    const struct listing *listing = context;
    struct copy copy = {.kind = COPY_EARLIER};
    struct stat facts;

    if (!read_name(name, &copy))
        return STATUS_OK;
    copy.path = paths_join(listing->folder, name);
    if (!copy.path)
        return STATUS_NO_MEMORY;
    /* A link is never ours. */
    const bool known = lstat(copy.path, &facts) == 0;
    if (known && S_ISREG(facts.st_mode))
        return copies_add(listing->list, &copy);
    const enum status status = known || errno == ENOENT ? STATUS_OK : disk_status(errno);
    free(copy.path);
    return status;
}

static int newest_first(const void *a, const void *b)
{
    const struct copy *x = a, *y = b;

    if (x->number != y->number)
        return x->number < y->number ? 1 : -1;
    return strcmp(y->path, x->path);
}

/* Takes made-up numbers off the list. Ours rise by one at a time, and the last of each month stays,
 * so a number far above the next lower one is not ours. */
static void leave_made_up(struct copies *list)
{
    size_t made_up = 0, from = list->count;
    int below = 0;

    while (made_up == 0 && from > 0) {
        from--;
        if (list->items[from].number - below > GAP_MAX)
            made_up = from + 1;
        below = list->items[from].number;
    }
    for (size_t i = 0; i < made_up; i++)
        free(list->items[i].path);
    list->count -= made_up;
    if (made_up > 0)
        memmove(list->items, list->items + made_up, list->count * sizeof list->items[0]);
}

/* Fails unless it saw all of them: in a part, the wrong one would be taken for the newest. */
static enum status list_folder(const char *folder, struct copies *list)
{
    struct listing listing = {.folder = folder, .list = list};
    const enum status status = disk_each_name(folder, take_name, &listing);

    if (list->count > 1)
        qsort(list->items, list->count, sizeof list->items[0], newest_first);
    leave_made_up(list);
    return status;
}

enum status generations_list(enum copy_kind kind, const char *target, struct copies *list)
{
    struct folders folders;
    enum status status = folders_of(target, &folders);

    (void)kind;
    if (status != STATUS_OK)
        return status;
    bool there = false;
    status = is_there(&folders, &there);
    if (status == STATUS_OK && there)
        status = list_folder(folders.own, list);
    folders_done(&folders);
    return status;
}

/* --- keeping --- */

static void write_name(int number, char *name, size_t size)
{
    const time_t now = time(NULL);
    struct tm utc = {.tm_mday = 1};

    (void)gmtime_r(&now, &utc);
    snprintf(name, size, "%06d-%04d-%02d-%02dT%02d%02d%s", number, (utc.tm_year + 1900) % 10000,
             utc.tm_mon + 1, utc.tm_mday, utc.tm_hour, utc.tm_min, ending);
}

/* Kept means written, synced, named and read back. */
static enum status write_copy(const char *folder, int number, const struct share *share,
                              const struct bytes *bytes)
{
    char name[96];

    if (number > NUMBER_MAX) {
        errno = EEXIST;
        return STATUS_FULL;
    }
    write_name(number, name, sizeof name);
    char *path = paths_join(folder, name);
    if (!path)
        return STATUS_NO_MEMORY;
    enum status status = copy_write(path, share, bytes);
    if (status == STATUS_OK && !copy_holds(path, bytes))
        status = STATUS_DAMAGED;
    disk_free(path);
    return status;
}

static bool same_month(const struct copy *a, const struct copy *b)
{
    return strncmp(a->when, b->when, sizeof "2026-11" - 1) == 0;
}

/* Compares the last parts, because the folder may be spelled in two ways. */
static bool same_name(const char *a, const char *b)
{
    return strcmp(paths_name_of(a), paths_name_of(b)) == 0;
}

/* Removes old ones that have a newer one in the same month. */
static void drop_old(const struct copies *list, const char *spared)
{
    for (size_t i = GENERATIONS_NEAR - 1; i < list->count; i++)
        if (same_month(&list->items[i], &list->items[i - 1]) &&
            !(spared && same_name(list->items[i].path, spared)))
            (void)unlink(list->items[i].path);
}

static enum status keep_in(const char *folder, const struct share *share, const struct bytes *bytes,
                           const char *spared)
{
    struct copies list = {.items = NULL};
    enum status status = list_folder(folder, &list);

    safefile_sweep(folder);
    if (status == STATUS_OK && list.count > 0 && copy_holds(list.items[0].path, bytes)) {
        status = disk_sync_path(folder); /* its writer may have died before that */
    } else if (status == STATUS_OK) {
        status = write_copy(folder, list.count > 0 ? list.items[0].number + 1 : 1, share, bytes);
        /* `list` lacks the new one, which takes the place of an old one. */
        if (status == STATUS_OK)
            drop_old(&list, spared);
    }
    copies_done(&list);
    return status;
}

/* Gives the others access to a folder that we made before the profile was shared. */
static void open_to_others(const char *path, const struct share *share)
{
    struct stat facts;

    if (!share_is_wide(share) || lstat(path, &facts) != 0 || facts.st_uid != geteuid())
        return;
    const int fd = open(path, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    if (fd < 0)
        return;
    (void)share_give(fd, share);
    close(fd);
}

static enum status make_folders(const struct folders *folders, const struct share *share)
{
    enum status status = share_make_folder(folders->all, share);

    if (status == STATUS_OK)
        status = share_make_folder(folders->own, share);
    if (status != STATUS_OK)
        return status;
    open_to_others(folders->all, share);
    open_to_others(folders->own, share);
    return STATUS_OK;
}

enum status generations_keep(const char *target, const struct bytes *bytes, const char *spared)
{
    const struct share share = share_of(target);
    struct folders folders;
    enum status status = folders_of(target, &folders);

    if (status != STATUS_OK)
        return status;
    status = make_folders(&folders, &share);
    if (status == STATUS_OK)
        status = keep_in(folders.own, &share, bytes, spared);
    folders_done(&folders);
    return status;
}

/* --- access --- */

static enum generations_room look_at_folder(const char *path, const struct share *share)
{
    struct stat facts;

    if (lstat(path, &facts) != 0)
        return errno == ENOENT ? GENERATIONS_OPEN : GENERATIONS_CLOSED;
    if (!S_ISDIR(facts.st_mode) || access(path, R_OK | W_OK | X_OK) != 0)
        return GENERATIONS_CLOSED;
    const mode_t wanted = share->mode & (S_IWGRP | S_IWOTH);
    if ((facts.st_mode & wanted) != wanted || (wanted & S_IWGRP && facts.st_gid != share->group))
        return GENERATIONS_CLOSED_TO_OTHERS;
    return GENERATIONS_OPEN;
}

enum generations_room generations_room(const char *target)
{
    const struct share share = share_of(target);
    struct folders folders;

    if (folders_of(target, &folders) != STATUS_OK)
        return GENERATIONS_OPEN;
    enum generations_room room = look_at_folder(folders.all, &share);
    if (room == GENERATIONS_OPEN)
        room = look_at_folder(folders.own, &share);
    folders_done(&folders);
    return room;
}

/* --- moving --- */

enum status generations_none(enum copy_kind kind, const char *target)
{
    struct folders folders;
    enum status status = folders_of(target, &folders);

    (void)kind;
    if (status != STATUS_OK)
        return status;
    status = disk_none(folders.own);
    folders_done(&folders);
    return status;
}

/* Checks the name first, because a rename would replace an empty folder. */
static enum status move_folder(const struct folders *from, const struct folders *to)
{
    enum status status = disk_none(to->own);

    if (status == STATUS_OK)
        status = disk_rename(from->own, to->own);
    if (status != STATUS_OK)
        return status;
    status = disk_sync_path(to->all);
    if (status == STATUS_OK)
        status = disk_sync_path(from->all);
    const int kept_errno = errno;
    if (status != STATUS_OK)
        (void)renameat(AT_FDCWD, to->own, AT_FDCWD, from->own);
    errno = kept_errno;
    return status;
}

enum status generations_move(enum copy_kind kind, const char *target, const char *to)
{
    const struct share share = share_of(target);
    struct folders old, new;
    enum status status = folders_of(target, &old);

    (void)kind;
    if (status != STATUS_OK)
        return status;
    status = folders_of(to, &new);
    if (status == STATUS_OK) {
        bool there = false;

        status = is_there(&old, &there);
        if (status == STATUS_OK && there)
            status = share_make_folder(new.all, &share);
        if (status == STATUS_OK && there)
            status = move_folder(&old, &new);
        folders_done(&new);
    }
    folders_done(&old);
    return status;
}
