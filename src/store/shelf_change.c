/* SPDX-License-Identifier: MIT */
#include "store/shelf_change.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "store/lockfile.h"
#include "store/paths.h"
#include "store/profile.h"
#include "store/safefile.h"

enum { NAMES_MAX = 999, STEM_MAX = 60 };

static const char ending[] = ".ini";

void shelf_file_name(const char *name, struct strbuf *out)
{
    const size_t start = out->length;
    bool dash = false;

    for (const char *at = name; *at && out->length - start < STEM_MAX; at++) {
        const bool upper = *at >= 'A' && *at <= 'Z';

        if (!upper && !(*at >= 'a' && *at <= 'z') && !(*at >= '0' && *at <= '9')) {
            dash = true;
            continue;
        }
        if (dash && out->length > start)
            strbuf_add_char(out, '-');
        dash = false;
        strbuf_add_char(out, upper ? (char)(*at - 'A' + 'a') : *at);
    }
    if (out->length == start)
        strbuf_add(out, "instrument");
}

/* STEM.ini, STEM-2.ini and so on; to be freed, NULL without memory. */
static char *numbered_name(const char *stem, size_t length, int number)
{
    const size_t size = length + sizeof ending + 8;
    char *name = malloc(size);

    if (!name)
        return NULL;
    if (number == 1)
        snprintf(name, size, "%.*s%s", (int)length, stem, ending);
    else
        snprintf(name, size, "%.*s-%d%s", (int)length, stem, number, ending);
    return name;
}

/* --- a new one --- */

static enum status create(const char *path, const struct record *record)
{
    struct profile *profile;
    enum status status = profile_create(path, &profile);

    if (status != STATUS_OK)
        return status;
    status = profile_save(profile, record);
    const int kept_errno = errno;
    profile_close(profile);
    errno = kept_errno;
    return status;
}

/* A name is also taken where somebody is about to write it, or wrote it beside ours. */
static bool is_taken(enum status status)
{
    return status == STATUS_CHANGED || status == STATUS_LOCKED;
}

static enum status create_numbered(const char *folder, const struct record *record,
                                   const char *stem, char **ret_file)
{
    enum status status = STATUS_CHANGED;

    for (int number = 1; number <= NAMES_MAX && is_taken(status); number++) {
        char *file = numbered_name(stem, strlen(stem), number);
        char *path = file ? paths_join(folder, file) : NULL;

        status = path ? create(path, record) : STATUS_NO_MEMORY;
        const int kept_errno = errno;
        free(path);
        if (status == STATUS_OK)
            *ret_file = file;
        else
            free(file);
        errno = kept_errno;
    }
    return is_taken(status) ? STATUS_FULL : status;
}

enum status shelf_file_record(const char *folder, struct record *record, const char *name,
                              char **ret_file)
{
    const struct reading_key key = reading_key_one(FIELD_NAME);
    char memory[STEM_MAX + 2];
    struct strbuf stem = STRBUF(memory);
    enum status status = record_put(record, &key, name, false, NULL);

    if (status == STATUS_OK)
        status = paths_make_folder(folder);
    if (status != STATUS_OK)
        return status;
    shelf_file_name(name, &stem);
    return create_numbered(folder, record, memory, ret_file);
}

/* --- a copy --- */

static void drop_visits(struct record *record)
{
    for (size_t i = record->count; i-- > 0;) {
        const struct reading_key key = record->readings[i].key;

        if (key.visit > 0)
            (void)record_remove(record, &key);
    }
}

static enum status read_record(const char *folder, const char *file, struct record *ret_record)
{
    struct profile *profile;
    char *path = paths_join(folder, file);

    if (!path)
        return STATUS_NO_MEMORY;
    enum status status = profile_open(path, PROFILE_TO_READ, NULL, &profile);
    free(path);
    if (status != STATUS_OK)
        return status;
    /* Of a later format only a part is understood, so that a copy would lack the rest. */
    if (profile_editable(profile) == STATUS_NEWER)
        status = STATUS_NEWER;
    else
        status = record_copy(profile_record(profile), ret_record);
    profile_close(profile);
    return status;
}

enum status shelf_copy(const char *folder, const char *file, const char *name, char **ret_file)
{
    struct record record;
    enum status status = read_record(folder, file, &record);

