/* SPDX-License-Identifier: MIT */
#include "store/profile.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "store/file_read.h"
#include "store/generations.h"
#include "store/lockfile.h"
#include "store/profile_beside.h"
#include "store/profile_edit.h"
#include "store/profile_inner.h"
#include "store/profile_load.h"
#include "store/safefile.h"

struct profile {
    char *path;   /* as given */
    char *target; /* links followed */
    struct profile_content content;
    bool on_disk; /* the content was read from the target or written to it */
    bool unsure;  /* it was written, but its folder could not be synced */
    bool changed; /* it was written since it was opened */
    enum status editable;
    unsigned notices;
    struct lockfile lock;
    struct lockfile_holder holder;
    char *conflict_path;
    struct bytes conflict; /* what we wrote there last */
};

static struct profile *new_profile(const char *path)
{
    struct profile *profile = calloc(1, sizeof *profile);

    if (!profile)
        return NULL;
    profile->lock.fd = -1;
    profile->path = strdup(path);
    profile->target = safefile_target(path);
    if (profile->path && profile->target)
        return profile;
    const int kept_errno = errno;
    profile_close(profile);
    errno = kept_errno;
    return NULL;
}

void profile_close(struct profile *profile)
{
    if (!profile)
        return;
    lockfile_drop(&profile->lock);
    profile_content_done(&profile->content);
    bytes_done(&profile->conflict);
    free(profile->conflict_path);
    free(profile->target);
    free(profile->path);
    free(profile);
}

/* The status for an errno after a path could not be followed. */
static enum status path_status(int error)
{
    if (error == ENOENT || error == ENOTDIR)
        return STATUS_NOT_FOUND;
    return error == ENOMEM ? STATUS_NO_MEMORY : STATUS_IO;
}

/* Takes the lock where that works; what stands in the way of editing is kept. */
static void lock(struct profile *profile)
{
    const enum status status = lockfile_take(profile->target, &profile->lock, &profile->holder);

    if (status == STATUS_LOCKED || status == STATUS_READ_ONLY)
        profile->editable = status;
    else if (status != STATUS_OK)
        profile->notices |= PROFILE_NO_LOCK;
}

static void settle_access(struct profile *profile)
{
    if (profile->content.end == INI_END_MISSING)
        profile->notices |= PROFILE_END_MISSING;
    if (profile->content.end == INI_END_WRONG)
        profile->notices |= PROFILE_END_WRONG;
    if (profile->content.newer)
        profile->editable = STATUS_NEWER;
    else if (profile->editable == STATUS_OK && access(profile->target, W_OK) != 0)
        profile->editable = STATUS_READ_ONLY;
    if (profile->editable != STATUS_OK)
        lockfile_drop(&profile->lock);
}

static enum status read_profile(struct profile *profile, struct profile_problems *problems)
{
    struct bytes bytes;
    enum status status = file_read(profile->target, FILE_BYTES_MAX, &bytes);

    if (status != STATUS_OK)
        return status;
    status = profile_load(&bytes, problems, &profile->content);
    bytes_done(&bytes);
    if (status != STATUS_OK)
        return status;
    profile->on_disk = true;
    if (problems)
        profile_check(&profile->content, problems);
    return STATUS_OK;
}

static void sweep_folder(const struct profile *profile)
{
    char *folder = strdup(profile->target);
    char *slash = folder ? strrchr(folder, '/') : NULL;

    if (slash) {
        slash[slash == folder ? 1 : 0] = '\0';
        safefile_sweep(folder);
    }
    free(folder);
}

/* Asked before the lock, which would leave its file beside a folder or a device. */
static bool is_other_than_file(const struct profile *profile)
{
    struct stat facts;

    return stat(profile->target, &facts) == 0 && !S_ISREG(facts.st_mode);
}

enum status profile_open(const char *path, enum profile_access access,
                         struct profile_problems *problems, struct profile **ret_profile)
{
    struct profile *profile = new_profile(path);

