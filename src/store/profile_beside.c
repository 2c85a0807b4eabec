/* SPDX-License-Identifier: MIT */
#include "store/profile_beside.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "store/file_read.h"
#include "store/safefile.h"

enum { COPIES_MAX = 999 };

bool beside_holds(const char *path, const struct bytes *bytes)
{
    struct bytes there;

    if (file_read(path, FILE_BYTES_MAX, &there) != STATUS_OK)
        return false;
    const bool same = bytes_equal(&there, bytes);
    bytes_done(&there);
    return same;
}

/* STATUS_CHANGED when the name is taken by something else. */
static enum status keep_as(const char *path, const struct bytes *bytes)
{
    const enum status status = safefile_put(path, SAFEFILE_NEW, bytes->data, bytes->length);

    return status == STATUS_CHANGED && beside_holds(path, bytes) ? STATUS_OK : status;
}

enum status beside_keep_copy(const char *target, const char *suffix, const struct bytes *bytes,
                             char **ret_path)
{
    const size_t size = strlen(target) + strlen(suffix) + 8;
    char *path = malloc(size);

    if (!path)
        return STATUS_NO_MEMORY;
    for (int i = 1; i <= COPIES_MAX; i++) {
        if (i == 1)
            snprintf(path, size, "%s.%s", target, suffix);
        else
            snprintf(path, size, "%s.%s.%d", target, suffix, i);
        const enum status status = keep_as(path, bytes);
        if (status == STATUS_OK) {
            *ret_path = path;
            return STATUS_OK;
        }
        if (status != STATUS_CHANGED) {
            const int kept_errno = errno;
            free(path);
            errno = kept_errno;
            return status;
        }
    }
    free(path);
    errno = EEXIST;
    return STATUS_FULL;
}
