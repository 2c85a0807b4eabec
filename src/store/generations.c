/* SPDX-License-Identifier: MIT */
#include "store/generations.h"

#include <dirent.h>
#include <errno.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "base/array.h"
#include "base/num.h"
#include "store/file_read.h"
#include "store/lockfile.h"
#include "store/paths.h"
#include "store/profile.h"
#include "store/profile_beside.h"
#include "store/safefile.h"

enum { NUMBER_DIGITS = 6, NUMBER_MAX = 999999, NAME_LENGTH = 26 };

static const char ending[] = ".ini";

/* FOLDER/.generations/NAME of FOLDER/NAME; to be freed, NULL without memory. */
static char *folder_of(const char *target)
{
    const char *slash = strrchr(target, '/');
    const char *name = slash ? slash + 1 : target;
    const size_t size = strlen(target) + sizeof "./.generations/";
    char *folder = malloc(size);

    if (folder)
        snprintf(folder, size, "%.*s%s.generations/%s", (int)(slash ? slash - target : 0), target,
                 slash ? "/" : "", name);
    return folder;
}

/* --- what is there --- */

/* 000012-2026-11-25T1306.ini */
static bool read_name(const char *name, struct generation *generation)
{
    static const char pattern[] = "000000-0000-00-00T0000.ini";

    if (strlen(name) != NAME_LENGTH)
        return false;
    for (int i = 0; i < NAME_LENGTH; i++)
        if (pattern[i] == '0' ? name[i] < '0' || name[i] > '9' : name[i] != pattern[i])
            return false;
    if (num_count(name, NUMBER_DIGITS, NUMBER_MAX, &generation->number) != STATUS_OK)
        return false;
    snprintf(generation->when, sizeof generation->when, "%.10s %.2s:%.2s", name + 7, name + 18,
             name + 20);
    return true;
}

static enum status add_generation(struct generations *list, const char *folder, const char *name)
{
    struct generation generation = {.path = NULL};

    if (!read_name(name, &generation))
        return STATUS_OK;
    struct generation *items = array_grow(list->items, list->count, &list->capacity, sizeof *items);
    if (!items)
        return STATUS_NO_MEMORY;
    list->items = items;
    generation.path = paths_join(folder, name);
    if (!generation.path)
        return STATUS_NO_MEMORY;
    items[list->count++] = generation;
    return STATUS_OK;
}

static int newest_first(const void *a, const void *b)
{
    const struct generation *x = a, *y = b;

    if (x->number != y->number)
        return x->number < y->number ? 1 : -1;
    return strcmp(y->path, x->path);
}

static enum status list_folder(const char *folder, struct generations *list)
{
    enum status status = STATUS_OK;
    const struct dirent *entry;
    DIR *names = opendir(folder);

    if (!names)
        return STATUS_OK;
    while (status == STATUS_OK && (entry = readdir(names)) != NULL)
        status = add_generation(list, folder, entry->d_name);
    closedir(names);
    if (list->count > 1)
        qsort(list->items, list->count, sizeof list->items[0], newest_first);
    return status;
}

enum status generations_list(const char *target, struct generations *ret_list)
{
    struct generations list = {.items = NULL};
    char *folder = folder_of(target);

    if (!folder)
        return STATUS_NO_MEMORY;
    const enum status status = list_folder(folder, &list);
    free(folder);
    if (status == STATUS_OK)
        *ret_list = list;
    else
        generations_done(&list);
    return status;
}

void generations_done(struct generations *list)
{
    for (size_t i = 0; i < list->count; i++)
        free(list->items[i].path);
    free(list->items);
    *list = (struct generations){.items = NULL};
}

/* --- one more --- */

static void write_name(int number, char *name, size_t size)
{
    const time_t now = time(NULL);
    struct tm utc = {.tm_mday = 1};

    (void)gmtime_r(&now, &utc);
    snprintf(name, size, "%06d-%04d-%02d-%02dT%02d%02d%s", number % (NUMBER_MAX + 1),
             (utc.tm_year + 1900) % 10000, utc.tm_mon + 1, utc.tm_mday, utc.tm_hour, utc.tm_min,
             ending);
}

static enum status write_copy(const char *folder, int number, const struct bytes *bytes)
{
    char name[96];