    if (!profile)
        return path_status(errno);
    if (is_other_than_file(profile)) {
        profile_close(profile);
        return STATUS_NOT_REGULAR;
    }
    /* The lock comes first, so that what is read cannot change before it is held. */
    if (access == PROFILE_TO_EDIT)
        lock(profile);
    else
        profile->editable = STATUS_READ_ONLY;
    const enum status status = read_profile(profile, problems);
    if (problems)
        profile_problems_sort(problems);
    if (status != STATUS_OK) {
        const int kept_errno = errno;
        profile_close(profile);
        errno = kept_errno;
        return status;
    }
    settle_access(profile);
    if (profile->editable == STATUS_OK)
        sweep_folder(profile);
    *ret_profile = profile;
    return STATUS_OK;
}

static enum status begin_new(struct profile *profile)
{
    struct bytes bytes;

    if (access(profile->target, F_OK) == 0)
        return STATUS_CHANGED;
    lock(profile);
    if (profile->editable != STATUS_OK)
        return profile->editable;
    bytes_init(&bytes);
    bytes_add_text(&bytes, "[profile]\nformat = 1\n");
    enum status status = bytes_status(&bytes);
    if (status == STATUS_OK)
        status = profile_load(&bytes, NULL, &profile->content);
    bytes_done(&bytes);
    return status;
}

enum status profile_create(const char *path, struct profile **ret_profile)
{
    struct profile *profile = new_profile(path);

    if (!profile)
        return path_status(errno);
    const enum status status = begin_new(profile);
    if (status != STATUS_OK) {
        const int kept_errno = errno;
        profile_close(profile);
        errno = kept_errno;
        return status;
    }
    *ret_profile = profile;
    return STATUS_OK;
}

const struct record *profile_record(const struct profile *profile)
{
    return &profile->content.record;
}

const char *profile_path(const struct profile *profile)
{
    return profile->path;
}

const char *profile_target(const struct profile *profile)
{
    return profile->target;
}

const struct profile_content *profile_content(const struct profile *profile)
{
    return &profile->content;
}

enum status profile_editable(const struct profile *profile)
{
    return profile->editable;
}

const char *profile_lock_holder(const struct profile *profile)
{
    return profile->editable == STATUS_LOCKED ? profile->holder.words : "";
}

unsigned profile_notices(const struct profile *profile)
{
    return profile->notices;
}

const char *profile_conflict_path(const struct profile *profile)
{
    return profile->conflict_path;
}

/*
 * The text to write, read back before anything is overwritten: nothing is written that
 * would not open again as exactly this record.
 */
static enum status prepare(const struct profile *profile, const struct record *record,
                           struct profile_content *ret_content)
{
    struct profile_content content;
    struct bytes bytes;

    bytes_init(&bytes);
    enum status status = profile_edit(&profile->content, record, &bytes);
    if (status == STATUS_OK && bytes.length > FILE_BYTES_MAX)
        status = STATUS_TOO_LARGE;
    if (status == STATUS_OK)
        status = profile_load(&bytes, NULL, &content);
    bytes_done(&bytes);
    if (status != STATUS_OK)
        return status;
    if (content.end != INI_END_GOOD || !record_equal(&content.record, record)) {
        profile_content_done(&content);
        return STATUS_DAMAGED;
    }
    *ret_content = content;
    return STATUS_OK;
}

enum disk_state { DISK_SAME, DISK_GONE, DISK_OTHER };

/* Compares bytes, not times: nothing is missed, and a file only touched is no conflict. */
static enum status look_at_disk(const char *path, const struct bytes *expected, bool expect_file,
                                enum disk_state *ret_state)
{
    struct bytes bytes;
    const enum status status = file_read(path, FILE_BYTES_MAX, &bytes);

    if (status == STATUS_NOT_FOUND) {
        *ret_state = DISK_GONE;
        return STATUS_OK;
    }
    if (status == STATUS_TOO_LARGE || status == STATUS_NOT_REGULAR) {
        *ret_state = DISK_OTHER;
        return STATUS_OK;
    }
    if (status != STATUS_OK)
        return status;
    *ret_state = expect_file && bytes_equal(&bytes, expected) ? DISK_SAME : DISK_OTHER;
    bytes_done(&bytes);
    return STATUS_OK;
}

