/* SPDX-License-Identifier: MIT */
#include <stdlib.h>

#include "store/disk.h"
#include "store/file_read.h"
#include "store/profile/copy.h"
#include "store/profile/generations.h"
#include "store/profile/profile_beside.h"
#include "store/profile/profile_edit.h"
#include "store/profile/profile_inner.h"
#include "store/safefile.h"

/*
 * Makes the text to write and reads it back before anything is overwritten: only a text that opens
 * as exactly this record is written.
 */
static enum status prepare(const struct profile *profile, const struct record *record,
                           struct profile_content *ret_content)
{
    struct profile_content content;
    struct bytes bytes;

    bytes_init(&bytes);
    enum status status = profile_edit(&profile->content, record, &bytes);
    if (status == STATUS_OK)
        status = profile_load_back(&bytes, record, &content);
    bytes_done(&bytes);
    if (status != STATUS_OK)
        return status;
    if (profile_is_too_long(&content))
        status = STATUS_TOO_LARGE;
    else if (content.end != INI_END_GOOD || !record_equal(&content.record, record))
        status = STATUS_DAMAGED;
    if (status != STATUS_OK) {
        profile_content_done(&content);
        return status;
    }
    *ret_content = content;
    return STATUS_OK;
}

enum disk_state { DISK_SAME, DISK_GONE, DISK_OTHER };

/* Compares bytes, not times: it misses no change, and a file that was only touched is the same. */
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

static enum status keep_as_found(struct profile *profile)
{
    char *path;

    if (!profile->on_disk || profile->content.end == INI_END_GOOD)
        return STATUS_OK;
    const enum status status =
        beside_keep(COPY_FOUND, profile->target, &profile->content.text.bytes, &path);
    if (status != STATUS_OK)
        return status;
    free(path);
    profile->notices |= PROFILE_KEPT_AS_FOUND;
    return STATUS_OK;
}

/* Keeps the state before the session's first change. A failure is noted and does not stop the
 * save. */
static void keep_generation(struct profile *profile)
{
    if (profile->changed || !profile->on_disk)
        return;
    profile->generation = generations_keep(profile->target, &profile->content.text.bytes, NULL);
    if (profile->generation == STATUS_OK)
        profile->notices &= ~(unsigned)PROFILE_NO_GENERATION;
    else
        profile->notices |= PROFILE_NO_GENERATION;
}

/* Writes our version beside a file that somebody else changed. Replaces only a conflict file that
 * is still as we left it. */
static enum status save_conflict(struct profile *profile, struct profile_content *content)
{
    const struct bytes *bytes = &content->text.bytes;
    enum status status;

    if (profile->conflict_path && copy_holds(profile->conflict_path, &profile->conflict)) {
        status = safefile_put(profile->conflict_path, SAFEFILE_OWN, &profile->share, bytes->data,
                              bytes->length, NULL);
    } else {
        char *path;

        status = beside_keep(COPY_CONFLICT, profile->target, bytes, &path);
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
    profile->changed = true;
    bytes_done(&profile->attempt);
}

/* A network file system may report a failure for a save that was done. What is on disk is then
 * ours, and not a change by somebody else. */
static void settle_attempt(struct profile *profile)
{
    struct profile_content content;

    if (profile->attempt.length == 0 || !copy_holds(profile->target, &profile->attempt) ||
        profile_load(&profile->attempt, NULL, &content) != STATUS_OK)
        return;
    adopt(profile, &content);
    profile->unsure = true;
}

/* Whether its folder's path leads to another folder than when it was opened. */
static bool is_elsewhere(const struct profile *profile)
{
    const struct profile_folder now = profile_folder_now(profile);

    return profile->folder.known && now.known &&
           (now.device != profile->folder.device || now.inode != profile->folder.inode);
}

/* Whether and how the file may be written. STATUS_CHANGED if ours goes beside somebody else's. */
static enum status choose_mode(struct profile *profile, enum safefile_mode *ret_mode)
{
    enum disk_state state;

    if (profile->conflict_path)
        return is_elsewhere(profile) && !copy_holds(profile->conflict_path, &profile->conflict)
                   ? STATUS_MOVED
                   : STATUS_CHANGED;
    const enum status status =
        look_at_disk(profile->target, &profile->content.text.bytes, profile->on_disk, &state);

    if (status != STATUS_OK)
        return status;
    if (state != DISK_SAME && is_elsewhere(profile))
        return STATUS_MOVED;
    if (state == DISK_OTHER)
        return STATUS_CHANGED;
    profile->folder = profile_folder_now(profile);
    *ret_mode = state == DISK_GONE ? SAFEFILE_NEW : SAFEFILE_REPLACE;
    return STATUS_OK;
}

static enum status write_content(struct profile *profile, struct profile_content *content,
                                 enum safefile_mode mode)
{
    const bool anew = mode == SAFEFILE_NEW && profile->on_disk;
    bool replaced = false;
    const enum status status =
        safefile_put(profile->target, mode, &profile->share, content->text.bytes.data,
                     content->text.bytes.length, &replaced);

    /* Even if the folder could not be synced, the file that is there is ours. */
    if (status == STATUS_OK || replaced) {
        adopt(profile, content);
        profile->notices |= profile_is_long(&profile->content) ? PROFILE_LONG : 0;
        profile->notices |= anew ? PROFILE_WRITTEN_ANEW : 0;
    } else {
        bytes_done(&profile->attempt);
        profile->attempt = content->text.bytes;
        bytes_init(&content->text.bytes);
    }
    profile->unsure = replaced && status != STATUS_OK;
    return status;
}

static enum status save_content(struct profile *profile, struct profile_content *content)
{
    enum safefile_mode mode = SAFEFILE_REPLACE;

    enum status status = choose_mode(profile, &mode);
    if (status == STATUS_CHANGED)
        return save_conflict(profile, content);
    if (status != STATUS_OK)
        return status;
    status = keep_as_found(profile);
    if (status != STATUS_OK)
        return status;
    keep_generation(profile);
    return write_content(profile, content, mode);
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
    profile->notices &= ~(unsigned)PROFILE_WRITTEN_ANEW;
    settle_attempt(profile);
    if (is_saved(profile, record))
        return STATUS_OK;
    enum status status = prepare(profile, record, &content);
    if (status != STATUS_OK)
        return status;
    status = save_content(profile, &content);
    profile_content_done(&content);
    return status;
}
