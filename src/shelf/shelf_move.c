/* SPDX-License-Identifier: MIT */
#include "shelf/shelf_move.h"

#include "shelf/shelf_earlier.h"
#include "shelf/shelf_together.h"
#include "shelf/shelf_visit.h"

static void go_to(struct shelf_list *list, size_t at)
{
    const struct shelf_item *item;
    struct strbuf chosen = STRBUF(list->chosen);

    shelf_visit_drop(list);
    list->at = list->found_count == 0 ? 0 : at < list->found_count ? at : list->found_count - 1;
    item = shelf_list_item(list);
    if (item)
        strbuf_add(&chosen, item->file);
    shelf_list_scroll(list);
}

/* A name being typed stays. A question about archiving is dropped, so that it is never answered for
 * another item. */
static bool may_move(struct shelf_list *list)
{
    if (list->mode == SHELF_ARCHIVING)
        list->mode = SHELF_LIST;
    return list->mode != SHELF_NAMING;
}

/* Whether it shows lines that are only to be read. */
static bool scrolls(const struct shelf_list *list)
{
    return list->mode == SHELF_HELP || list->mode == SHELF_TABLE || list->mode == SHELF_JOURNAL;
}

void shelf_move(struct shelf_list *list, int by)
{
    if (!may_move(list))
        return;
    if (list->mode == SHELF_PRESETS) {
        shelf_starts_move(list, by);
    } else if (list->mode == SHELF_EARLIER) {
        shelf_earlier_move(list, by);
    } else if (list->mode == SHELF_TOGETHER) {
        shelf_together_move(list, by);
    } else if (scrolls(list)) {
        list->help_top = list->help_top + by < 0 ? 0 : list->help_top + by;
    } else if (by < 0) {
        const size_t back = (size_t)-by;

        go_to(list, back < list->at ? list->at - back : 0);
    } else {
        go_to(list, list->at + (size_t)by);
    }
}

void shelf_move_to_end(struct shelf_list *list, bool last)
{
    if (!may_move(list))
        return;
    if (list->mode == SHELF_PRESETS)
        shelf_starts_move(list, last ? SHELF_STARTS_MAX : -SHELF_STARTS_MAX);
    else if (scrolls(list))
        list->help_top = last ? list->help_top : 0;
    else if (list->mode == SHELF_EARLIER)
        list->earlier_at = last ? list->earlier_count - 1 : 0;
    else if (list->mode == SHELF_TOGETHER)
        list->together.at = last && list->together.count > 0 ? list->together.count - 1 : 0;
    else
        go_to(list, last ? list->found_count : 0);
}
