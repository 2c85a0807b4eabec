/* SPDX-License-Identifier: MIT */
#include "store/versions.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "base/array.h"
#include "base/num.h"
#include "base/strbuf.h"
#include "store/disk.h"
#include "store/file_read.h"
#include "store/generations.h"
#include "store/paths.h"
#include "store/profile_beside.h"
#include "store/profile_load.h"

static const char *const suffixes[] = {"conflict", "aside"};

enum {
    SUFFIXES = sizeof suffixes / sizeof suffixes[0],
    NUMBERS_SURE = 9, /* so many are looked for also where one before them is gone */
    NUMBERS_MAX = 999999,
};

/* --- what is there --- */

static void write_time(time_t written, struct strbuf *out)
{
    struct tm utc = {.tm_mday = 1};

    (void)gmtime_r(&written, &utc);
    strbuf_addf(out, "%04d-%02d-%02d %02d:%02d", (utc.tm_year + 1900) % 10000, utc.tm_mon + 1,
                utc.tm_mday, utc.tm_hour, utc.tm_min);
}

/* Takes the path over. */
static enum status add(struct versions *list, const struct version *found, time_t written)
{
    struct version *items = array_grow(list->items, list->count, &list->capacity, sizeof *items);

    if (!items) {
        free(found->path);
        return STATUS_NO_MEMORY;
    }
    list->items = items;
    struct version *version = &items[list->count++];
    *version = *found;
    struct strbuf when = STRBUF(version->when);
    write_time(written, &when);
    return STATUS_OK;
}

/* STATUS_NOT_FOUND where nothing has that name, or no file. */
static enum status look_for(const char *target, const char *suffix, int number,
                            struct versions *list)
{
    struct stat facts;
    char *path = beside_path(target, suffix, number);

    if (!path)
        return STATUS_NO_MEMORY;
    if (lstat(path, &facts) != 0 || !S_ISREG(facts.st_mode)) {
        free(path);
        return STATUS_NOT_FOUND;
    }
    const struct version found = {.path = path, .suffix = suffix, .number = number};
    return add(list, &found, facts.st_mtime);
}

enum status versions_list(const char *target, struct versions *ret_list)
{
    struct versions list = {.items = NULL};

    for (int i = 0; i < SUFFIXES; i++) {
        enum status status = STATUS_OK;

        for (int number = 1; number <= NUMBERS_MAX; number++) {
            if (number > NUMBERS_SURE && status == STATUS_NOT_FOUND)
                break;
            status = look_for(target, suffixes[i], number, &list);
            if (status == STATUS_NO_MEMORY) {
                versions_done(&list);
                return status;
            }
        }
    }
    *ret_list = list;
    return STATUS_OK;
}

void versions_done(struct versions *list)
{
    for (size_t i = 0; i < list->count; i++)
        free(list->items[i].path);
    free(list->items);
    *list = (struct versions){.items = NULL};
}

const char *version_name(const struct version *version)
{
    return paths_name_of(version->path);
}

size_t versions_profile_length(const char *file)
{
    size_t length = strlen(file);
    const char *dot = strrchr(file, '.');
    int number;

    if (dot && num_count(dot + 1, strlen(dot + 1), NUMBERS_MAX, &number) == STATUS_OK && number > 1)
        length = (size_t)(dot - file);
    for (int i = 0; i < SUFFIXES; i++) {
        const size_t own = strlen(suffixes[i]);

        if (length > own + 1 && file[length - own - 1] == '.' &&
            strncmp(file + length - own, suffixes[i], own) == 0)
            return length - own - 1;
    }
    return 0;
}

/* --- and away --- */

static enum status check_profile(const struct bytes *bytes)
{
    struct profile_content content;
    struct bytes copy;

    bytes_init(&copy);
    bytes_add(&copy, bytes->data, bytes->length);
    enum status status = bytes_status(&copy);
    if (status == STATUS_OK)
        status = profile_load(&copy, NULL, &content);
    bytes_done(&copy);
    if (status != STATUS_OK)
        return status;
    if (content.line_count == 0)
        status = STATUS_SYNTAX;
    profile_content_done(&content);
    return status;
}

enum status versions_put_away(const char *target, const struct version *version)
{
    struct bytes bytes;
    enum status status = file_read(version->path, FILE_BYTES_MAX, &bytes);

    if (status != STATUS_OK)
        return status;
    status = check_profile(&bytes);
    if (status == STATUS_OK)
        status = generations_keep(target, &bytes, NULL);
    /* Only now it is in two places. */
    if (status == STATUS_OK && !beside_holds(version->path, &bytes))
        status = STATUS_CHANGED;
    if (status == STATUS_OK && unlink(version->path) != 0 && errno != ENOENT)
        status = disk_status(errno);
    const int kept_errno = errno;
    bytes_done(&bytes);
    errno = kept_errno;
    return status;
}

/* --- and to another place --- */

static enum status move_one(const char *from, const char *to)
{
    const enum status status = disk_none(to);

    return status == STATUS_OK ? disk_rename(from, to) : status;
}

enum status versions_move(const char *target, const char *to)
{
    struct versions list;
    enum status status = versions_list(target, &list);

    if (status != STATUS_OK)
        return status;
    for (size_t i = 0; i < list.count; i++) {
        char *path = beside_path(to, list.items[i].suffix, list.items[i].number);
        const enum status moved = path ? move_one(list.items[i].path, path) : STATUS_NO_MEMORY;

        if (status == STATUS_OK)
            status = moved;
        free(path);
    }
    versions_done(&list);
    return status;
}
