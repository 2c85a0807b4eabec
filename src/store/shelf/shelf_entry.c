/* SPDX-License-Identifier: MIT */
#include "store/shelf/shelf_entry.h"

#include <stdlib.h>
#include <string.h>

#include "base/array.h"

struct shelf_stamp shelf_stamp_of(const struct stat *facts)
{
    return (struct shelf_stamp){
        .device = (uint64_t)facts->st_dev,
        .inode = (uint64_t)facts->st_ino,
        .size = (uint64_t)facts->st_size,
        .written_s = facts->st_mtim.tv_sec,
        .written_ns = facts->st_mtim.tv_nsec,
        .touched_s = facts->st_ctim.tv_sec,
        .touched_ns = facts->st_ctim.tv_nsec,
    };
}

bool shelf_stamp_equal(const struct shelf_stamp *a, const struct shelf_stamp *b)
{
    return a->device == b->device && a->inode == b->inode && a->size == b->size &&
           a->written_s == b->written_s && a->written_ns == b->written_ns &&
           a->touched_s == b->touched_s && a->touched_ns == b->touched_ns;
}

struct card shelf_blank_card(void)
{
    return (struct card){
        .name = "", .kind = "", .owner = "", .maker = "", .serial = "", .visit = ""};
}

enum { TEXTS = 6 };

enum status shelf_entry_set(struct shelf_entry *entry, const struct card *card,
                            const struct shelf_facts *facts)
{
    const bool blank = facts == shelf_facts_blank();
    const char *texts[TEXTS] = {card->name,  card->kind,   card->owner,
                                card->maker, card->serial, card->visit};
    const size_t facts_size = blank ? 0 : shelf_facts_size(facts);
    size_t size = facts_size;

    for (int i = 0; i < TEXTS; i++)
        size += strlen(texts[i]) + 1;
    char *memory = malloc(size), *at = memory;
    if (!memory)
        return STATUS_NO_MEMORY;
    if (!blank)
        at = (char *)memcpy(memory, facts, facts_size) + facts_size;
    for (int i = 0; i < TEXTS; i++) {
        const size_t length = strlen(texts[i]) + 1;

        memcpy(at, texts[i], length);
        texts[i] = at;
        at += length;
    }
    struct card own = *card;
    own.name = texts[0];
    own.kind = texts[1];
    own.owner = texts[2];
    own.maker = texts[3];
    own.serial = texts[4];
    own.visit = texts[5];
    free(entry->memory);
    entry->memory = memory;
    entry->facts = blank ? facts : (const struct shelf_facts *)(const void *)memory;
    entry->card = own;
    return STATUS_OK;
}

struct shelf_entry *shelf_entries_add(struct shelf_entries *entries)
{
    struct shelf_entry *items =
        array_grow(entries->items, entries->count, &entries->capacity, sizeof *items);

    if (!items)
        return NULL;
    entries->items = items;
    struct shelf_entry *entry = &entries->items[entries->count++];
    *entry =
        (struct shelf_entry){.file = "", .card = shelf_blank_card(), .facts = shelf_facts_blank()};
    return entry;
}

void shelf_entries_done(struct shelf_entries *entries)
{
    for (size_t i = 0; i < entries->count; i++)
        free(entries->items[i].memory);
    free(entries->items);
    free(entries->names);
    free(entries->texts);
    free(entries->facts);
    *entries = (struct shelf_entries){.items = NULL};
}

static int compare_files(const void *a, const void *b)
{
    const struct shelf_entry *x = a, *y = b;

    return strcmp(x->file, y->file);
}

struct shelf_entry *shelf_entries_find(const struct shelf_entries *entries, const char *file)
{
    const struct shelf_entry wanted = {.file = file};

    if (entries->count == 0)
        return NULL;
    return bsearch(&wanted, entries->items, entries->count, sizeof entries->items[0],
                   compare_files);
}
