/* SPDX-License-Identifier: MIT */
#include "shelf/shelf_visit.h"

#include <string.h>

#include "model/survey/as_left.h"

static void count_visits(const struct record *record, struct shelf_visit *visit)
{
    int at = 0;

    visit->number = visit->count = 0;
    while (record_next_visit(record, &at)) {
        visit->count++;
        visit->number += at <= visit->visit;
    }
}

void shelf_visit_take(struct shelf_list *list, const struct record *record)
{
    const struct shelf_item *item = shelf_list_item(list);
    struct shelf_visit *visit = &list->visit;
    const int from = shelf_visit_shown(list) ? visit->visit : as_left_last(record);
    const int to = as_left_step(record, from, visit->by);

    if (!item)
        return;
    if (to == 0) {
        shelf_list_say(list, TONE_NOTE,
                       visit->by < 0 ? "No visit before that is on file."
                                     : "No visit after that is on file.");
        return;
    }
    struct strbuf file = STRBUF(visit->file);
    strbuf_add(&file, item->file);
    visit->visit = to;
    visit->over = as_left_is_over(record, to);
    visit->facts = *shelf_facts_blank();
    as_left_make(record, to, &visit->facts);
    count_visits(record, visit);
}

void shelf_visit_drop(struct shelf_list *list)
{
    list->visit.file[0] = '\0';
}

const struct shelf_visit *shelf_visit_shown(const struct shelf_list *list)
{
    const struct shelf_item *item = shelf_list_item(list);

    return item && list->visit.file[0] && strcmp(list->visit.file, item->file) == 0 ? &list->visit
                                                                                    : NULL;
}