    if (status != STATUS_OK)
        return status;
    drop_visits(&record);
    status = shelf_file_record(folder, &record, name, ret_file);
    const int kept_errno = errno;
    record_done(&record);
    errno = kept_errno;
    return status;
}

/* --- into the archive --- */

static bool lacks_links(int error)
{
    return error == EPERM || error == EOPNOTSUPP || error == ENOTSUP || error == ENOSYS ||
           error == EMLINK;
}

/* Unlike rename, link fails where the name is taken. */
static enum status move_file(int from, const char *file, int to, const char *name)
{
    struct stat facts;

    if (linkat(from, file, to, name, 0) == 0) {
        if (unlinkat(from, file, 0) == 0)
            return STATUS_OK;
        const enum status status = safefile_status(errno);
        unlinkat(to, name, 0);
        return status;
    }
    if (errno == EEXIST)
        return STATUS_CHANGED;
    if (!lacks_links(errno))
        return safefile_status(errno);
    if (fstatat(to, name, &facts, AT_SYMLINK_NOFOLLOW) == 0)
        return STATUS_CHANGED;
    return renameat(from, file, to, name) == 0 ? STATUS_OK : safefile_status(errno);
}

static enum status move_numbered(int from, const char *file, int to, char **ret_file)
{
    const size_t length = strlen(file) - (sizeof ending - 1);
    enum status status = STATUS_CHANGED;

    for (int number = 1; number <= NAMES_MAX && status == STATUS_CHANGED; number++) {
        char *name = numbered_name(file, length, number);

        status = name ? move_file(from, file, to, name) : STATUS_NO_MEMORY;
        const int kept_errno = errno;
        if (status == STATUS_OK)
            *ret_file = name;
        else
            free(name);
        errno = kept_errno;
    }
    return status == STATUS_CHANGED ? STATUS_FULL : status;
}

static enum status open_archive(int folder, int *ret_archive)
{
    if (mkdirat(folder, "archive", 0700) != 0 && errno != EEXIST)
        return safefile_status(errno);
    const int archive = openat(folder, "archive", O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    if (archive < 0)
        return errno == ENOTDIR || errno == ELOOP ? STATUS_NOT_REGULAR : safefile_status(errno);
    *ret_archive = archive;
    return STATUS_OK;
}

static enum status look_at_file(int folder, const char *file)
{
    struct stat facts;

    if (fstatat(folder, file, &facts, AT_SYMLINK_NOFOLLOW) != 0)
        return errno == ENOENT ? STATUS_NOT_FOUND : safefile_status(errno);
    return S_ISREG(facts.st_mode) ? STATUS_OK : STATUS_NOT_REGULAR;
}

static enum status archive_in(int folder, const char *file, char **ret_file)
{
    int archive = -1;
    enum status status = look_at_file(folder, file);

    if (status == STATUS_OK)
        status = open_archive(folder, &archive);
    if (status != STATUS_OK)
        return status;
    status = move_numbered(folder, file, archive, ret_file);
    const int kept_errno = errno;
    if (status == STATUS_OK) {
        (void)fsync(archive);
        (void)fsync(folder);
    }
    close(archive);
    errno = kept_errno;
    return status;
}

/* Where locks do not work, the file is moved all the same, as it would be edited. */
static enum status archive_locked(const char *folder, const char *file, char **ret_file)
{
    struct lockfile lock = {.fd = -1};
    struct lockfile_holder holder;
    char *path = paths_join(folder, file);
    enum status status = path ? lockfile_take(path, &lock, &holder) : STATUS_NO_MEMORY;

    free(path);
    if (status == STATUS_LOCKED || status == STATUS_NO_MEMORY || status == STATUS_READ_ONLY)
        return status;
    const int fd = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    status = fd < 0 ? safefile_status(errno) : archive_in(fd, file, ret_file);
    const int kept_errno = errno;
    if (fd >= 0)
        close(fd);
    lockfile_drop(&lock);
    errno = kept_errno;
    return status;
}

enum status shelf_archive(const char *folder, const char *file, char **ret_file)
{
    const size_t length = strlen(file);

    if (length < sizeof ending || strcmp(file + length - (sizeof ending - 1), ending) != 0)
        return STATUS_NOT_REGULAR;
    return archive_locked(folder, file, ret_file);
}
