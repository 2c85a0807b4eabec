/* SPDX-License-Identifier: MIT */
#include "store/profile/aside.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "store/disk.h"
#include "store/file_read.h"
#include "store/paths.h"
#include "store/profile/aside_folder.h"
#include "store/profile/profile_beside.h"
#include "store/profile/profile_edit.h"
#include "store/profile/profile_inner.h"
#include "store/safefile.h"

static struct aside_name name_of(const struct profile *profile)
{
    return aside_name_for(profile_target(profile), &profile_content(profile)->text.bytes);
}

/* --- keeping --- */

/* Under a free name: a file that is there may be all that is left of another session. */
static enum status keep_new(const char *folder, const struct aside_name *name,
                            const struct bytes *bytes, char **path)
{
    char *kept = NULL, *stem = paths_join(folder, name->text);
    const enum status status = stem ? beside_keep(COPY_HELD, stem, bytes, &kept) : STATUS_NO_MEMORY;

    disk_free(stem);
    if (status == STATUS_OK) {
        aside_drop(path);
        *path = kept;
    }
    return status;
}

static enum status keep_in(const char *folder, const struct aside_name *name,
                           const struct bytes *bytes, char **path)
{
    const enum status status = paths_make_folder(folder);

    if (status != STATUS_OK)
        return status;
    safefile_sweep(folder);
    if (*path && aside_is_named(*path, name))
        return safefile_put(*path, SAFEFILE_OWN, NULL, bytes->data, bytes->length, NULL);
    return keep_new(folder, name, bytes, path);
}

enum status aside_keep(const struct profile *profile, const struct record *record, char **path)
{
    const struct aside_name name = name_of(profile);
    char *folder = NULL;
    struct bytes bytes;

    bytes_init(&bytes);
    enum status status = profile_edit(profile_content(profile), record, &bytes);
    if (status == STATUS_OK)
        status = aside_folder_find(&folder);
    if (status == STATUS_OK)
        status = keep_in(folder, &name, &bytes, path);
    disk_free(folder);
    bytes_done(&bytes);
    return status;
}

void aside_drop(char **path)
{
    const int kept_errno = errno;

    if (*path)
        (void)unlink(*path);
    free(*path);
    *path = NULL;
    errno = kept_errno;
}

/* --- finding --- */

/* A file of another state, or a damaged one, goes beside the profile, where it will be seen. */
static enum aside_found put_beside(const struct profile *profile, const struct bytes *bytes,
                                   char **path)
{
    char *beside = NULL;

    if (profile_editable(profile) != STATUS_OK ||
        beside_keep(COPY_ASIDE, profile_target(profile), bytes, &beside) != STATUS_OK)
        return ASIDE_STAYS;
    aside_drop(path);
    *path = beside;
    return ASIDE_BESIDE;
}

static enum aside_found settle_whole(const struct profile *profile, bool same_state,
                                     const struct profile_content *content,
                                     struct record *ret_record, char **path)
{
    if (record_equal(&content->record, profile_record(profile))) {
        aside_drop(path);
        return ASIDE_NONE;
    }
    if (!same_state || profile_editable(profile) != STATUS_OK)
        return put_beside(profile, &content->text.bytes, path);
    return record_copy(&content->record, ret_record) == STATUS_OK ? ASIDE_RECORD : ASIDE_STAYS;
}

/* May take over the bytes. */
static enum aside_found settle(const struct profile *profile, bool same_state, struct bytes *bytes,
                               struct record *ret_record, char **path)
{
    struct profile_content content;

    if (profile_load(bytes, NULL, &content) != STATUS_OK)
        return put_beside(profile, bytes, path);
    const enum aside_found found =
        content.end == INI_END_GOOD && !content.newer
            ? settle_whole(profile, same_state, &content, ret_record, path)
            : put_beside(profile, &content.text.bytes, path);
    profile_content_done(&content);
    return found;
}

static enum aside_found look_at(const struct profile *profile, bool same_state,
                                struct record *ret_record, char **path)
{
    struct bytes bytes;

    if (file_read_own(*path, FILE_BYTES_MAX, &bytes) != STATUS_OK)
        return ASIDE_STAYS;
    const enum aside_found found = settle(profile, same_state, &bytes, ret_record, path);
    bytes_done(&bytes);
    return found;
}

/* A path of this state, else of any other, owned by the caller; NULL if there is none. */
static char *choose_path(struct copies *list, const struct aside_name *name)
{
    size_t at = 0;

    while (at < list->count && !aside_is_named(list->items[at].path, name))
        at++;
    if (list->count == 0)
        return NULL;
    struct copy *chosen = &list->items[at < list->count ? at : 0];
    char *path = chosen->path;
    chosen->path = NULL;
    return path;
}

static enum aside_found find_in(const char *folder, const struct profile *profile,
                                struct record *ret_record, char **ret_path)
{
    const struct aside_name name = name_of(profile);
    struct copies list = {.items = NULL};
    const bool seen = aside_folder_list(folder, &name, &list) == STATUS_OK;
    char *path = seen ? choose_path(&list, &name) : strdup(folder);
    enum aside_found found = ASIDE_NONE;

    copies_done(&list);
    if (path && seen)
        found = look_at(profile, aside_is_named(path, &name), ret_record, &path);
    else if (path)
        found = ASIDE_UNSEEN;
    if (found == ASIDE_NONE)
        free(path);
    else
        *ret_path = path;
    return found;
}

enum aside_found aside_find(const struct profile *profile, struct record *ret_record,
                            char **ret_path)
{
    char *folder = NULL;

    if (aside_folder_find(&folder) != STATUS_OK)
        return ASIDE_NONE;
    const enum aside_found found = find_in(folder, profile, ret_record, ret_path);
    free(folder);
    return found;
}
