/* SPDX-License-Identifier: MIT */
#include "store/profile/copy.h"

#include <stdlib.h>
#include <sys/stat.h>

#include "base/array.h"
#include "store/disk.h"
#include "store/file_read.h"
#include "store/safefile.h"

enum status copies_add(struct copies *list, const struct copy *copy)
{
    struct copy *items = array_grow(list->items, list->count, &list->capacity, sizeof *items);

    if (!items) {
        free(copy->path);
        return STATUS_NO_MEMORY;
    }
    list->items = items;
    items[list->count++] = *copy;
    return STATUS_OK;
}

void copies_done(struct copies *list)
{
    for (size_t i = 0; i < list->count; i++)
        disk_free(list->items[i].path);
    disk_free(list->items);
    *list = (struct copies){.items = NULL};
}

const char *copy_suffix(enum copy_kind kind)
{
    switch (kind) {
    case COPY_CONFLICT:
        return "conflict";
    case COPY_ASIDE:
        return "aside";
    case COPY_FOUND:
        return "as-found";
    case COPY_HELD:
        return "ini";
    case COPY_EARLIER:
    case COPY_SYNCED:
    case COPY_NAMED:
    case COPY_VERSIONS:
        break;
    }
    return NULL;
}

void copy_add_time(time_t written, struct strbuf *out)
{
    struct tm utc = {.tm_mday = 1};

    (void)gmtime_r(&written, &utc);
    strbuf_addf(out, "%04d-%02d-%02d %02d:%02d", (utc.tm_year + 1900) % 10000, utc.tm_mon + 1,
                utc.tm_mday, utc.tm_hour, utc.tm_min);
}

bool copy_holds(const char *path, const struct bytes *bytes)
{
    struct stat facts;

    return lstat(path, &facts) == 0 && facts.st_nlink == 1 && copy_reads(path, bytes);
}

bool copy_reads(const char *path, const struct bytes *bytes)
{
    struct stat facts;
    struct bytes there;

    if (lstat(path, &facts) != 0 || !S_ISREG(facts.st_mode) ||
        (unsigned long long)facts.st_size != bytes->length ||
        file_read_own(path, FILE_BYTES_MAX, &there) != STATUS_OK)
        return false;
    const bool same = bytes_equal(&there, bytes);
    bytes_done(&there);
    return same;
}

enum status copy_write(const char *path, const struct share *share, const struct bytes *bytes)
{
    /* Checked first, so that a thousand taken names do not cost a thousand temporary files. */
    const enum status status = disk_none(path);

    if (status == STATUS_CHANGED && copy_holds(path, bytes))
        return STATUS_OK;
    if (status != STATUS_OK)
        return status;
    return safefile_put(path, SAFEFILE_NEW, share, bytes->data, bytes->length, NULL);
}
