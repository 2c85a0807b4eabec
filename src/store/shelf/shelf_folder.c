/* SPDX-License-Identifier: MIT */
#include "store/shelf/shelf_folder.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "base/text_end.h"
#include "store/paths.h"
#include "store/profile/copies.h"
#include "store/profile/lockfile.h"
#include "store/profile/profile_beside.h"

/* FAT keeps times in steps of two seconds; others are finer. */
enum { STEP_SECONDS = 2 };

static const char ending[] = ".ini", lock_ending[] = ".ini.lock";

struct lister {
    const char *folder;
    DIR *names;
    int64_t now;
    struct shelf_entries entries;
    /* The profiles that seem to have a lock, or versions; only their names are set: */
    struct shelf_entries locks, versions;
};

bool shelf_stamp_settled(const struct shelf_stamp *stamp, int64_t now)
{
    return stamp->written_s < now - STEP_SECONDS && stamp->touched_s < now - STEP_SECONDS;
}

/* The lock is beside the file that a link leads to. */
static bool is_used(const struct lister *lister, const struct shelf_entry *entry)
{
    char *path = paths_join(lister->folder, entry->file);
    char *target = path && entry->linked ? realpath(path, NULL) : NULL;
    const char *locked = entry->linked ? target : path;
    const bool used = locked && lockfile_is_held(locked);

    free(target);
    free(path);
    return used;
}

/* Versions too are beside the file that a link leads to. */
static bool has_versions(const struct lister *lister, const struct shelf_entry *entry)
{
    char *path = paths_join(lister->folder, entry->file);
    char *target = path ? realpath(path, NULL) : NULL;
    struct copies versions = {.items = NULL};
    const bool has =
        target && copies_list(target, COPY_VERSIONS, &versions) == STATUS_OK && versions.count > 0;

    copies_done(&versions);
    free(target);
    free(path);
    return has;
}

static void settle_unreadable(struct shelf_entry *entry, enum status status)
{
    entry->read = entry->glanced = true;
    entry->status = status;
}

static void look_at(const struct lister *lister, struct shelf_entry *entry)
{
    const int folder = dirfd(lister->names);
    struct stat facts;

    int result = fstatat(folder, entry->file, &facts, AT_SYMLINK_NOFOLLOW);
    if (result == 0 && S_ISLNK(facts.st_mode)) {
        entry->linked = true;
        entry->in_use = is_used(lister, entry);
        entry->versions = has_versions(lister, entry);
        result = fstatat(folder, entry->file, &facts, 0);
    }
    if (result != 0) {
        settle_unreadable(entry, errno == ENOENT ? STATUS_NOT_FOUND : STATUS_IO);
        return;
    }
    entry->stamp = shelf_stamp_of(&facts);
    entry->settled = shelf_stamp_settled(&entry->stamp, lister->now);
    if (!S_ISREG(facts.st_mode))
        settle_unreadable(entry, STATUS_NOT_REGULAR);
}

static enum status add_name(struct shelf_entries *entries, const char *name)
{
    const struct card blank = shelf_blank_card();
    struct shelf_entry *entry = shelf_entries_add(entries);

    return entry ? shelf_entry_set(entry, name, &blank, shelf_facts_blank()) : STATUS_NO_MEMORY;
}

/* Adds the first `length` bytes of the name. */
static enum status add_start(struct shelf_entries *entries, const char *name, size_t length)
{
    char *profile = strndup(name, length);

    if (!profile)
        return STATUS_NO_MEMORY;
    const enum status status = add_name(entries, profile);
    free(profile);
    return status;
}

static enum status take_name(struct lister *lister, const char *name)
{
    if (name[0] == '.')
        return STATUS_OK;
    if (text_ends_in(name, ending))
        return add_name(&lister->entries, name);
    if (text_ends_in(name, lock_ending))
        return add_start(&lister->locks, name, strlen(name) - (sizeof lock_ending - sizeof ending));
    const size_t length = copies_profile_length(name);
    return length > 0 ? add_start(&lister->versions, name, length) : STATUS_OK;
}

static enum status take_names(struct lister *lister)
{
    enum status status = STATUS_OK;
    struct dirent *found;

    errno = 0;
    while (status == STATUS_OK && (found = readdir(lister->names)) != NULL) {
        status = take_name(lister, found->d_name);
        if (status == STATUS_OK)
            errno = 0;
    }
    return status == STATUS_OK && errno != 0 ? STATUS_IO : status;
}

static enum status list_names(struct lister *lister)
{
    const enum status status = take_names(lister);

    if (status != STATUS_OK)
        return status;
    shelf_entries_sort(&lister->entries);
    for (size_t i = 0; i < lister->entries.count; i++)
        look_at(lister, &lister->entries.items[i]);
    for (size_t i = 0; i < lister->locks.count; i++) {
        struct shelf_entry *entry =
            shelf_entries_find(&lister->entries, lister->locks.items[i].file);

        if (entry && !entry->linked)
            entry->in_use = is_used(lister, entry);
    }
    for (size_t i = 0; i < lister->versions.count; i++) {
        struct shelf_entry *entry =
            shelf_entries_find(&lister->entries, lister->versions.items[i].file);

        /* The name is not enough: it may be a folder's. */
        if (entry && !entry->linked)
            entry->versions = has_versions(lister, entry);
    }
    /* The lock and the versions of a long name have it cut, so they match no entry above. */
    for (size_t i = 0; i < lister->entries.count; i++)
        if (strlen(lister->entries.items[i].file) > BESIDE_NAME_MAX) {
            lister->entries.items[i].in_use = is_used(lister, &lister->entries.items[i]);
            lister->entries.items[i].versions = has_versions(lister, &lister->entries.items[i]);
        }
    return STATUS_OK;
}

static enum status open_names(const char *folder, DIR **ret_names)
{
    DIR *names = opendir(folder);

    if (!names && errno == ENOENT)
        return STATUS_NOT_FOUND;
    if (!names && errno == ENOTDIR)
        return STATUS_NOT_REGULAR;
    if (!names)
        return errno == ENOMEM ? STATUS_NO_MEMORY : STATUS_IO;
    *ret_names = names;
    return STATUS_OK;
}

enum status shelf_folder_list(const char *folder, struct shelf_entries *ret_entries,
                              struct shelf_stamp *ret_stamp)
{
    struct lister lister = {.folder = folder, .now = (int64_t)time(NULL)};
    struct stat facts;
    enum status status = open_names(folder, &lister.names);

    if (status != STATUS_OK)
        return status;
    if (fstat(dirfd(lister.names), &facts) != 0)
        status = STATUS_IO;
    if (status == STATUS_OK)
        status = list_names(&lister);
    const int kept_errno = errno;
    closedir(lister.names);
    shelf_entries_done(&lister.locks);
    shelf_entries_done(&lister.versions);
    if (status == STATUS_OK) {
        *ret_entries = lister.entries;
        *ret_stamp = shelf_stamp_of(&facts);
    } else {
        shelf_entries_done(&lister.entries);
    }
    errno = kept_errno;
    return status;
}
