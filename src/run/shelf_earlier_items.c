/* SPDX-License-Identifier: MIT */
#include "run/shelf_earlier_items.h"

#include <stdlib.h>
#include <string.h>

#include "store/paths.h"
#include "store/profile/profile.h"
#include "store/safefile.h"

/* How many entries differ between two records, and the first of them. */
struct difference {
    size_t count;
    struct reading_key first;
};

static void add_difference(struct difference *difference, const struct reading_key *key)
{
    if (difference->count++ == 0)
        difference->first = *key;
}

/* Walks both records, whose entries are sorted by key. */
static struct difference compare(const struct record *a, const struct record *b)
{
    struct difference difference = {.count = 0};
    size_t i = 0, j = 0;

    while (i < a->count || j < b->count) {
        const int order = i == a->count ? 1
                          : j == b->count
                              ? -1
                              : reading_key_compare(&a->readings[i].key, &b->readings[j].key);

        if (order != 0)
            add_difference(&difference, order < 0 ? &a->readings[i].key : &b->readings[j].key);
        else if (strcmp(a->readings[i].text, b->readings[j].text) != 0)
            add_difference(&difference, &a->readings[i].key);
        i += order <= 0;
        j += order >= 0;
    }
    return difference;
}

static void add_record(const struct record *record, const struct record *now, struct strbuf *out)
{
    const struct difference difference = compare(record, now);
    const int visit = record_last_visit(record);
    const int passes = visit > 0 ? record_last_pass(record, visit) : 0;

    if (visit > 0) {
        strbuf_addf(out, "visit %d, ", visit);
        strbuf_add_count(out, (size_t)passes, "pass", "passes");
        strbuf_add(out, "; ");
    }
    if (difference.count == 0) {
        strbuf_add(out, "the same as now");
        return;
    }
    strbuf_add_count(out, difference.count, "entry", "entries");
    strbuf_addf(out, " different now: %s%s", field_get(difference.first.field)->label,
                difference.count > 1 ? " ..." : "");
}

/* Describes an earlier state, or says why it cannot. */
static void tell(const char *path, const struct record *now, struct strbuf *out)
{
    struct profile *profile;
    const enum status status = profile_open(path, PROFILE_TO_READ, NULL, &profile);

    if (status != STATUS_OK) {
        strbuf_add(out, status_text(status));
        return;
    }
    add_record(profile_record(profile), now, out);
    profile_close(profile);
}

static void read_item(const struct copy *copy, const struct record *now, struct shelf_earlier *item)
{
    struct strbuf when = STRBUF(item->when), holds = STRBUF(item->holds);

    item->beside = (copy->kind & COPY_VERSIONS) != 0;
    strbuf_add(&when, copy->when);
    if (item->beside)
        strbuf_addf(&holds, "%s: ", copies_label(paths_name_of(copy->path)));
    tell(copy->path, now, &holds);
}

static enum status read_items(struct earlier_items *items, const struct record *now)
{
    items->items = calloc(items->copies.count + 1, sizeof *items->items);
    if (!items->items)
        return STATUS_NO_MEMORY;
    for (size_t i = 0; i < items->copies.count; i++)
        read_item(&items->copies.items[i], now, &items->items[i]);
    return STATUS_OK;
}

static enum status list_items(const char *path, const struct record *now,
                              struct earlier_items *items)
{
    char *target = safefile_target(path);
    enum status status = target ? copies_list(target, COPY_VERSIONS | COPY_EARLIER, &items->copies)
                                : STATUS_NOT_FOUND;

    /* Versions were found even so. */
    if (items->copies.count > 0 && status != STATUS_NO_MEMORY)
        status = STATUS_OK;
    free(target);
    return status == STATUS_OK ? read_items(items, now) : status;
}

enum status earlier_items_read(const char *path, struct earlier_items *ret_items)
{
    struct earlier_items items = {.items = NULL};
    const struct record nothing = {.count = 0};
    struct profile *profile = NULL;

    /* May fail: perhaps an earlier state is wanted because the profile cannot be read any more. */
    (void)profile_open(path, PROFILE_TO_READ, NULL, &profile);
    const enum status status =
        list_items(path, profile ? profile_record(profile) : &nothing, &items);
    profile_close(profile);
    if (status == STATUS_OK)
        *ret_items = items;
    else
        earlier_items_done(&items);
    return status;
}

void earlier_items_done(struct earlier_items *items)
{
    copies_done(&items->copies);
    free(items->items);
    *items = (struct earlier_items){.items = NULL};
}