static enum status write_file(const char *path, enum safefile_mode mode, const struct bytes *bytes,
                              bool *ret_replaced)
{
    struct safefile file;
    enum status status = safefile_begin(path, mode, &file);

    if (status != STATUS_OK)
        return status;
    safefile_write(&file, bytes->data, bytes->length);
    status = safefile_commit(&file);
    *ret_replaced = file.replaced;
    return status;
}

static enum status keep_as_found(struct profile *profile)
{
    char *path;

    if (!profile->on_disk || profile->content.end == INI_END_GOOD)
        return STATUS_OK;
    const enum status status =
        beside_keep_copy(profile->target, "as-found", &profile->content.text.bytes, &path);
    if (status != STATUS_OK)
        return status;
    free(path);
    profile->notices |= PROFILE_KEPT_AS_FOUND;
    return STATUS_OK;
}

/* The state before the session's first change. That it cannot be kept is told, and costs
 * nothing else. */
static void keep_generation(struct profile *profile)
{
    if (profile->changed || !profile->on_disk)
        return;
    if (generations_keep(profile->target, &profile->content.text.bytes) == STATUS_OK)
        profile->notices &= ~(unsigned)PROFILE_NO_GENERATION;
    else
        profile->notices |= PROFILE_NO_GENERATION;
}

/* Writes our version beside a file that is no longer ours to write; never over a file
 * that is not as we left it. */
static enum status save_conflict(struct profile *profile, struct profile_content *content)
{
    const struct bytes *bytes = &content->text.bytes;
    enum disk_state state = DISK_OTHER;
    enum status status = STATUS_OK;
    bool replaced;

    if (profile->conflict_path)
        status = look_at_disk(profile->conflict_path, &profile->conflict, true, &state);
    if (status == STATUS_OK && state == DISK_SAME) {
        status = write_file(profile->conflict_path, SAFEFILE_REPLACE, bytes, &replaced);
    } else if (status == STATUS_OK) {
        char *path;

        status = beside_keep_copy(profile->target, "conflict", bytes, &path);
        if (status == STATUS_OK) {
            free(profile->conflict_path);
            profile->conflict_path = path;
        }
    }
    if (status != STATUS_OK)
        return status;
    profile->notices |= PROFILE_CONFLICT;
    bytes_done(&profile->conflict);
    bytes_add(&profile->conflict, bytes->data, bytes->length);
    return bytes_status(&profile->conflict) == STATUS_OK ? STATUS_CHANGED : STATUS_NO_MEMORY;
}

static void adopt(struct profile *profile, struct profile_content *content)
{
    profile_content_done(&profile->content);
    profile->content = *content;
    *content = (struct profile_content){0};
    profile->on_disk = true;
}

static enum status save_content(struct profile *profile, struct profile_content *content)
{
    enum disk_state state;
    bool replaced = false;

    if (profile->conflict_path)
        return save_conflict(profile, content);
    enum status status =
        look_at_disk(profile->target, &profile->content.text.bytes, profile->on_disk, &state);
    if (status != STATUS_OK)
        return status;
    if (state == DISK_OTHER)
        return save_conflict(profile, content);
    status = keep_as_found(profile);
    if (status != STATUS_OK)
        return status;
    keep_generation(profile);
    status = write_file(profile->target, state == DISK_GONE ? SAFEFILE_NEW : SAFEFILE_REPLACE,
                        &content->text.bytes, &replaced);
    /* Also when the folder could not be synced: what is there now is ours, no conflict. */
    if (status == STATUS_OK || replaced) {
        adopt(profile, content);
        profile->changed = true;
    }
    profile->unsure = replaced && status != STATUS_OK;
    return status;
}

static bool is_saved(const struct profile *profile, const struct record *record)
{
    return profile->on_disk && !profile->unsure && !profile->conflict_path &&
           profile->content.end == INI_END_GOOD && record_equal(&profile->content.record, record);
}

enum status profile_save(struct profile *profile, const struct record *record)
{
    struct profile_content content;

    if (profile->editable != STATUS_OK)
        return profile->editable;
    if (is_saved(profile, record))
        return STATUS_OK;
    enum status status = prepare(profile, record, &content);
    if (status != STATUS_OK)
        return status;
    status = save_content(profile, &content);
    const int kept_errno = errno;
    profile_content_done(&content);
    errno = kept_errno;
    return status;
}
