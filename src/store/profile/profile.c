/* SPDX-License-Identifier: MIT */
#include "store/profile/profile.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "store/disk.h"
#include "store/file_read.h"
#include "store/paths.h"
#include "store/profile/copies.h"
#include "store/profile/generations.h"
#include "store/profile/lockfile.h"
#include "store/profile/profile_inner.h"
#include "store/profile/profile_load.h"
#include "store/profile/profile_name.h"
#include "store/safefile.h"

struct profile_folder profile_folder_now(const struct profile *profile)
{
    const int kept_errno = errno;
    struct profile_folder found = {.known = false};
    struct stat facts;
    char *folder = paths_folder_of(profile->target);

    if (folder && stat(folder, &facts) == 0)
        found =
            (struct profile_folder){.device = facts.st_dev, .inode = facts.st_ino, .known = true};
    free(folder);
    errno = kept_errno;
    return found;
}

static struct profile *new_profile(const char *path)
{
    struct profile *profile = calloc(1, sizeof *profile);

    if (!profile)
        return NULL;
    profile->lock.fd = -1;
    profile->path = strdup(path);
    profile->target = safefile_target(path);
    if (profile->path && profile->target) {
        profile->folder = profile_folder_now(profile);
        profile->share = share_of(profile->target);
        return profile;
    }
    profile_close(profile);
    return NULL;
}

void profile_close(struct profile *profile)
{
    if (!profile)
        return;
    lockfile_drop(&profile->lock);
    profile_content_done(&profile->content);
    bytes_done(&profile->conflict);
    bytes_done(&profile->attempt);
    disk_free(profile->conflict_path);
    disk_free(profile->target);
    disk_free(profile->path);
    disk_free(profile);
}

/* The status for an errno after a path could not be followed. */
static enum status path_status(int error)
{
    if (error == ENOENT || error == ENOTDIR)
        return STATUS_NOT_FOUND;
    if (error == ENOLINK)
        return STATUS_NOWHERE;
    return error == ENOMEM ? STATUS_NO_MEMORY : STATUS_IO;
}

/* Takes the lock if locks work here, and notes what prevents editing. */
static void lock(struct profile *profile)
{
    const enum status status = lockfile_take(profile->target, &profile->lock, &profile->holder);

    if (status == STATUS_LOCKED || status == STATUS_READ_ONLY)
        profile->editable = status;
    else if (status != STATUS_OK)
        profile->notices |= PROFILE_NO_LOCK;
    if (status == STATUS_NOT_REGULAR)
        profile->notices |= PROFILE_LOCK_TAKEN;
}

/* Notes whether the state before the first change can be kept. */
static void look_for_room(struct profile *profile)
{
    const enum generations_room room = generations_room(profile->target);

    if (room == GENERATIONS_CLOSED)
        profile->notices |= PROFILE_NO_GENERATION;
    else if (room == GENERATIONS_CLOSED_TO_OTHERS)
        profile->notices |= PROFILE_CLOSED_GENERATIONS;
}

static void settle_access(struct profile *profile)
{
    if (profile->content.end == INI_END_MISSING)
        profile->notices |= PROFILE_END_MISSING;
    if (profile->content.end == INI_END_WRONG)
        profile->notices |= PROFILE_END_WRONG;
    if (profile_is_long(&profile->content))
        profile->notices |= PROFILE_LONG;
    if (profile->content.newer)
        profile->editable = STATUS_NEWER;
    else if (profile->editable == STATUS_OK && profile_is_too_long(&profile->content))
        profile->editable = STATUS_TOO_LARGE;
    else if (profile->editable == STATUS_OK && access(profile->target, W_OK) != 0)
        profile->editable = STATUS_READ_ONLY;
    else if (profile->editable == STATUS_OK && !share_may_replace(profile->target))
        profile->editable = STATUS_NOT_OURS;
    if (profile->editable == STATUS_OK)
        look_for_room(profile);
    else
        lockfile_drop(&profile->lock);
}

/* Mentioned at every opening until somebody has chosen one. A command may read thousands of one
 * folder, which would take as long as going through all its names for each. If the search fails,
 * memory is short, and that will be reported elsewhere. */
static void note_versions(struct profile *profile, enum profile_access access,
                          struct problems *problems)
{
    const unsigned kinds = access == PROFILE_TO_EDIT ? COPY_VERSIONS : COPY_NAMED;
    const char *advice = profile_name_is_listed(paths_name_of(profile->path))
                             ? "on the shelf, * then e puts both together, or one of them away"
                             : "look at both, keep one and move the other away";
    struct copies versions;

    (void)copies_list(profile->target, kinds, &versions);
    for (size_t i = 0; i < versions.count; i++)
        problem_add(problems, 0, PROBLEM_WARNING, "another version lies beside it: %s; %s",
                    shown_string(paths_name_of(versions.items[i].path)).text, advice);
    if (versions.count > 0)
        profile->notices |= PROFILE_VERSIONS;
    copies_done(&versions);
}

static enum status read_profile(struct profile *profile, struct problems *problems)
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

/* Checked before locking, which would leave a lock file beside a folder or a device. */
static bool is_other_than_file(const struct profile *profile)
{
    struct stat facts;

    return stat(profile->target, &facts) == 0 && !S_ISREG(facts.st_mode);
}

enum status profile_open(const char *path, enum profile_access access, struct problems *problems,
                         struct profile **ret_profile)
{
    struct profile *profile = new_profile(path);

    if (!profile)
        return path_status(errno);
    if (is_other_than_file(profile)) {
        profile_close(profile);
        return STATUS_NOT_REGULAR;
    }
    /* The lock comes first, so that the file cannot change between reading and locking. */
    if (access == PROFILE_TO_EDIT)
        lock(profile);
    else
        profile->editable = STATUS_READ_ONLY;
    note_versions(profile, access, problems);
    const enum status status = read_profile(profile, problems);
    if (problems)
        problems_sort(problems);
    if (status != STATUS_OK) {
        profile_close(profile);
        return status;
    }
    settle_access(profile);
    if (profile->editable == STATUS_OK)
        safefile_sweep_beside(profile->target);
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
        profile_close(profile);
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

enum status profile_generation_status(const struct profile *profile)
{
    return profile->generation;
}

unsigned profile_notices(const struct profile *profile)
{
    return profile->notices;
}

const char *profile_conflict_path(const struct profile *profile)
{
    return profile->conflict_path;
}
