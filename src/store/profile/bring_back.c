/* SPDX-License-Identifier: MIT */
#include "store/profile/bring_back.h"

#include <errno.h>
#include <unistd.h>

#include "store/file_read.h"
#include "store/profile/copy.h"
#include "store/profile/generations.h"
#include "store/profile/lockfile.h"
#include "store/profile/profile_load.h"
#include "store/safefile.h"

/* Whether the bytes are a profile that this version can write. They stay the caller's. */
static enum status look_at(struct bytes *bytes)
{
    struct profile_content content;
    enum status status = profile_load(bytes, NULL, &content);

    if (status != STATUS_OK)
        return status;
    if (content.newer)
        status = STATUS_NEWER;
    *bytes = content.text.bytes;
    bytes_init(&content.text.bytes);
    profile_content_done(&content);
    return status;
}

static enum status read_generation(const char *path, struct bytes *ret_bytes)
{
    enum status status = file_read_own(path, FILE_BYTES_MAX, ret_bytes);

    if (status != STATUS_OK)
        return status;
    status = look_at(ret_bytes);
    if (status != STATUS_OK)
        bytes_done(ret_bytes);
    return status;
}

/* A damaged profile may be replaced; one of a later format never. */
static enum status may_replace(const char *target, struct bytes *present)
{
    const enum status status = look_at(present);

    if (status == STATUS_NEWER || status == STATUS_NO_MEMORY || status == STATUS_IO)
        return status;
    if (access(target, W_OK) != 0)
        return STATUS_READ_ONLY;
    return share_may_replace(target) ? STATUS_OK : STATUS_NOT_OURS;
}

/* The state to bring back. */
struct earlier {
    const char *path;
    struct bytes bytes;
};

static enum status replace(const char *target, struct bytes *present, const struct earlier *earlier,
                           enum brought *brought)
{
    if (bytes_equal(present, &earlier->bytes)) {
        *brought = BROUGHT_SAME;
        return STATUS_OK;
    }
    enum status status = may_replace(target, present);
    if (status != STATUS_OK)
        return status;
    status = generations_keep(target, present, earlier->path);
    if (status != STATUS_OK) {
        *brought = BROUGHT_UNKEPT;
        return status;
    }
    status = safefile_put(target, SAFEFILE_REPLACE, NULL, earlier->bytes.data,
                          earlier->bytes.length, NULL);
    const int kept_errno = errno;
    /* After a failure the file itself tells whether it was replaced. */
    if (status == STATUS_OK)
        *brought = BROUGHT_BACK;
    else if (copy_holds(target, &earlier->bytes))
        *brought = BROUGHT_UNSYNCED;
    errno = kept_errno;
    return status;
}

/* Holds the lock meanwhile, as an edit does; does without if locks do not work here. */
static enum status bring(const char *target, const struct earlier *earlier, enum brought *brought)
{
    struct lockfile_holder holder;
    struct lockfile lock = {.fd = -1};
    struct bytes present;
    enum status status = lockfile_take(target, &lock, &holder);

    if (status == STATUS_LOCKED || status == STATUS_READ_ONLY)
        return status;
    status = file_read(target, FILE_BYTES_MAX, &present);
    if (status == STATUS_OK) {
        status = replace(target, &present, earlier, brought);
        bytes_done(&present);
    }
    lockfile_drop(&lock);
    return status;
}

enum status bring_back(const char *target, const char *generation, enum brought *ret_brought)
{
    struct earlier earlier = {.path = generation};
    enum status status = read_generation(generation, &earlier.bytes);

    *ret_brought = BROUGHT_NOTHING;
    if (status != STATUS_OK)
        return status;
    status = bring(target, &earlier, ret_brought);
    bytes_done(&earlier.bytes);
    return status;
}
