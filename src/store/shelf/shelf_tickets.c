/* SPDX-License-Identifier: MIT */
#include "store/shelf/shelf_tickets.h"

#include <stdlib.h>

#include "model/reading/ticket.h"
#include "store/paths.h"
#include "store/shelf/shelf_cache.h"

int shelf_tickets_last(const struct shelf_entries *entries)
{
    int last = 0;

    for (size_t i = 0; i < entries->count; i++) {
        const int number = ticket_number(shelf_facts_text(entries->items[i].facts, FACT_TICKET));

        last = number > last ? number : last;
    }
    return last;
}

int shelf_tickets_last_cached(const char *path)
{
    struct shelf_entries entries = {.items = NULL};
    char *above = paths_folder_of(path), *cache = NULL;
    char *folder = above ? realpath(above, NULL) : NULL;

    if (folder && shelf_cache_path(folder, &cache) == STATUS_OK)
        (void)shelf_cache_read(cache, folder, &entries);
    const int last = shelf_tickets_last(&entries);
    shelf_entries_done(&entries);
    free(cache);
    free(folder);
    free(above);
    return last;
}
