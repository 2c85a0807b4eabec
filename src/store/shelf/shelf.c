/* SPDX-License-Identifier: MIT */
#include "store/shelf/shelf.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "model/survey/shelf_glance.h"
#include "store/file_read.h"
#include "store/paths.h"
#include "store/profile/profile_load.h"
#include "store/shelf/shelf_cache.h"
#include "store/shelf/shelf_folder.h"

struct shelf {
    char *folder;     /* as given */
    char *cache_path; /* NULL: no cache */
    char *cached_folder;
    struct shelf_entries entries;
    struct shelf_stamp stamp; /* of the folder at the last listing */
    bool settled;             /* a later change will change the stamp */
    enum status status;
    int error;
    size_t *unread; /* indices of entries, read from the end */
    size_t unread_count;
    size_t unseen_count; /* the first so many of them may not have been looked at */
    bool new_cards;      /* the cache is out of date */
};

/* --- reading one file --- */

static void take_content(struct shelf_entry *entry, const struct profile_content *content)
{
    const struct record *record = &content->record;
    struct past past = past_of(record);
    struct derived now;
    struct shelf_facts facts;
    struct card card;

    derive_measured(place_current(record), &past, &now);
    card_make_of(record, &now, &past, &card);
    shelf_facts_make(record, &now, &past, &facts);
    entry->newer = content->newer;
    entry->status = shelf_entry_set(entry, &card, &facts);
}

static void take_glance(struct shelf_entry *entry, const struct profile_content *content)
{
    struct shelf_facts facts;
    struct card card;

    shelf_glance_make(&content->record, &card, &facts);
    entry->newer = content->newer;
    entry->status = shelf_entry_set(entry, &card, &facts);
}

/* What was seen of it before is no longer true. */
static void drop_card(struct shelf_entry *entry)
{
    const struct card blank = shelf_blank_card();

    if (entry->facts != shelf_facts_blank())
        (void)shelf_entry_set(entry, &blank, shelf_facts_blank());
}

static enum status load(const struct shelf *shelf, const char *file, bool whole,
                        struct profile_content *ret_content)
{
    struct bytes bytes;
    char *path = paths_join(shelf->folder, file);
    enum status status = path ? file_read(path, FILE_BYTES_MAX, &bytes) : STATUS_NO_MEMORY;

    free(path);
    if (status != STATUS_OK)
        return status;
    if (whole) {
        status = profile_load(&bytes, NULL, ret_content);
    } else {
        bool wanted[FIELD_COUNT_];

        shelf_glance_fields(bytes.data, bytes.length, wanted);
        status = profile_glance(&bytes, wanted, ret_content);
    }
    bytes_done(&bytes);
    return status;
}

static void read_entry(const struct shelf *shelf, struct shelf_entry *entry, bool whole)
{
    struct profile_content content;

    entry->glanced = true;
    entry->read = whole;
    entry->status = load(shelf, entry->file, whole, &content);
    if (entry->status != STATUS_OK) {
        drop_card(entry);
        return;
    }
    if (whole)
        take_content(entry, &content);
    else
        take_glance(entry, &content);
    profile_content_done(&content);
}

static size_t read_last(struct shelf *shelf)
{
    const size_t at = shelf->unread[--shelf->unread_count];

    if (shelf->unseen_count > shelf->unread_count)
        shelf->unseen_count = shelf->unread_count;
    read_entry(shelf, &shelf->entries.items[at], true);
    if (shelf_cache_wants(&shelf->entries.items[at]))
        shelf->new_cards = true;
    return at;
}

bool shelf_read_next(struct shelf *shelf)
{
    if (shelf->unread_count == 0)
        return false;
    (void)read_last(shelf);
    return true;
}

bool shelf_look_next(struct shelf *shelf, size_t *ret_at)
{
    while (shelf->unseen_count > 0) {
        const size_t at = shelf->unread[--shelf->unseen_count];

        if (shelf->entries.items[at].glanced)
            continue;
        read_entry(shelf, &shelf->entries.items[at], false);
        *ret_at = at;
        return true;
    }
    if (shelf->unread_count == 0)
        return false;
    *ret_at = read_last(shelf);
    return true;
}

/* --- listing --- */

struct unread {
    size_t index;
    int64_t written_s;
};

static int compare_times(const void *a, const void *b)
{
    const struct unread *x = a, *y = b;

    return (x->written_s > y->written_s) - (x->written_s < y->written_s);
}

/* Queues the unread entries, the newest last. If memory is short, nothing is read. */
static void queue_unread(struct shelf *shelf)
{
    const struct shelf_entries *entries = &shelf->entries;
    struct unread *queue = calloc(entries->count + 1, sizeof *queue);
    size_t count = 0;

    free(shelf->unread);
    shelf->unread_count = shelf->unseen_count = 0;
    shelf->unread = calloc(entries->count + 1, sizeof *shelf->unread);
    for (size_t i = 0; queue && shelf->unread && i < entries->count; i++)
        if (!entries->items[i].read)
            queue[count++] =
                (struct unread){.index = i, .written_s = entries->items[i].stamp.written_s};
    if (count > 1)
        qsort(queue, count, sizeof queue[0], compare_times);
    for (size_t i = 0; i < count; i++)
        shelf->unread[i] = queue[i].index;
    shelf->unread_count = shelf->unseen_count = count;
    free(queue);
}

