/* SPDX-License-Identifier: MIT */
#include "store/shelf/shelf_change.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "store/disk.h"
#include "store/paths.h"
#include "store/profile/copies.h"
#include "store/profile/profile.h"
#include "store/profile/profile_beside.h"
#include "store/safefile.h"

/* --- a new profile --- */

enum status shelf_path_is_free(const char *path)
{
    char *target = safefile_target(path);

    if (!target && errno == ENOLINK)
        return STATUS_CHANGED;
    if (!target)
        return errno == ENOENT ? STATUS_NOT_FOUND : disk_status(errno);
    enum status status = beside_is_free(target, "lock");
    if (status == STATUS_OK)
        status = copies_none(target);
    disk_free(target);
    return status;
}

static enum status create(const char *path, const struct record *record)
{
    struct profile *profile;
    enum status status = profile_create(path, &profile);

    if (status != STATUS_OK)
        return status;
    status = profile_save(profile, record);
    profile_close(profile);
    return status;
}

/* A name is also taken if somebody else is writing a profile of that name. */
static bool is_taken(enum status status)
{
    return status == STATUS_CHANGED || status == STATUS_LOCKED;
}

static enum status create_numbered(const char *folder, const struct record *record,
                                   const char *stem, char **ret_file)
{
    enum status status = STATUS_CHANGED;

    for (int number = 1; number <= PROFILE_NUMBERS_MAX && is_taken(status); number++) {
        char *file = profile_name_numbered(stem, strlen(stem), number);
        char *path = file ? paths_join(folder, file) : NULL;

        status = path ? shelf_path_is_free(path) : STATUS_NO_MEMORY;
        if (status == STATUS_OK)
            status = create(path, record);
        disk_free(path);
        if (status == STATUS_OK)
            *ret_file = file;
        else
            disk_free(file);
    }
    if (!is_taken(status))
        return status;
    errno = EEXIST;
    return STATUS_FULL;
}

enum status shelf_file_record(const char *folder, struct record *record, const char *name,
                              char **ret_file)
{
    const struct reading_key key = reading_key_one(FIELD_NAME);
    char memory[PROFILE_STEM_MAX + 2];
    struct strbuf stem = STRBUF(memory);
    enum status status = record_put(record, &key, name, false, NULL);

    if (status == STATUS_OK)
        status = paths_make_folder(folder);
    if (status != STATUS_OK)
        return status;
    profile_name_make(name, &stem);
    return create_numbered(folder, record, memory, ret_file);
}

/* --- a copy --- */

/* The instrument as it is now becomes the one that the copy begins with. */
static enum status settle_changes(struct record *record)
{
    const struct reading_key format = reading_key_one(FIELD_FORMAT);

    if (!record_is_changed(record))
        return STATUS_OK;
    for (size_t i = 0; i < record->count;) {
        const struct reading change = record->readings[i];
        const struct reading_key base = reading_key_as_of(change.key, 0);

        if (!reading_key_is_change(&change.key)) {
            i++;
            continue;
        }
        if (change.value.state == READING_GONE)
            (void)record_remove(record, &base);
        else if (record_put(record, &base, change.text, true, NULL) == STATUS_NO_MEMORY)
            return STATUS_NO_MEMORY;
        (void)record_remove(record, &change.key);
        i = record_lower_bound(record, &change.key);
    }
    return record_put(record, &format, "1", false, NULL);
}

/* Of one instrument alone. */
static bool is_its_own(const struct reading_key *key)
{
    switch (key->field) {
    case FIELD_SERIAL:
    case FIELD_BUILT:
    case FIELD_OWNER:
    case FIELD_CONTACT:
    case FIELD_NOTE:
    case FIELD_SETBACK:
        return true;
    default:
        return key->visit > 0;
    }
}

static void drop_its_own(struct record *record)
{
    for (size_t i = record->count; i-- > 0;) {
        const struct reading_key key = record->readings[i].key;

        if (is_its_own(&key))
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
    /* A later format is understood only in part, so a copy would lack the rest. */
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
    status = settle_changes(&record);
    drop_its_own(&record);
    if (status == STATUS_OK)
        status = shelf_file_record(folder, &record, name, ret_file);
    const int kept_errno = errno;
    record_done(&record);
    errno = kept_errno;
    return status;
}
