/* SPDX-License-Identifier: MIT */
#include "store/shelf/shelf_cache.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "store/crc32.h"
#include "store/file_read.h"
#include "store/paths.h"
#include "store/safefile.h"
#include "store/shelf/shelf_cache_line.h"

/*
 * The first line names the format and the program's version. Raise FORMAT if the same file gets a
 * different card. The second line is the folder; then come the entries (shelf_cache_line.h); then
 * the checksum.
 */
enum {
    FORMAT = 11,
    CACHE_BYTES_MAX = 256 * 1024 * 1024,
    HEX_DIGITS = 8,
};

static const char head_format[] = "sillet shelf %d " SILLET_VERSION "\n";
static const char tail[] = "crc32 ";

enum { TAIL_LENGTH = sizeof tail - 1 + HEX_DIGITS + 1 };

enum status shelf_cache_path(const char *folder, char **ret_path)
{
    char name[40], *caches;
    const enum status status = paths_cache_folder(&caches);

    if (status != STATUS_OK)
        return status;
    snprintf(name, sizeof name, "shelf-%08lx", (unsigned long)crc32_of(folder, strlen(folder)));
    char *path = paths_join(caches, name);
    free(caches);
    if (!path)
        return STATUS_NO_MEMORY;
    *ret_path = path;
    return STATUS_OK;
}

/* These depend on the file alone; other failures depend on rights or memory. */
bool shelf_cache_wants(const struct shelf_entry *entry)
{
    if (!entry->read || !entry->settled)
        return false;
    switch (entry->status) {
    case STATUS_OK:
    case STATUS_SYNTAX:
    case STATUS_BINARY:
    case STATUS_TOO_LARGE:
    case STATUS_TOO_LONG:
        return true;
    default:
        return false;
    }
}

/* --- writing --- */

static void add_head(struct bytes *out, const char *folder)
{
    char memory[64];

    snprintf(memory, sizeof memory, head_format, FORMAT);
    bytes_add_text(out, memory);
    shelf_cache_add_text(out, folder);
    bytes_add_text(out, "\n");
}

static void add_tail(struct bytes *out)
{
    char memory[TAIL_LENGTH + 1];

    snprintf(memory, sizeof memory, "%s%08lx\n", tail,
             (unsigned long)crc32_of(out->data, out->length));
    bytes_add_text(out, memory);
}

static enum status write_bytes(const char *path, const struct bytes *bytes)
{
    const enum status status = paths_make_folder_above(path);

    if (status != STATUS_OK)
        return status;
    safefile_sweep_beside(path);
    return safefile_put(path, SAFEFILE_OWN, NULL, bytes->data, bytes->length, NULL);
}

enum status shelf_cache_write(const char *path, const char *folder,
                              const struct shelf_entries *entries)
{
    struct bytes bytes;

    bytes_init(&bytes);
    add_head(&bytes, folder);
    for (size_t i = 0; i < entries->count; i++)
        if (shelf_cache_wants(&entries->items[i]))
            shelf_cache_add_entry(&bytes, &entries->items[i]);
    enum status status = bytes_status(&bytes);
    if (status == STATUS_OK) {
        add_tail(&bytes);
        status = bytes_status(&bytes);
    }
    if (status == STATUS_OK)
        status = write_bytes(path, &bytes);
    bytes_done(&bytes);
    return status;
}

/* --- reading --- */

static bool has_good_tail(const struct bytes *bytes)
{
    char memory[TAIL_LENGTH + 1];

    if (bytes->length < TAIL_LENGTH || memchr(bytes->data, '\0', bytes->length))
        return false;
    const size_t length = bytes->length - TAIL_LENGTH;
    snprintf(memory, sizeof memory, "%s%08lx\n", tail,
             (unsigned long)crc32_of(bytes->data, length));
    return memcmp(bytes->data + length, memory, TAIL_LENGTH) == 0;
}

/* The first two lines must be what this version would write for this folder. */
static bool has_good_head(const struct bytes *bytes, const char *folder, size_t *ret_length)
{
    struct bytes head;

    bytes_init(&head);
    add_head(&head, folder);
    const bool good = bytes_status(&head) == STATUS_OK &&
                      bytes->length >= head.length + TAIL_LENGTH &&
                      memcmp(bytes->data, head.data, head.length) == 0;
    *ret_length = head.length;
    bytes_done(&head);
    return good;
}

static size_t count_lines(const char *text)
{
    size_t count = 0;

    while ((text = strchr(text, '\n')) != NULL) {
        text++;
        count++;
    }
    return count;
}

/* Room for the entries, and for their facts: all numbers, and their texts, which are in the cache.
 */
static bool make_room(const char *text, size_t length, struct shelf_entries *entries)
{
    const size_t count = count_lines(text);

    entries->items = calloc(count + 1, sizeof *entries->items);
    entries->capacity = count + 1;
    entries->facts = malloc(
        count * (sizeof(struct shelf_facts) - FACT_TEXT_BYTES + FACT_TEXTS_ + sizeof(double)) +
        length + sizeof(struct shelf_facts));
    return entries->items && entries->facts;
}

/* Refuses entries out of order or twice, because they are found by binary search. */
static bool read_entries(char *at, struct shelf_entries *entries)
{
    char *free = entries->facts;

    while (*at) {
        char *end = strchr(at, '\n');
        struct shelf_entry *entry = end ? shelf_entries_add(entries) : NULL;
        struct shelf_cache_line line = {.at = at,
                                        .escaped = end && memchr(at, '%', (size_t)(end - at))};

        if (!entry || !shelf_cache_take_entry(&line, &free, entry) || line.at != end + 1 ||
            !shelf_cache_wants(entry))
            return false;
        if (entries->count > 1 && strcmp(entry[-1].file, entry->file) >= 0)
            return false;
        at = line.at;
    }
    return true;
}

/* Takes the bytes over on success. */
static enum status parse(struct bytes *bytes, const char *folder, struct shelf_entries *ret_entries)
{
    struct shelf_entries entries = {.items = NULL};
    size_t head;

    if (!has_good_tail(bytes) || !has_good_head(bytes, folder, &head))
        return STATUS_DAMAGED;
    bytes->data[bytes->length - TAIL_LENGTH] = '\0';
    const bool room = make_room(bytes->data + head, bytes->length, &entries);
    if (!room || !read_entries(bytes->data + head, &entries)) {
        shelf_entries_done(&entries);
        return room ? STATUS_DAMAGED : STATUS_NO_MEMORY;
    }
    entries.texts = bytes->data;
    bytes_init(bytes);
    *ret_entries = entries;
    return STATUS_OK;
}

enum status shelf_cache_read(const char *path, const char *folder,
                             struct shelf_entries *ret_entries)
{
    struct bytes bytes;
    enum status status = file_read_own(path, CACHE_BYTES_MAX, &bytes);

    if (status != STATUS_OK)
        return status;
    status = parse(&bytes, folder, ret_entries);
    bytes_done(&bytes);
    return status;
}