/* Takes the card over if the file is still the same. */
static bool inherit(struct shelf_entry *entry, struct shelf_entry *known)
{
    if (entry->read || !known->glanced || !known->settled ||
        !shelf_stamp_equal(&entry->stamp, &known->stamp))
        return false;
    free(entry->memory);
    entry->read = known->read;
    entry->glanced = true;
    entry->status = known->status;
    entry->newer = known->newer;
    entry->card = known->card;
    entry->facts = known->facts;
    entry->memory = known->memory;
    known->memory = NULL;
    return true;
}

/* Both are sorted by file. True if the cache holds an entry that is of no use any more. */
static bool inherit_all(struct shelf_entries *entries, struct shelf_entries *known)
{
    bool lost = false;

    for (size_t i = 0, at = 0; at < known->count; at++) {
        struct shelf_entry *old = &known->items[at];

        while (i < entries->count && strcmp(entries->items[i].file, old->file) < 0)
            i++;
        const bool same = i < entries->count && strcmp(entries->items[i].file, old->file) == 0;
        if (!(same && inherit(&entries->items[i], old)) && shelf_cache_wants(old))
            lost = true;
    }
    return lost;
}

static void replace_entries(struct shelf *shelf, struct shelf_entries *entries)
{
    if (inherit_all(entries, &shelf->entries))
        shelf->new_cards = true;
    /* What the cache held is inherited as a whole. */
    entries->texts = shelf->entries.texts;
    entries->facts = shelf->entries.facts;
    shelf->entries.texts = shelf->entries.facts = NULL;
    shelf_entries_done(&shelf->entries);
    shelf->entries = *entries;
    queue_unread(shelf);
}

enum status shelf_scan(struct shelf *shelf)
{
    struct shelf_entries entries = {.items = NULL};

    const int64_t now = (int64_t)time(NULL);
    errno = 0;
    shelf->status = shelf_folder_list(shelf->folder, &entries, &shelf->stamp);
    shelf->error = errno;
    shelf->settled = shelf->status == STATUS_OK && shelf_stamp_settled(&shelf->stamp, now);
    replace_entries(shelf, &entries);
    return shelf->status;
}

bool shelf_is_stale(const struct shelf *shelf)
{
    struct stat facts;

    if (stat(shelf->folder, &facts) != 0)
        return shelf->status == STATUS_OK;
    const struct shelf_stamp stamp = shelf_stamp_of(&facts);
    return shelf->status != STATUS_OK || !shelf->settled ||
           !shelf_stamp_equal(&stamp, &shelf->stamp);
}

/* --- opening and closing --- */

/* False without a home, a folder or memory: there is no cache then. */
static bool find_cache(struct shelf *shelf)
{
    if (shelf->cache_path)
        return true;
    free(shelf->cached_folder);
    shelf->cached_folder = realpath(shelf->folder, NULL);
    return shelf->cached_folder &&
           shelf_cache_path(shelf->cached_folder, &shelf->cache_path) == STATUS_OK;
}

enum status shelf_open(const char *folder, struct shelf **ret_shelf)
{
    struct shelf *shelf = calloc(1, sizeof *shelf);

    if (!shelf)
        return STATUS_NO_MEMORY;
    shelf->folder = strdup(folder);
    if (!shelf->folder) {
        shelf_close(shelf);
        return STATUS_NO_MEMORY;
    }
    if (find_cache(shelf))
        (void)shelf_cache_read(shelf->cache_path, shelf->cached_folder, &shelf->entries);
    shelf_scan(shelf);
    *ret_shelf = shelf;
    return STATUS_OK;
}

void shelf_close(struct shelf *shelf)
{
    if (!shelf)
        return;
    shelf_entries_done(&shelf->entries);
    free(shelf->unread);
    free(shelf->cached_folder);
    free(shelf->cache_path);
    free(shelf->folder);
    free(shelf);
}

void shelf_keep_cache(struct shelf *shelf)
{
    if (!shelf->new_cards || shelf->status != STATUS_OK || !find_cache(shelf))
        return;
    /* Not tried again after a failure, which would repeat at every key. */
    shelf->new_cards = false;
    (void)shelf_cache_write(shelf->cache_path, shelf->cached_folder, &shelf->entries);
}

enum status shelf_status(const struct shelf *shelf)
{
    return shelf->status;
}

int shelf_error(const struct shelf *shelf)
{
    return shelf->error;
}

const char *shelf_folder(const struct shelf *shelf)
{
    return shelf->folder;
}

const struct shelf_entries *shelf_entries(const struct shelf *shelf)
{
    return &shelf->entries;
}

size_t shelf_unread(const struct shelf *shelf)
{
    return shelf->unread_count;
}

size_t shelf_unseen(const struct shelf *shelf)
{
    return shelf->unseen_count;
}
