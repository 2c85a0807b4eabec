/* SPDX-License-Identifier: MIT */
#include "shelf/shelf_foot_view.h"

#include "screen/line_view.h"
#include "screen/menu_view.h"
#include "screen/strip_view.h"
#include "shelf/shelf_journal.h"
#include "shelf/shelf_key.h"

/* A message, or the current instrument's file and what its row does not show. */
static void draw_message(const struct pen *pen, const struct shelf_list *list, int row)
{
    const struct shelf_item *item = shelf_list_item(list);
    const int width = pen->frame->columns - 2;
    char memory[APP_MESSAGE_MAX];
    struct strbuf text = STRBUF(memory);

    if (list->tone != TONE_NONE) {
        pen_put_cut(pen, row, 1, width, list->tone == TONE_NOTE ? ROLE_TEXT : ROLE_CAUTION,
                    list->message);
        return;
    }
    if (list->mode == SHELF_NAMING) {
        strbuf_add(&text, "Any name will do: the shop's, or its owner's. Filed in ");
        strbuf_add(&text, list->folder);
        pen_put_cut(pen, row, 1, width, ROLE_TEXT, memory);
        return;
    }
    if (list->mode == SHELF_UNITS) {
        pen_put_cut(pen, row, 1, width, ROLE_TEXT,
                    "Asked once, and kept in the shop's settings; * m changes it later.");
        return;
    }
    if (!item || (list->mode != SHELF_LIST && list->mode != SHELF_MENU))
        return;
    strbuf_add(&text, item->file);
    if (item->card.maker[0]) {
        strbuf_add(&text, " \xC2\xB7 ");
        strbuf_add(&text, item->card.maker);
    }
    if (item->card.serial[0]) {
        strbuf_add(&text, " \xC2\xB7 ");
        strbuf_add(&text, item->card.serial);
    }
    pen_put_cut(pen, row, 1, width, ROLE_DIM, memory);
}

static const char *prompt(const struct shelf_list *list)
{
    switch (list->mode) {
    case SHELF_MENU:
        return "in hand:";
    case SHELF_PRESETS:
        return "most like >";
    case SHELF_NAMING:
        return "its name >";
    case SHELF_UNITS:
        return "the shop's gauges read in? 1 inches  2 millimetres >";
    case SHELF_ARCHIVING:
        return "move to archive/ ?";
    case SHELF_EARLIER:
        return "earlier state of";
    case SHELF_TOGETHER:
        return "putting together";
    case SHELF_PEEKING:
        return "in hand:";
    case SHELF_TABLE:
        return "over:";
    case SHELF_JOURNAL:
        return list->journal.month ? "done in" : "done on";
    case SHELF_HELP:
        return "";
    default:
        return "find >";
    }
}

static void draw_journal_title(const struct pen *pen, const struct shelf_list *list, int row,
                               int column, int room)
{
    char memory[64];
    struct strbuf title = STRBUF(memory);

    shelf_journal_add_title(list, &title);
    pen_put_cut(pen, row, column, room, ROLE_TEXT, memory);
}

static const struct lineedit *line_of(const struct shelf_list *list)
{
    static const struct lineedit nothing;

    switch (list->mode) {
    case SHELF_NAMING:
        return &list->name;
    case SHELF_LIST:
        return &list->filter;
    case SHELF_PRESETS:
        return shelf_start_in_hand(list) ? &list->starts.typed : &nothing;
    default:
        return &nothing;
    }
}

/* What the prompt is about, where nothing is typed; "" for none. */
static const char *subject_of(const struct shelf_list *list)
{
    switch (list->mode) {
    case SHELF_PRESETS:
        return shelf_start_in_hand(list) && lineedit_is_empty(&list->starts.typed)
                   ? shelf_start_in_hand(list)->title
                   : "";
    case SHELF_TABLE:
        return lineedit_is_empty(&list->filter) ? "all on file" : list->filter.text;
    case SHELF_MENU:
    case SHELF_PEEKING:
        return shelf_list_item(list) ? shelf_item_title(shelf_list_item(list)) : "";
    case SHELF_ARCHIVING:
    case SHELF_EARLIER:
    case SHELF_TOGETHER:
        return list->target;
    default:
        return "";
    }
}

/* What may be typed, or what typing does. */
static void draw_typing_hint(const struct pen *pen, const struct shelf_list *list, int row,
                             int column, int room)
{
    const bool empty = lineedit_is_empty(line_of(list));

    if (list->mode == SHELF_LIST && empty)
        pen_put(pen, row, column + 1, room, ROLE_DIM,
                list->count > 0 ? "type a part of name, owner, maker, kind, ticket, a year"
                                : "nothing to find yet; Enter begins the first instrument");
    if (list->mode == SHELF_LIST && list->used && !empty)
        pen_put(pen, row, column + 3, room - 3, ROLE_DIM,
                "Esc lists all; typing begins a new search");
    if (list->mode == SHELF_NAMING && list->proposed && !empty)
        pen_put(pen, row, column + 3, room - 3, ROLE_DIM, "typing begins anew");
}

static bool holds_cursor(const struct shelf_list *list)
{
    return list->mode == SHELF_NAMING || list->mode == SHELF_UNITS ||
           list->mode == SHELF_ARCHIVING || (list->typing && !lineedit_is_empty(line_of(list)));
}

static void draw_entry(const struct pen *pen, const struct shelf_list *list, int row)
{
    const int columns = pen->frame->columns;
    int column = 2 + pen_put(pen, row, 1, columns - 2, ROLE_LABEL, prompt(list)), cursor;
    const int room = columns - column - 1;

    column += line_view_draw(pen, row, column, room, line_of(list), &cursor);
    pen_put_cut(pen, row, column, room, ROLE_TEXT, subject_of(list));
    if (list->mode == SHELF_JOURNAL)
        draw_journal_title(pen, list, row, column, room);
    draw_typing_hint(pen, list, row, column, room);
    if (holds_cursor(list) || pen->frame->cursor_row < 0) {
        pen->frame->cursor_row = row;
        pen->frame->cursor_column = cursor;
    }
}

static void draw_keys(const struct pen *pen, const struct shelf_list *list, int row)
{
    int column = 1;

    if (list->mode == SHELF_HELP) {
        pen_put(pen, row, 1, pen->frame->columns - 2, ROLE_DIM, "any other key closes this");
        return;
    }
    if (list->mode == SHELF_MENU) {
        menu_view_draw_keys(pen, &list->menu, row);
        return;
    }
    for (int id = 0; id < SHELF_KEY_COUNT_; id++) {
        const struct shelf_key *key = shelf_key_get((enum shelf_key_id)id);

        if (key->hint[0] && key->mode == list->mode)
            column += strip_view_key(pen, row, column, key->key, key->hint);
    }
}

void shelf_foot_view_draw(const struct pen *pen, const struct shelf_list *list, int row)
{
    draw_message(pen, list, row);
    draw_entry(pen, list, row + 1);
    draw_keys(pen, list, row + 2);
}
