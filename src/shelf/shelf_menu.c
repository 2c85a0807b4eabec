/* SPDX-License-Identifier: MIT */
#include <stddef.h>

#include "shelf/shelf_list.h"

static bool can(const struct shelf_list *list, enum shelf_key_id id)
{
    const struct shelf_item *item = shelf_list_item(list);

    switch (id) {
    case SHELF_KEY_EMPTY:
        return !lineedit_is_empty(&list->filter);
    case SHELF_KEY_COPY:
        return item && !(item->marks & SHELF_BROKEN);
    case SHELF_KEY_ARCHIVE:
        return item && !(item->marks & SHELF_IN_USE);
    case SHELF_KEY_NEW:
    case SHELF_KEY_HELP:
    case SHELF_KEY_QUIT:
        return true;
    default:
        return item != NULL;
    }
}

void shelf_menu_open(struct shelf_list *list)
{
    menu_clear(&list->menu);
    for (int id = 0; id < SHELF_KEY_COUNT_; id++) {
        const struct shelf_key *key = shelf_key_get((enum shelf_key_id)id);
        struct menu_item *item = key->place && can(list, (enum shelf_key_id)id)
                                     ? menu_add(&list->menu, id, key->place, key->letter)
                                     : NULL;

        if (!item)
            continue;
        struct strbuf words = STRBUF(item->words);
        strbuf_add(&words, key->title);
    }
    list->mode = SHELF_MENU;
}
