/* SPDX-License-Identifier: MIT */
#include "store/profile_beside.h"

#include <errno.h>
#include <inttypes.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "base/strbuf.h"
#include "store/crc32.h"
#include "store/disk.h"
#include "store/file_read.h"
#include "store/paths.h"
#include "store/safefile.h"

/* So many that nobody reaches the last one; it only ends the search. */
enum { COPIES_MAX = 999999, SUM_LENGTH = 9 };

/* How much of a long name stays, in whole characters of UTF-8. */
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

/* A second name of some other file changes with that one, and keeps nothing. */
static bool is_single(const struct stat *facts)
{
    return S_ISREG(facts->st_mode) && facts->st_nlink == 1;
}

bool beside_holds(const char *path, const struct bytes *bytes)
{
    struct stat facts;
    struct bytes there;

    if (lstat(path, &facts) != 0 || !is_single(&facts) ||
        (unsigned long long)facts.st_size != bytes->length ||
        file_read_own(path, FILE_BYTES_MAX, &there) != STATUS_OK)
        return false;
    const bool same = bytes_equal(&there, bytes);
    bytes_done(&there);
    return same;
}

enum status beside_none(const char *target, const char *suffix)
{
    char *path = beside_path(target, suffix, 1);
    const enum status status = path ? disk_none(path) : STATUS_NO_MEMORY;
    const int kept_errno = errno;

    free(path);
    errno = kept_errno;
    return status;
}

/* STATUS_CHANGED when the name is taken by something else. */
static enum status keep_as(const char *path, const struct share *share, const struct bytes *bytes)
{
    /* Looked at first, so that a thousand taken names do not cost a thousand files. */
    const enum status status = disk_none(path);

    if (status == STATUS_CHANGED && beside_holds(path, bytes))
        return STATUS_OK;
    if (status != STATUS_OK)
        return status;
    return safefile_put(path, SAFEFILE_NEW, share, bytes->data, bytes->length);
}

enum status beside_keep_copy(const char *target, const char *suffix, const struct bytes *bytes,
                             char **ret_path)
{
    const struct share share = share_of(target);

    for (int i = 1; i <= COPIES_MAX; i++) {
        char *path = beside_path(target, suffix, i);
        const enum status status = path ? keep_as(path, &share, bytes) : STATUS_NO_MEMORY;

        if (status == STATUS_OK) {
            *ret_path = path;
            return STATUS_OK;
        }
        const int kept_errno = errno;
        free(path);
        errno = kept_errno;
        if (status != STATUS_CHANGED)
            return status;
    }
    errno = EEXIST;
    return STATUS_FULL;
}
