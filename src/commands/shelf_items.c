/* SPDX-License-Identifier: MIT */
#include "commands/shelf_items.h"

#include <stdlib.h>

#include "store/paths.h"

/* A word or two for why a file cannot be opened. */
static const char *trouble_of(const struct shelf_entry *entry)
{
    if (!entry->glanced || entry->status == STATUS_OK)
        return "";
    switch (entry->status) {
    case STATUS_NOT_FOUND:
        return entry->linked ? "leads nowhere" : "gone";
    case STATUS_NOT_REGULAR:
        return "not a file";
    case STATUS_IO:
    case STATUS_NO_MEMORY:
        return "unreadable";
    default:
        return "damaged";
    }
}

static void fill(const struct shelf_entry *entry, struct shelf_item *item)
{
    *item = (struct shelf_item){.file = entry->file,
                                .card = entry->card,
                                .facts = entry->facts,
                                .trouble = trouble_of(entry),
                                .written_s = entry->stamp.written_s};
    if (!entry->read)
        item->marks |= entry->glanced ? SHELF_GLANCED : SHELF_UNREAD;
    if (item->trouble[0])
        item->marks |= SHELF_BROKEN;
    if (entry->in_use)
        item->marks |= SHELF_IN_USE;
    if (entry->versions)
        item->marks |= SHELF_VERSIONS;
    if (entry->is_version)
        item->marks |= SHELF_VERSION;
    if (entry->newer)
        item->marks |= SHELF_NEWER;
}

bool shelf_items_give(const struct shelf *shelf, struct shelf_list *list)
{
    const struct shelf_entries *entries = shelf_entries(shelf);
    struct shelf_item *items = shelf_list_room(list, entries->count);

    for (size_t i = 0; items && i < entries->count; i++)
        fill(&entries->items[i], &items[i]);
    shelf_list_take(list);
    return items != NULL;
}

void shelf_items_give_one(const struct shelf *shelf, size_t at, struct shelf_list *list)
{
    struct shelf_item item;

    if (at >= list->count)
        return;
    fill(&shelf_entries(shelf)->items[at], &item);
    shelf_list_put(list, at, &item);
}

enum status shelf_items_open(const char *folder, struct shelf **ret_shelf)
{
    char *own = NULL;
    enum status status = folder ? STATUS_OK : paths_data_folder(&own);

    if (status == STATUS_OK)
        status = shelf_open(folder ? folder : own, ret_shelf);
    free(own);
    if (status == STATUS_NOT_FOUND)
        fputs("sillet: there is no home folder: say --shelf FOLDER\n", stderr);
    else if (status != STATUS_OK)
        report_failure(folder ? folder : "shelf", status, 0, stderr);
    return status;
}

enum status shelf_items_open_to_list(const char *folder, struct shelf **ret_shelf)
{
    struct shelf *shelf;
    enum status status = shelf_items_open(folder, &shelf);

    if (status != STATUS_OK)
        return status;
    status = shelf_status(shelf);
    /* The data folder is made with the first instrument. */
    if (status == STATUS_OK || (status == STATUS_NOT_FOUND && !folder)) {
        *ret_shelf = shelf;
        return STATUS_OK;
    }
    report_failure(shelf_folder(shelf), status, shelf_error(shelf), stderr);
    shelf_close(shelf);
    return status;
}
