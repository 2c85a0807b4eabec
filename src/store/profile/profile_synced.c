/* SPDX-License-Identifier: MIT */
#include "store/profile/profile_synced.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "base/strbuf.h"
#include "model/reading/same_instrument.h"
#include "store/disk.h"
#include "store/paths.h"
#include "store/profile/profile_look.h"
#include "store/profile/profile_name.h"

static const char ending[] = ".ini";

enum { ENDING_LENGTH = sizeof ending - 1 };

/* --- names --- */

size_t synced_stem_length(const char *file)
{
    size_t at = strlen(file);
    int depth = 0;

    if (!profile_name_is_listed(file))
        return 0;
    at -= ENDING_LENGTH;
    /* From the last bracket back to the one that it closes. */
    do {
        if (at == 0)
            return 0;
        at--;
        depth += (file[at] == ')') - (file[at] == '(');
    } while (depth > 0);
    if (file[at] != '(')
        return 0;
    while (at > 0 && file[at - 1] == ' ')
        at--;
    return at;
}

static bool is_named_after(const char *file, const char *target)
{
    const char *name = paths_name_of(target);
    const size_t length = synced_stem_length(file);

    return length > 0 && strncmp(file, name, length) == 0 && strcmp(name + length, ending) == 0;
}

/* --- instruments --- */

bool synced_is_version(const char *target, const char *path)
{
    struct record record, other;
    bool wanted[FIELD_COUNT_];

    same_instrument_fields(wanted);
    if (profile_look(target, wanted, &record) != STATUS_OK)
        return false;
    const bool known = profile_look(path, wanted, &other) == STATUS_OK;
    const bool same = known && same_instrument(&record, &other);
    if (known)
        record_done(&other);
    record_done(&record);
    return same;
}

/* --- listing --- */

struct search {
    const char *target;
    char *folder;
    struct copies *list; /* NULL: the first name ends the search */
};

static enum status add(const struct search *search, char *path)
{
    struct copy copy = {.kind = COPY_SYNCED, .path = path};
    struct strbuf when = STRBUF(copy.when);
    struct stat facts;

    if (lstat(path, &facts) != 0 || !S_ISREG(facts.st_mode) ||
        !synced_is_version(search->target, path)) {
        free(path);
        return STATUS_OK;
    }
    copy_add_time(facts.st_mtime, &when);
    return copies_add(search->list, &copy);
}

static enum status take(void *context, const char *name)
{
    const struct search *search = context;

    if (!is_named_after(name, search->target))
        return STATUS_OK;
    if (!search->list)
        return STATUS_CHANGED;
    char *path = paths_join(search->folder, name);
    return path ? add(search, path) : STATUS_NO_MEMORY;
}

static enum status look_through(const char *target, struct copies *list)
{
    struct search search = {.target = target, .folder = paths_folder_of(target), .list = list};
    const enum status status =
        search.folder ? disk_each_name(search.folder, take, &search) : STATUS_NO_MEMORY;

    disk_free(search.folder);
    return status;
}

static int compare_paths(const void *a, const void *b)
{
    const struct copy *x = a, *y = b;

    return strcmp(x->path, y->path);
}

enum status synced_list(enum copy_kind kind, const char *target, struct copies *list)
{
    const enum status status = look_through(target, list);

    (void)kind;
    if (list->count > 1)
        qsort(list->items, list->count, sizeof list->items[0], compare_paths);
    for (size_t i = 0; i < list->count; i++)
        list->items[i].number = (int)i + 1;
    return status;
}

enum status synced_none(enum copy_kind kind, const char *target)
{
    (void)kind;
    return look_through(target, NULL);
}
