/* SPDX-License-Identifier: MIT */
#include "commands/shelf_when.h"

#include <errno.h>
#include <stdlib.h>

#include "model/survey/as_left.h"
#include "store/paths.h"

static enum status read_facts(const char *path, int day, struct shelf_facts *ret_facts)
{
    struct profile *profile = NULL;

    *ret_facts = *shelf_facts_blank();
    errno = 0;
    const enum status status =
        path ? profile_open(path, PROFILE_TO_READ, NULL, &profile) : STATUS_NO_MEMORY;
    const struct record *record = status == STATUS_OK ? profile_record(profile) : NULL;
    const int visit = record ? as_left_by(record, day) : 0;
    if (visit > 0)
        as_left_make(record, visit, ret_facts);
    const int error = errno;
    profile_close(profile);
    errno = error;
    return status;
}

enum exit_code shelf_when_take(struct shelf_list *list, int day, struct shelf_facts **ret_facts)
{
    struct shelf_facts *facts = calloc(list->found_count + 1, sizeof *facts);
    enum exit_code code = EXIT_GOOD;

    if (!facts)
        return EXIT_CANNOT;
    for (size_t i = 0; i < list->found_count; i++) {
        struct shelf_item *item = &list->items[list->found[i] - list->items];
        char *path = paths_join(list->folder, item->file);
        const enum status status = read_facts(path, day, &facts[i]);

        if (status != STATUS_OK) {
            report_failure(path ? path : item->file, status, errno, stderr);
            code = EXIT_FINDINGS;
        }
        item->facts = &facts[i];
        free(path);
    }
    *ret_facts = facts;
    return code;
}
