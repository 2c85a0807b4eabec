/* SPDX-License-Identifier: MIT */
#include "store/aside.h"

#include <dirent.h>
#include <errno.h>
#include <inttypes.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/strbuf.h"
#include "store/crc32.h"
#include "store/disk.h"
#include "store/file_read.h"
#include "store/paths.h"
#include "store/profile_beside.h"
#include "store/profile_edit.h"
#include "store/profile_inner.h"
#include "store/safefile.h"
#include "store/shelf_name.h"

/* A short file name, two sums and dashes. */
enum { NAME_SIZE = 96 };

static const char ending[] = "ini";

/* Without the ending, and the number behind it. */
struct aside_name {
    char text[NAME_SIZE];
    size_t of_file; /* so much of it is the same for every state of the file */
};

static struct aside_name name_for(const char *target, const struct bytes *bytes)
{
    struct aside_name name;
    struct strbuf text = STRBUF(name.text);

    shelf_file_name(paths_name_of(target), &text);
    strbuf_addf(&text, "-%08" PRIX32 "-", crc32_of(target, strlen(target)));
    name.of_file = text.length;
    strbuf_addf(&text, "%08" PRIX32, crc32_of(bytes->data, bytes->length));
    return name;
}

static struct aside_name name_of(const struct profile *profile)
{
    return name_for(profile_target(profile), &profile_content(profile)->text.bytes);
}

static enum status find_folder(char **ret_folder)
{
    char *state = NULL;
    const enum status status = paths_state_folder(&state);

    if (status != STATUS_OK)
        return status;
    *ret_folder = paths_join(state, "aside");
    free(state);
    return *ret_folder ? STATUS_OK : STATUS_NO_MEMORY;
}

/* --- keeping --- */

/* Whether it has that name, numbered or not: then it is of that state of the file. */
static bool is_named(const char *path, const struct aside_name *name)
{
    const size_t length = strlen(name->text);

    path = paths_name_of(path);
    return strncmp(path, name->text, length) == 0 && path[length] == '.';
}

/* Under a name that is free: what has another one may be all that is left of a session. */
static enum status keep_new(const char *folder, const struct aside_name *name,
                            const struct bytes *bytes, char **path)
{
    char *kept = NULL, *stem = paths_join(folder, name->text);
    const enum status status =
        stem ? beside_keep_copy(stem, ending, bytes, &kept) : STATUS_NO_MEMORY;
    const int kept_errno = errno;

    free(stem);
    if (status == STATUS_OK) {
        aside_drop(path);
        *path = kept;
    }
    errno = kept_errno;
    return status;
}

static enum status keep_in(const char *folder, const struct aside_name *name,
                           const struct bytes *bytes, char **path)
{
    const enum status status = paths_make_folder(folder);

    if (status != STATUS_OK)
        return status;
    safefile_sweep(folder);
    if (*path && is_named(*path, name))
        return safefile_put(*path, SAFEFILE_OWN, NULL, bytes->data, bytes->length);
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
        status = find_folder(&folder);
    if (status == STATUS_OK)
        status = keep_in(folder, &name, &bytes, path);
    const int kept_errno = errno;
    free(folder);
    bytes_done(&bytes);
    errno = kept_errno;
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

/* A file of another state, or one that is not whole, is put where the tech works. */
static enum aside_found put_beside(const struct profile *profile, const struct bytes *bytes,
                                   char **path)
{
    char *beside = NULL;

    if (profile_editable(profile) != STATUS_OK ||
        beside_keep_copy(profile_target(profile), "aside", bytes, &beside) != STATUS_OK)
        return ASIDE_STAYS;
    aside_drop(path);
    *path = beside;
    return ASIDE_BESIDE;
}

/* Takes the bytes over. */
static enum aside_found settle(const struct profile *profile, bool same_state, struct bytes *bytes,
                               struct record *ret_record, char **path)
{
    struct profile_content content;
    struct bytes copy;
    enum aside_found found = ASIDE_STAYS;

    bytes_init(&copy);
    bytes_add(&copy, bytes->data, bytes->length);
    const bool loaded =
        bytes_status(&copy) == STATUS_OK && profile_load(bytes, NULL, &content) == STATUS_OK;
    const bool whole = loaded && content.end == INI_END_GOOD && !content.newer;
    if (whole && record_equal(&content.record, profile_record(profile))) {
        aside_drop(path);
        found = ASIDE_NONE;
    } else if (whole && same_state && profile_editable(profile) == STATUS_OK) {
        if (record_copy(&content.record, ret_record) == STATUS_OK)
            found = ASIDE_RECORD;
    } else if (bytes_status(&copy) == STATUS_OK) {
        found = put_beside(profile, &copy, path);
    }
    if (loaded)
        profile_content_done(&content);
    bytes_done(&copy);
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

/* Of any state of the file: a sum, the ending, perhaps a number. */
static bool is_of_file(const char *entry, const struct aside_name *name)
{
    const char *sum = entry + name->of_file;

    return strncmp(entry, name->text, name->of_file) == 0 &&
           strspn(sum, "0123456789ABCDEF") == strlen(name->text) - name->of_file &&
           strncmp(entry + strlen(name->text), ".ini", 4) == 0;
}

static bool is_better(const char *entry, const char *chosen, const struct aside_name *name)
{
    if (!chosen || is_named(entry, name) != is_named(chosen, name))
        return !chosen || is_named(entry, name);
    return strcmp(entry, chosen) < 0;
}

/* One of this state, else any other of the file; *ret_chosen stays NULL for none. */
static enum status choose_name(const char *folder, const struct aside_name *name, char **ret_chosen)
{
    enum status status = STATUS_OK;
    const struct dirent *entry;
    DIR *names = opendir(folder);

    if (!names)
        return errno == ENOENT ? STATUS_OK : disk_status(errno);
    while (status == STATUS_OK && (errno = 0, entry = readdir(names)) != NULL) {
        if (!is_of_file(entry->d_name, name) || !is_better(entry->d_name, *ret_chosen, name))
            continue;
        free(*ret_chosen);
        *ret_chosen = strdup(entry->d_name);
        status = *ret_chosen ? STATUS_OK : STATUS_NO_MEMORY;
    }
    /* Whether that was the last one, or no more could be read. */
    if (status == STATUS_OK && errno != 0)
        status = disk_status(errno);
    closedir(names);
    return status;
}

bool aside_exists(const char *target)
{
    const struct bytes nothing = {.data = NULL};
    const struct aside_name name = name_for(target, &nothing);
    char *folder = NULL;

    if (find_folder(&folder) != STATUS_OK)
        return false;
    char *chosen = NULL;
    (void)choose_name(folder, &name, &chosen);
    const bool exists = chosen != NULL;
    free(chosen);
    free(folder);
    return exists;
}

static enum aside_found find_in(const char *folder, const struct profile *profile,
                                struct record *ret_record, char **ret_path)
{
    const struct aside_name name = name_of(profile);
    char *chosen = NULL;
    const enum status status = choose_name(folder, &name, &chosen);
    char *path = status != STATUS_OK ? strdup(folder) : chosen ? paths_join(folder, chosen) : NULL;
    enum aside_found found = ASIDE_NONE;

    if (path && status != STATUS_OK)
        found = ASIDE_UNSEEN;
    else if (path)
        found = look_at(profile, is_named(chosen, &name), ret_record, &path);
    free(chosen);
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

    if (find_folder(&folder) != STATUS_OK)
        return ASIDE_NONE;
    const enum aside_found found = find_in(folder, profile, ret_record, ret_path);
    free(folder);
    return found;
}
