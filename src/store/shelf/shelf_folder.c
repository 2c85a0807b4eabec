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
#include "store/bytes.h"
#include "store/paths.h"
#include "store/profile/copies.h"
#include "store/profile/lockfile.h"
#include "store/profile/profile_beside.h"
#include "store/profile/profile_name.h"
#include "store/profile/profile_synced.h"

/* FAT keeps times in steps of two seconds; others are finer. */
enum { STEP_SECONDS = 2 };

static const char ending[] = ".ini", lock_ending[] = ".ini.lock";

struct lister {
    const char *folder;
    DIR *open;
    int64_t now;
    struct bytes names; /* of profiles, and of what lies beside them; a NUL behind each */
    struct shelf_entries entries;
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
        target && copies_list(target, COPY_NAMED, &versions) == STATUS_OK && versions.count > 0;

    copies_done(&versions);
    free(target);
    free(path);
    return has;
}

static bool is_version(const struct lister *lister, const char *of, const char *file)
{
    char *target = paths_join(lister->folder, of), *path = paths_join(lister->folder, file);
    const bool is = target && path && synced_is_version(target, path);

    free(path);
    free(target);
    return is;
}

static void settle_unreadable(struct shelf_entry *entry, enum status status)
{
    entry->read = entry->glanced = true;
    entry->status = status;
}

static void look_at(const struct lister *lister, struct shelf_entry *entry)
{
    const int folder = dirfd(lister->open);
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

/* --- names --- */

/* The length of the profile's name at the start of that of its lock; 0 if it is none. */
static size_t locked_length(const char *name)
{
    return text_ends_in(name, lock_ending) ? strlen(name) - (sizeof lock_ending - sizeof ending)
                                           : 0;
}

static bool counts(const char *name)
{
    return name[0] != '.' && (text_ends_in(name, ending) || locked_length(name) > 0 ||
                              copies_profile_length(name) > 0);
}

static enum status take_names(struct lister *lister, size_t *ret_count)
{
    struct dirent *found;

    *ret_count = 0;
    for (errno = 0; (found = readdir(lister->open)) != NULL; errno = 0)
        if (counts(found->d_name)) {
            bytes_add(&lister->names, found->d_name, strlen(found->d_name) + 1);
            ++*ret_count;
        }
    return errno != 0 ? STATUS_IO : bytes_status(&lister->names);
}

static int compare_names(const void *a, const void *b)
{
    return strcmp(*(char *const *)a, *(char *const *)b);
}

/* NULL if out of memory. */
static char **sort_names(const struct bytes *names, size_t count)
{
    char **sorted = malloc((count + 1) * sizeof *sorted), *at = names->data;

    for (size_t i = 0; sorted && i < count; i++) {
        sorted[i] = at;
        at += strlen(at) + 1;
    }
    if (sorted && count > 1)
        qsort(sorted, count, sizeof *sorted, compare_names);
    return sorted;
}

/* --- entries --- */

static enum status add_profiles(struct lister *lister, char *const *names, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (!text_ends_in(names[i], ending))
            continue;
        struct shelf_entry *entry = shelf_entries_add(&lister->entries);

        if (!entry)
            return STATUS_NO_MEMORY;
        entry->file = names[i];
        look_at(lister, entry);
    }
    return STATUS_OK;
}

/* What a name says is not enough: a lock need not be held, and a version may be a folder. What lies
 * beside a link is not its own. */
static void mark_profiles(struct lister *lister, char *const *names, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const size_t locked = locked_length(names[i]);
        const size_t length = locked > 0 ? locked : copies_profile_length(names[i]);
        struct shelf_entry *entry = NULL;

        if (length > 0 && !text_ends_in(names[i], ending)) {
            names[i][length] = '\0';
            entry = shelf_entries_find(&lister->entries, names[i]);
        }
        if (!entry || entry->linked)
            continue;
        if (locked > 0)
            entry->in_use = is_used(lister, entry);
        else
            entry->versions = has_versions(lister, entry);
    }
}

/* A name may say of which profile it is another version. What is listed as a version is listed as
 * an instrument too: nothing is hidden. */
static void mark_synced(struct lister *lister)
{
    for (size_t i = 0; i < lister->entries.count; i++) {
        struct shelf_entry *entry = &lister->entries.items[i];
        const size_t length = synced_stem_length(entry->file);
        char *name = length > 0 ? profile_name_numbered(entry->file, length, 1) : NULL;
        struct shelf_entry *of = name ? shelf_entries_find(&lister->entries, name) : NULL;

        if (of && !of->linked && is_version(lister, of->file, entry->file))
            of->versions = entry->is_version = true;
        free(name);
    }
}

/* The lock and the versions of a long name have it cut, so they matched no entry. */
static void mark_long_ones(struct lister *lister)
{
    for (size_t i = 0; i < lister->entries.count; i++) {
        struct shelf_entry *entry = &lister->entries.items[i];

        if (strlen(entry->file) <= BESIDE_NAME_MAX)
            continue;
        entry->in_use = is_used(lister, entry);
        entry->versions = has_versions(lister, entry);
    }
}

static enum status list_names(struct lister *lister)
{
    size_t count;
    enum status status = take_names(lister, &count);

    if (status != STATUS_OK)
        return status;
    char **names = sort_names(&lister->names, count);
    status = names ? add_profiles(lister, names, count) : STATUS_NO_MEMORY;
    if (status == STATUS_OK) {
        mark_profiles(lister, names, count);
        mark_synced(lister);
        mark_long_ones(lister);
        lister->entries.names = lister->names.data;
        bytes_init(&lister->names);
    }
    free(names);
    return status;
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
    enum status status = open_names(folder, &lister.open);

    if (status != STATUS_OK)
        return status;
    bytes_init(&lister.names);
    if (fstat(dirfd(lister.open), &facts) != 0)
        status = STATUS_IO;
    if (status == STATUS_OK)
        status = list_names(&lister);
    const int kept_errno = errno;
    closedir(lister.open);
    bytes_done(&lister.names);
    if (status == STATUS_OK) {
        *ret_entries = lister.entries;
        *ret_stamp = shelf_stamp_of(&facts);
    } else {
        shelf_entries_done(&lister.entries);
    }
    errno = kept_errno;
    return status;
}