    write_name(number, name, sizeof name);
    char *path = paths_join(folder, name);
    if (!path)
        return STATUS_NO_MEMORY;
    const enum status status = safefile_put(path, SAFEFILE_NEW, bytes->data, bytes->length);
    const int kept_errno = errno;
    free(path);
    errno = kept_errno;
    return status;
}

static bool same_month(const struct generation *a, const struct generation *b)
{
    return strncmp(a->when, b->when, sizeof "2026-11" - 1) == 0;
}

/* What goes is never the only one of its month. */
static void drop_old(const struct generations *list)
{
    for (size_t i = GENERATIONS_NEAR - 1; i < list->count; i++)
        if (same_month(&list->items[i], &list->items[i - 1]))
            (void)unlink(list->items[i].path);
}

static enum status keep_in(const char *folder, const struct bytes *bytes)
{
    struct generations list = {.items = NULL};
    enum status status = list_folder(folder, &list);

    if (status == STATUS_OK && list.count > 0 && beside_holds(list.items[0].path, bytes)) {
        generations_done(&list);
        return STATUS_OK;
    }
    if (status == STATUS_OK)
        status = paths_make_folder(folder);
    if (status == STATUS_OK)
        safefile_sweep(folder);
    if (status == STATUS_OK)
        status = write_copy(folder, list.count > 0 ? list.items[0].number + 1 : 1, bytes);
    /* With the new one, one more of the old is over. */
    if (status == STATUS_OK)
        drop_old(&list);
    const int kept_errno = errno;
    generations_done(&list);
    errno = kept_errno;
    return status;
}

enum status generations_keep(const char *target, const struct bytes *bytes)
{
    char *folder = folder_of(target);

    if (!folder)
        return STATUS_NO_MEMORY;
    const enum status status = keep_in(folder, bytes);
    const int kept_errno = errno;
    free(folder);
    errno = kept_errno;
    return status;
}

/* --- and back --- */

static enum status read_generation(const char *path, struct record *ret_record)
{
    struct profile *profile;
    enum status status = profile_open(path, PROFILE_TO_READ, NULL, &profile);

    if (status != STATUS_OK)
        return status;
    status = profile_editable(profile) == STATUS_NEWER
                 ? STATUS_NEWER
                 : record_copy(profile_record(profile), ret_record);
    profile_close(profile);
    return status;
}

/* What is there is no profile any more: it is kept as found, and the generation takes its
 * place byte for byte. */
static enum status replace_broken(const char *target, const char *generation)
{
    struct bytes broken, bytes;
    char *path = NULL;
    enum status status = file_read(target, FILE_BYTES_MAX, &broken);

    if (status != STATUS_OK)
        return status;
    status = beside_keep_copy(target, "as-found", &broken, &path);
    bytes_done(&broken);
    free(path);
    if (status != STATUS_OK)
        return status;
    status = file_read(generation, FILE_BYTES_MAX, &bytes);
    if (status != STATUS_OK)
        return status;
    status = safefile_put(target, SAFEFILE_REPLACE, bytes.data, bytes.length);
    bytes_done(&bytes);
    return status;
}

static bool is_broken(enum status status)
{
    return status == STATUS_SYNTAX || status == STATUS_BINARY || status == STATUS_TOO_LONG;
}

/* With the lock held, as an edit would. */
static enum status replace_locked(const char *target, const char *generation)
{
    struct lockfile_holder holder;
    struct lockfile lock = {.fd = -1};
    enum status status = lockfile_take(target, &lock, &holder);

    if (status == STATUS_LOCKED || status == STATUS_READ_ONLY)
        return status;
    status = replace_broken(target, generation);
    const int kept_errno = errno;
    lockfile_drop(&lock);
    errno = kept_errno;
    return status;
}

enum status generations_bring_back(const char *target, const char *generation)
{
    struct profile *profile = NULL;
    struct record record;
    enum status status = read_generation(generation, &record);

    if (status != STATUS_OK)
        return status;
    status = profile_open(target, PROFILE_TO_EDIT, NULL, &profile);
    if (status == STATUS_OK)
        status = profile_save(profile, &record);
    else if (is_broken(status))
        status = replace_locked(target, generation);
    const int kept_errno = errno;
    profile_close(profile);
    record_done(&record);
    errno = kept_errno;
    return status;
}
