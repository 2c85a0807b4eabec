/* SPDX-License-Identifier: MIT */
#include "shelf/shelf_earlier.h"

void shelf_earlier_take(struct shelf_list *list, const struct shelf_earlier *earlier, size_t count)
{
    const struct shelf_item *item = shelf_list_item(list);
    const bool is_version = item && item->marks & SHELF_VERSION;

    list->earlier = earlier;
    list->earlier_count = count;
    list->earlier_at = 0;
    list->mode = count > 0 ? SHELF_EARLIER : SHELF_LIST;
    if (count == 0)
        shelf_list_say(
            list, TONE_NOTE,
            is_version ? "A version of the file without the (...): take that in hand, then * e."
                       : "No earlier state yet: one is kept before the first change of a session.");
}

void shelf_earlier_move(struct shelf_list *list, int by)
{
    const size_t last = list->earlier_count > 0 ? list->earlier_count - 1 : 0;

    if (by < 0) {
        const size_t back = (size_t)-by;

        list->earlier_at = back < list->earlier_at ? list->earlier_at - back : 0;
    } else {
        list->earlier_at =
            (size_t)by < last - list->earlier_at ? list->earlier_at + (size_t)by : last;
    }
}

size_t shelf_earlier_top(const struct shelf_list *list, size_t rows)
{
    return rows > 0 && list->earlier_at >= rows ? list->earlier_at - rows + 1 : 0;
}
