/* SPDX-License-Identifier: MIT */
#include "store/shelf/shelf_necks.h"

#include <stdlib.h>
#include <string.h>

#include "store/paths.h"
#include "store/shelf/shelf_cache.h"

struct counting {
    const struct shelf_entries *entries;
    const char *own;
    struct shelf_stamp own_stamp;
    const char *folder; /* the files are looked up there first; NULL: the entries are fresh */
};

/* -1 for none. */
static int kind_of(const struct card *card)
{
    struct field_value kind;

    if (card->kind[0] == '\0' ||
        field_read(field_get(FIELD_KIND), card->kind, UNIT_NONE, &kind, NULL) != STATUS_OK)
        return -1;
    return kind.value < ROD_KINDS_MAX ? (int)kind.value : -1;
}

static bool is_same_file(const struct shelf_stamp *a, const struct shelf_stamp *b)
{
    return a->inode != 0 && a->inode == b->inode && a->device == b->device;
}

static bool is_fresh(const struct counting *counting, const struct shelf_entry *entry)
{
    struct stat facts;

    if (!counting->folder)
        return true;
    char *path = paths_join(counting->folder, entry->file);
    const bool found = path && stat(path, &facts) == 0;
    free(path);
    if (!found)
        return false;
    const struct shelf_stamp stamp = shelf_stamp_of(&facts);
    return shelf_stamp_equal(&stamp, &entry->stamp);
}

static bool counts(const struct counting *counting, const struct shelf_entry *entry)
{
    return entry->read && entry->status == STATUS_OK && rod_neck_is_known(&entry->card.rod) &&
           strcmp(entry->file, counting->own) != 0 &&
           !is_same_file(&entry->stamp, &counting->own_stamp) && is_fresh(counting, entry);
}

static void count_all(const struct counting *counting, struct rod_priors *ret_priors)
{
    struct rod_necks *necks = calloc(ROD_KINDS_MAX, sizeof *necks);

    *ret_priors = (struct rod_priors){0};
    for (size_t i = 0; necks && i < counting->entries->count; i++) {
        const struct shelf_entry *entry = &counting->entries->items[i];
        const int kind = counts(counting, entry) ? kind_of(&entry->card) : -1;

        if (kind >= 0)
            rod_necks_add(&necks[kind], &entry->card.rod);
    }
    for (int kind = 0; necks && kind < ROD_KINDS_MAX; kind++)
        ret_priors->of[kind] = rod_prior_of(&necks[kind]);
    free(necks);
}

void shelf_necks_read(const struct shelf_entries *entries, const char *own,
                      struct rod_priors *ret_priors)
{
    const struct shelf_entry *entry = shelf_entries_find(entries, own);
    struct counting counting = {.entries = entries, .own = own};

    if (entry)
        counting.own_stamp = entry->stamp;
    count_all(&counting, ret_priors);
}

static void count_cached(const char *path, const char *folder, struct rod_priors *ret_priors)
{
    struct shelf_entries entries = {.items = NULL};
    struct counting counting = {.entries = &entries, .own = paths_name_of(path), .folder = folder};
    struct stat facts;
    char *cache = NULL;

    if (shelf_cache_path(folder, &cache) == STATUS_OK)
        (void)shelf_cache_read(cache, folder, &entries);
    free(cache);
    if (stat(path, &facts) == 0)
        counting.own_stamp = shelf_stamp_of(&facts);
    count_all(&counting, ret_priors);
    shelf_entries_done(&entries);
}

void shelf_necks_read_cached(const char *path, struct rod_priors *ret_priors)
{
    char *above = paths_folder_of(path);
    char *folder = above ? realpath(above, NULL) : NULL;

    *ret_priors = (struct rod_priors){0};
    if (folder)
        count_cached(path, folder, ret_priors);
    free(folder);
    free(above);
}
