/* SPDX-License-Identifier: MIT */
#include "store/profile/profile_beside.h"

#include <errno.h>
#include <inttypes.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "base/strbuf.h"
#include "store/crc32.h"
#include "store/disk.h"
#include "store/paths.h"
#include "store/share.h"

enum {
    SUM_LENGTH = 9,
    NUMBERS_SURE = 9, /* these are looked for even after a gap */
};

/* How many bytes of a long name are kept, in whole UTF-8 characters. */
static size_t cut_name(const char *name)
{
    size_t length = BESIDE_NAME_MAX - SUM_LENGTH;

    while (length > 0 && ((unsigned char)name[length] & 0xC0) == 0x80)
        length--;
    return length;
}

char *beside_path(const char *target, const char *suffix, int number)
{
    const char *name = paths_name_of(target);
    const size_t size = strlen(target) + SUM_LENGTH + strlen(suffix) + 16;
    char *path = malloc(size);

    if (!path)
        return NULL;
    struct strbuf text = strbuf_over(path, size);
    strbuf_add_bytes(&text, target, (size_t)(name - target));
    if (strlen(name) <= BESIDE_NAME_MAX) {
        strbuf_add(&text, name);
    } else {
        strbuf_add_bytes(&text, name, cut_name(name));
        strbuf_addf(&text, "-%08" PRIX32, crc32_of(name, strlen(name)));
    }
    strbuf_addf(&text, ".%s", suffix);
    if (number > 1)
        strbuf_addf(&text, ".%d", number);
    return path;
}

enum status beside_is_free(const char *target, const char *suffix)
{
    char *path = beside_path(target, suffix, 1);
    const enum status status = path ? disk_none(path) : STATUS_NO_MEMORY;
    disk_free(path);
    return status;
}

enum status beside_none(enum copy_kind kind, const char *target)
{
    return beside_is_free(target, copy_suffix(kind));
}

enum status beside_keep(enum copy_kind kind, const char *target, const struct bytes *bytes,
                        char **ret_path)
{
    const struct share share = share_of(target);

    for (int i = 1; i <= BESIDE_NUMBER_MAX; i++) {
        char *path = beside_path(target, copy_suffix(kind), i);
        const enum status status = path ? copy_write(path, &share, bytes) : STATUS_NO_MEMORY;

        if (status == STATUS_OK) {
            *ret_path = path;
            return STATUS_OK;
        }
        disk_free(path);
        if (status != STATUS_CHANGED)
            return status;
    }
    errno = EEXIST;
    return STATUS_FULL;
}

/* STATUS_NOT_FOUND if no regular file has that name. */
static enum status look_for(enum copy_kind kind, const char *target, int number,
                            struct copies *list)
{
    struct copy copy = {.kind = kind, .number = number};
    struct strbuf when = STRBUF(copy.when);
    struct stat facts;

    copy.path = beside_path(target, copy_suffix(kind), number);
    if (!copy.path)
        return STATUS_NO_MEMORY;
    if (lstat(copy.path, &facts) != 0 || !S_ISREG(facts.st_mode)) {
        free(copy.path);
        return STATUS_NOT_FOUND;
    }
    copy_add_time(facts.st_mtime, &when);
    return copies_add(list, &copy);
}

enum status beside_list(enum copy_kind kind, const char *target, struct copies *list)
{
    enum status status = STATUS_OK;

    for (int number = 1; number <= BESIDE_NUMBER_MAX; number++) {
        if (number > NUMBERS_SURE && status == STATUS_NOT_FOUND)
            break;
        status = look_for(kind, target, number, list);
        if (status == STATUS_NO_MEMORY)
            return status;
    }
    return STATUS_OK;
}

static enum status move_one(const char *from, const char *to)
{
    const enum status status = disk_none(to);

    return status == STATUS_OK ? disk_rename(from, to) : status;
}

enum status beside_move(enum copy_kind kind, const char *target, const char *to)
{
    struct copies list = {.items = NULL};
    enum status status = beside_list(kind, target, &list);
    int error = errno;

    for (size_t i = 0; i < list.count; i++) {
        char *path = beside_path(to, copy_suffix(kind), list.items[i].number);
        const enum status moved = path ? move_one(list.items[i].path, path) : STATUS_NO_MEMORY;

        if (status == STATUS_OK && moved != STATUS_OK) {
            status = moved;
            error = errno;
        }
        free(path);
    }
    if (status == STATUS_OK && list.count > 0) {
        status = paths_sync_above(to);
        error = errno;
    }
    copies_done(&list);
    errno = error;
    return status;
}
