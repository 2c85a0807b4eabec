/* SPDX-License-Identifier: MIT */
#include "shelf/shelf_item.h"

#include <string.h>

const char *shelf_item_title(const struct shelf_item *item)
{
    return item->card.name[strspn(item->card.name, " \t")] ? item->card.name : item->file;
}

static void add_mark(struct strbuf *out, const char *mark)
{
    if (out->length > 0)
        strbuf_add(out, ", ");
    strbuf_add(out, mark);
}

void shelf_item_marks(const struct shelf_item *item, bool in_short, struct strbuf *out)
{
    if (item->marks & SHELF_BROKEN)
        add_mark(out, item->trouble);
    if (item->marks & SHELF_IN_USE)
        add_mark(out, "in use");
    if (item->marks & SHELF_VERSIONS)
        add_mark(out, in_short ? "versions" : "two versions");
    if (item->marks & SHELF_VERSION)
        add_mark(out, in_short ? "version" : "a version");
    if (item->marks & SHELF_NEWER)
        add_mark(out, "newer format");
    if (item->card.moves_open)
        add_mark(out, in_short && out->length > 0 ? "moves" : "moves open");
    if (item->card.to_measure)
        add_mark(out, in_short && out->length > 0 ? "measure" : "to measure");
    if (item->marks & SHELF_UNREAD)
        add_mark(out, "not read yet");
}
