/* SPDX-License-Identifier: MIT */
#include "store/shelf/shelf_others.h"

#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "store/paths.h"
#include "store/shelf/shelf_cache.h"
#include "store/shelf/shelf_tickets.h"

struct asking {
    const struct shelf_entries *entries;
    const char *own, *kind;
    struct shelf_stamp own_stamp;
};

static bool is_same_file(const struct shelf_stamp *a, const struct shelf_stamp *b)
{
    return a->inode != 0 && a->inode == b->inode && a->device == b->device;
}

static bool is_other(const struct asking *asking, const struct shelf_entry *entry)
{
    return entry->read && entry->status == STATUS_OK && strcmp(entry->file, asking->own) != 0 &&
           !is_same_file(&entry->stamp, &asking->own_stamp);
}

static bool is_of_kind(const struct asking *asking, const struct shelf_entry *entry)
{
    return asking->kind[0] && strcmp(entry->card.kind, asking->kind) == 0;
}

/* -1 for none. */
static int kind_of(const struct card *card)
{
    struct field_value kind;

    if (card->kind[0] == '\0' ||
        field_read(field_get(FIELD_KIND), card->kind, UNIT_NONE, &kind, NULL) != STATUS_OK)
        return -1;
    return kind.value < ROD_KINDS_MAX ? (int)kind.value : -1;
}

static void find_priors(const struct asking *asking, struct rod_priors *ret_priors)
{
    struct rod_necks *necks = calloc(ROD_KINDS_MAX, sizeof *necks);

    *ret_priors = (struct rod_priors){0};
    for (size_t i = 0; necks && i < asking->entries->count; i++) {
        const struct shelf_entry *entry = &asking->entries->items[i];
        const bool counts = rod_neck_is_known(&entry->card.rod) && is_other(asking, entry);
        const int kind = counts ? kind_of(&entry->card) : -1;

        if (kind >= 0)
            rod_necks_add(&necks[kind], &entry->card.rod);
    }
    for (int kind = 0; necks && kind < ROD_KINDS_MAX; kind++)
        ret_priors->of[kind] = rod_prior_of(&necks[kind]);
    free(necks);
}

static void find_usuals(const struct asking *asking, struct usuals *ret_usuals)
{
    double *values = calloc(asking->entries->count + 1, sizeof *values);
    struct strbuf kind = STRBUF(ret_usuals->kind);

    strbuf_add(&kind, asking->kind);
    for (int row = 0; row < USUAL_ROWS; row++) {
        int count = 0;

        for (size_t i = 0; values && i < asking->entries->count; i++) {
            const struct shelf_entry *entry = &asking->entries->items[i];
            const struct maybe number = entry->facts->number[usual_row_get(row)->wanted];

            if (number.given && is_of_kind(asking, entry) && is_other(asking, entry))
                values[count++] = number.value;
        }
        ret_usuals->wanted[row] = usual_of(values, count);
    }
    free(values);
}

static void find_all(const struct asking *asking, struct shelf_others *ret_others)
{
    find_priors(asking, &ret_others->priors);
    find_usuals(asking, &ret_others->usuals);
    ret_others->last_ticket = shelf_tickets_last(asking->entries);
}

void shelf_others_read(const struct shelf_entries *entries, const char *own, const char *kind,
                       struct shelf_others *ret_others)
{
    const struct shelf_entry *entry = shelf_entries_find(entries, own);
    struct asking asking = {.entries = entries, .own = own, .kind = kind};

    if (entry)
        asking.own_stamp = entry->stamp;
    find_all(&asking, ret_others);
}

/* --- from the cache --- */

static bool is_fresh(int folder, const struct shelf_entry *entry)
{
    struct stat facts;

    if (fstatat(folder, entry->file, &facts, 0) != 0)
        return false;
    const struct shelf_stamp stamp = shelf_stamp_of(&facts);
    return shelf_stamp_equal(&stamp, &entry->stamp);
}

/* Only those that have something to say are looked up in the folder. */
static void drop_stale(const struct asking *asking, const char *folder,
                       struct shelf_entries *entries)
{
    const int opened = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);

    for (size_t i = 0; i < entries->count; i++) {
        struct shelf_entry *entry = &entries->items[i];

        if (rod_neck_is_known(&entry->card.rod) || is_of_kind(asking, entry))
            entry->read = entry->read && opened >= 0 && is_fresh(opened, entry);
    }
    if (opened >= 0)
        close(opened);
}

static void read_cache(struct asking *asking, const char *path, const char *folder,
                       struct shelf_entries *entries)
{
    struct stat facts;
    char *cache = NULL;

    if (shelf_cache_path(folder, &cache) == STATUS_OK)
        (void)shelf_cache_read(cache, folder, entries);
    free(cache);
    if (stat(path, &facts) == 0)
        asking->own_stamp = shelf_stamp_of(&facts);
    drop_stale(asking, folder, entries);
}

void shelf_others_read_cached(const char *path, const char *kind, struct shelf_others *ret_others)
{
    struct shelf_entries entries = {.items = NULL};
    struct asking asking = {.entries = &entries, .own = paths_name_of(path), .kind = kind};
    char *above = paths_folder_of(path);
    char *folder = above ? realpath(above, NULL) : NULL;

    if (folder)
        read_cache(&asking, path, folder, &entries);
    find_all(&asking, ret_others);
    shelf_entries_done(&entries);
    free(folder);
    free(above);
}
