/* SPDX-License-Identifier: MIT */
#include "store/profile/profile_look.h"

#include <sys/stat.h>

#include "store/profile/profile_load.h"

static enum status why_not_found(const char *path)
{
    struct stat facts;

    return lstat(path, &facts) == 0 ? STATUS_NOWHERE : STATUS_NOT_FOUND;
}

enum status profile_look(const char *path, const bool wanted[FIELD_COUNT_],
                         struct record *ret_record)
{
    struct profile_content content;
    struct bytes bytes;
    enum status status = file_read(path, FILE_BYTES_MAX, &bytes);

    if (status != STATUS_OK)
        return status == STATUS_NOT_FOUND ? why_not_found(path) : status;
    status = profile_glance(&bytes, wanted, &content);
    bytes_done(&bytes);
    if (status != STATUS_OK)
        return status;
    *ret_record = content.record;
    record_init(&content.record);
    profile_content_done(&content);
    return STATUS_OK;
}
