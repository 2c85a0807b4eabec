/* SPDX-License-Identifier: MIT */
#include "store/profile/copies.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/num.h"
#include "store/disk.h"
#include "store/file_read.h"
#include "store/profile/aside_folder.h"
#include "store/profile/generations.h"
#include "store/profile/profile_beside.h"
#include "store/profile/profile_load.h"
#include "store/profile/profile_synced.h"

static const struct {
    enum copy_kind kind;
    enum status (*list)(enum copy_kind kind, const char *target, struct copies *list);
    enum status (*none)(enum copy_kind kind, const char *target);
    /* NULL: does not move with the profile. */
    enum status (*move)(enum copy_kind kind, const char *target, const char *to);
} rows[] = {
    {COPY_CONFLICT, beside_list, beside_none, beside_move},
    {COPY_ASIDE, beside_list, beside_none, beside_move},
    {COPY_SYNCED, synced_list, synced_none, NULL},
    {COPY_FOUND, beside_list, beside_none, NULL},
    {COPY_EARLIER, generations_list, generations_none, generations_move},
    {COPY_HELD, aside_list, aside_none, NULL},
};

enum { ROWS = sizeof rows / sizeof rows[0] };

/* --- listing --- */

/* Moves the items of `part` to the list. */
static enum status append(struct copies *list, struct copies *part)
{
    enum status status = STATUS_OK;

    for (size_t i = 0; i < part->count; i++) {
        if (status == STATUS_OK)
            status = copies_add(list, &part->items[i]);
        else
            free(part->items[i].path);
    }
    free(part->items);
    return status;
}

enum status copies_list(const char *target, unsigned kinds, struct copies *ret_list)
{
    enum status status = STATUS_OK;

    *ret_list = (struct copies){.items = NULL};
    for (int i = 0; i < ROWS && status == STATUS_OK; i++) {
        struct copies part = {.items = NULL};

        if (!(kinds & rows[i].kind))
            continue;
        status = rows[i].list(rows[i].kind, target, &part);
        if (status == STATUS_OK)
            status = append(ret_list, &part);
        else
            copies_done(&part);
    }
    return status;
}

size_t copies_profile_length(const char *file)
{
    size_t length = strlen(file);
    const char *dot = strrchr(file, '.');
    int number;

    if (dot && num_count(dot + 1, strlen(dot + 1), BESIDE_NUMBER_MAX, &number) == STATUS_OK &&
        number > 1)
        length = (size_t)(dot - file);
    for (int i = 0; i < ROWS; i++) {
        const char *suffix = rows[i].kind & COPY_NAMED ? copy_suffix(rows[i].kind) : "";
        const size_t own = strlen(suffix);

        if (own > 0 && length > own + 1 && file[length - own - 1] == '.' &&
            strncmp(file + length - own, suffix, own) == 0)
            return length - own - 1;
    }
    return 0;
}

const char *copies_label(const char *file)
{
    const size_t named = copies_profile_length(file);

    file += named > 0 ? named + 1 : synced_stem_length(file);
    return file + strspn(file, " ");
}

enum status copies_none(const char *target)
{
    enum status status = STATUS_OK;

    for (int i = 0; i < ROWS && status == STATUS_OK; i++)
        status = rows[i].none(rows[i].kind, target);
    return status;
}

/* --- moving --- */

enum status copies_move(const char *target, const char *to)
{
    enum status status = STATUS_OK;
    int error = 0;

    for (int i = 0; i < ROWS; i++) {
        const enum status moved = rows[i].move ? rows[i].move(rows[i].kind, target, to) : STATUS_OK;

        if (status == STATUS_OK && moved != STATUS_OK) {
            status = moved;
            error = errno;
        }
    }
    if (status != STATUS_OK)
        errno = error;
    return status;
}

static enum status put_away(const char *target, const char *path, struct bytes *bytes)
{
    struct profile_content content;
    enum status status = profile_load(bytes, NULL, &content);

    if (status != STATUS_OK)
        return status;
    if (content.line_count == 0)
        status = STATUS_SYNTAX;
    else
        status = generations_keep(target, &content.text.bytes, NULL);
    /* Now it is kept twice; the file may go unless it was changed meanwhile. */
    if (status == STATUS_OK && !copy_reads(path, &content.text.bytes))
        status = STATUS_CHANGED;
    if (status == STATUS_OK && unlink(path) != 0 && errno != ENOENT)
        status = disk_status(errno);
    profile_content_done(&content);
    return status;
}

enum status copies_put_away(const char *target, const struct copy *version)
{
    struct bytes bytes;
    enum status status = file_read(version->path, FILE_BYTES_MAX, &bytes);

    if (status != STATUS_OK)
        return status;
    status = put_away(target, version->path, &bytes);
    bytes_done(&bytes);
    return status;
}
