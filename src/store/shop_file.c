/* SPDX-License-Identifier: MIT */
#include "store/shop_file.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <time.h>
#include <unistd.h>

#include "base/strbuf.h"
#include "store/file_read.h"
#include "store/ini_write.h"
#include "store/paths.h"
#include "store/safefile.h"

void shop_file_done(struct shop_file *file)
{
    const int kept_errno = errno;

    ini_text_done(&file->text);
    errno = kept_errno;
}

enum status shop_file_load(const char *path, struct problems *problems, struct shop_file *ret_file)
{
    struct shop_file file = {0};
    struct ini_fault fault = {0};
    struct bytes bytes;
    enum status status = file_read(path, FILE_BYTES_MAX, &bytes);

    if (status == STATUS_NOT_FOUND) {
        bytes_init(&bytes);
        status = STATUS_OK;
    }
    if (status != STATUS_OK)
        return status;
    status = ini_text_parse(&bytes, &file.text, &fault);
    if (fault.words)
        problem_add(problems, fault.line, PROBLEM_ERROR, "%s", fault.words);
    if (status == STATUS_OK)
        status = ini_read(&file.text);
    bytes_done(&bytes);
    if (status != STATUS_OK)
        shop_file_done(&file);
    else
        *ret_file = file;
    return status;
}

const struct ini_line *shop_file_find(const struct shop_file *file, const char *section,
                                      const char *key)
{
    for (size_t i = file->text.line_count; i-- > 0;) {
        const struct ini_line *line = &file->text.lines[i];
        const char *of = ini_line_section(&file->text, line);

        if (of && strcmp(of, section) == 0 && strcmp(line->name, key) == 0)
            return line;
    }
    return NULL;
}

/* --- edits --- */

struct shop_edits {
    const struct shop_file *file;
    struct ini_edit *items;
    size_t count, capacity;
    bool begun; /* a new section has been begun */
};

/* More than there are settings of one section, and its line. */
enum { KEYS_MAX = 64 };

const struct shop_file *shop_edits_file(const struct shop_edits *edits)
{
    return edits->file;
}

static void add_edit(struct shop_edits *edits, enum ini_edit_kind kind, size_t at, const char *name,
                     const char *value)
{
    if (edits->count == edits->capacity)
        return;
    struct ini_edit *edit = &edits->items[edits->count];
    struct strbuf text = STRBUF(edit->name);

    edit->kind = kind;
    edit->at = at;
    edit->order = edits->count++;
    edit->value = value;
    strbuf_add(&text, name);
}

static void add_key(struct shop_edits *edits, const char *section, const char *key,
                    const char *value)
{
    const struct ini_text *text = &edits->file->text;
    const size_t at = ini_text_section(text, section);

    if (at > 0) {
        add_edit(edits, INI_ADD, text->sections[at].line + 1, key, value);
        return;
    }
    if (!edits->begun)
        add_edit(edits, INI_ADD_SECTION, text->line_count, section, NULL);
    edits->begun = true;
    add_edit(edits, INI_ADD_BELOW, text->line_count, key, value);
}

void shop_edits_set(struct shop_edits *edits, const char *section, const char *key,
                    const char *value)
{
    const struct ini_line *line = shop_file_find(edits->file, section, key);

    if (!line)
        add_key(edits, section, key, value);
    else if (strcmp(line->value, value) != 0)
        add_edit(edits, INI_REPLACE, (size_t)(line - edits->file->text.lines), key, value);
}

void shop_edits_drop(struct shop_edits *edits, size_t line)
{
    add_edit(edits, INI_DROP, line, "", NULL);
}

/* --- writing --- */

/* The system drops the lock when the folder is closed. False if it is held elsewhere; *ret_fd is -1
 * where there is none to be had. */
static bool lock_folder(const char *path, int *ret_fd)
{
    enum { TRIES = 100 };
    const struct timespec pause = {.tv_nsec = 10 * 1000 * 1000};
    char *folder = paths_folder_of(path);

    *ret_fd = folder ? open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC) : -1;
    free(folder);
    for (int i = 0; *ret_fd >= 0 && i < TRIES; i++) {
        if (flock(*ret_fd, LOCK_EX | LOCK_NB) == 0 || errno != EWOULDBLOCK)
            return true;
        nanosleep(&pause, NULL);
    }
    return *ret_fd < 0;
}

static void unlock_folder(int fd)
{
    const int kept_errno = errno;

    if (fd >= 0)
        close(fd);
    errno = kept_errno;
}

static enum status write_edits(const char *path, struct shop_edits *edits)
{
    struct bytes bytes;

    if (edits->count == 0)
        return STATUS_OK;
    bytes_init(&bytes);
    enum status status = ini_write(&edits->file->text, edits->items, edits->count, &bytes);
    if (status == STATUS_OK)
        status = safefile_put(path, SAFEFILE_REPLACE, NULL, bytes.data, bytes.length, NULL);
    bytes_done(&bytes);
    return status;
}

static enum status change_locked(const char *path,
                                 enum status (*change)(struct shop_edits *, const void *),
                                 const void *wanted)
{
    struct shop_file file;
    enum status status = shop_file_load(path, NULL, &file);

    if (status != STATUS_OK)
        return status;
    struct shop_edits edits = {.file = &file, .capacity = file.text.line_count + KEYS_MAX};
    edits.items = calloc(edits.capacity, sizeof *edits.items);
    status = edits.items ? change(&edits, wanted) : STATUS_NO_MEMORY;
    if (status == STATUS_OK)
        status = write_edits(path, &edits);
    free(edits.items);
    shop_file_done(&file);
    return status;
}

enum status shop_file_change(const char *path,
                             enum status (*change)(struct shop_edits *edits, const void *wanted),
                             const void *wanted)
{
    int fd;
    enum status status = paths_make_folder_above(path);

    if (status != STATUS_OK)
        return status;
    status = lock_folder(path, &fd) ? change_locked(path, change, wanted) : STATUS_LOCKED;
    unlock_folder(fd);
    return status;
}
