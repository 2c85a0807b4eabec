/* SPDX-License-Identifier: MIT */
#include "store/profile/aside_folder.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

#include "base/strbuf.h"
#include "store/crc32.h"
#include "store/disk.h"
#include "store/paths.h"
#include "store/profile/profile_name.h"

struct aside_name aside_name_for(const char *target, const struct bytes *bytes)
{
    struct aside_name name;
    struct strbuf text = STRBUF(name.text);

    profile_name_make(paths_name_of(target), &text);
    strbuf_addf(&text, "-%08" PRIX32 "-", crc32_of(target, strlen(target)));
    name.of_file = text.length;
    strbuf_addf(&text, "%08" PRIX32, crc32_of(bytes->data, bytes->length));
    return name;
}

bool aside_is_named(const char *path, const struct aside_name *name)
{
    const size_t length = strlen(name->text);

    path = paths_name_of(path);
    return strncmp(path, name->text, length) == 0 && path[length] == '.';
}

enum status aside_folder_find(char **ret_folder)
{
    char *state = NULL;
    const enum status status = paths_state_folder(&state);

    if (status != STATUS_OK)
        return status;
    *ret_folder = paths_join(state, "aside");
    free(state);
    return *ret_folder ? STATUS_OK : STATUS_NO_MEMORY;
}

/* Whether it belongs to any state of the file: a checksum, .ini, perhaps a number. */
static bool is_of_file(const char *entry, const struct aside_name *name)
{
    const char *sum = entry + name->of_file;

    return strncmp(entry, name->text, name->of_file) == 0 &&
           strspn(sum, "0123456789ABCDEF") == strlen(name->text) - name->of_file &&
           strncmp(entry + strlen(name->text), ".ini", 4) == 0;
}

struct listing {
    const char *folder;
    const struct aside_name *name;
    struct copies *list;
};

static enum status take_name(void *context, const char *entry)
{
    const struct listing *listing = context;
    struct copy copy = {.kind = COPY_HELD};

    if (!is_of_file(entry, listing->name))
        return STATUS_OK;
    copy.path = paths_join(listing->folder, entry);
    return copy.path ? copies_add(listing->list, &copy) : STATUS_NO_MEMORY;
}

static int compare_paths(const void *a, const void *b)
{
    return strcmp(((const struct copy *)a)->path, ((const struct copy *)b)->path);
}

enum status aside_folder_list(const char *folder, const struct aside_name *name,
                              struct copies *list)
{
    struct listing listing = {.folder = folder, .name = name, .list = list};
    const enum status status = disk_each_name(folder, take_name, &listing);

    if (list->count > 1)
        qsort(list->items, list->count, sizeof list->items[0], compare_paths);
    return status;
}

enum status aside_list(enum copy_kind kind, const char *target, struct copies *list)
{
    const struct bytes nothing = {.data = NULL};
    const struct aside_name name = aside_name_for(target, &nothing);
    char *folder = NULL;
    enum status status = aside_folder_find(&folder);

    (void)kind;
    if (status == STATUS_OK)
        status = aside_folder_list(folder, &name, list);
    free(folder);
    return status;
}

enum status aside_none(enum copy_kind kind, const char *target)
{
    struct copies list = {.items = NULL};

    /* If the folder cannot be found, nothing can have been kept there. */
    (void)aside_list(kind, target, &list);
    const enum status status = list.count > 0 ? STATUS_CHANGED : STATUS_OK;
    copies_done(&list);
    return status;
}
