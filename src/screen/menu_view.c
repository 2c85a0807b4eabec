/* SPDX-License-Identifier: MIT */
#include "screen/menu_view.h"

#include "session/event.h"
#include "base/strbuf.h"
#include "base/utf8.h"
#include "screen/strip_view.h"

enum { LEFT = 1, RIGHT = 53 };

/* "  1 u  undo: action, string 6", with the digit in the key colour if it works right away. */
static void draw_item(const struct pen *pen, const struct menu *menu, int i, int row, int column)
{
    const struct menu_item *item = &menu->items[i];
    const int width = (column == LEFT ? RIGHT : pen->frame->columns) - column - 8;
    const bool works = item->page == menu_page(menu), now = i == menu->at;
    const char digit[] = {(char)('0' + item->digit), '\0'};
    char letter[5];

    letter[utf8_encode(item->letter, letter)] = '\0';
    pen_put(pen, row, column, 1, ROLE_KEY, now ? ">" : "");
    pen_put(pen, row, column + 2, 1, works ? ROLE_KEY : ROLE_DIM, digit);
    pen_put(pen, row, column + 4, 1, ROLE_KEY, letter);
    pen_put_cut(pen, row, column + 6, width, now ? ROLE_CELL : ROLE_TEXT, item->words);
    if (!now)
        return;
    pen->frame->cursor_row = row;
    pen->frame->cursor_column = column + 6;
}

/* A page's heading and items; returns the row after them. */
static int draw_page(const struct pen *pen, const struct menu *menu, int page, const char *heading,
                     int row, int end, int column)
{
    const bool here = page == menu_page(menu);
    int i = menu_first(menu, page);

    if (i == menu->count && !here)
        return row;
    /* Until an item is chosen, the cursor is on the page's heading. */
    if (menu->at < 0 && here) {
        pen->frame->cursor_row = row;
        pen->frame->cursor_column = column + 2;
    }
    pen_put(pen, row++, column + 2, pen->frame->columns - column - 2, ROLE_LABEL, heading);
    if (i == menu->count)
        pen_put(pen, row++, column + 2, pen->frame->columns - column - 2, ROLE_DIM,
                "nothing can be done now");
    for (; i < menu->count && menu->items[i].page == page && row < end; i++)
        draw_item(pen, menu, i, row++, column);
    return row;
}

void menu_view_draw(const struct pen *pen, const struct menu *menu, const char *here, int row,
                    int rows)
{
    const int end = row + rows;
    char memory[32];
    struct strbuf heading = STRBUF(memory);

    strbuf_add(&heading, here);
    int below = 1 + draw_page(pen, menu, 1, "leaves: 0, then", row, end, RIGHT);
    below = 1 + draw_page(pen, menu, 2, "the visit: 0 0, then", below, end, RIGHT);
    (void)draw_page(pen, menu, 4, "rest: two points, then", below, end, RIGHT);
    row = 1 + draw_page(pen, menu, 0, memory, row, end, LEFT);
    (void)draw_page(pen, menu, 3, "more: a point, then", row, end, LEFT);
}

void menu_view_draw_keys(const struct pen *pen, const struct menu *menu, int row)
{
    int column = 1;

    column += pen_put(pen, row, column, 40, ROLE_DIM, "a digit or letter does it") + 2;
    column += strip_view_key(pen, row, column, SILLET_KEY_UP, "") - 2;
    column += strip_view_key(pen, row, column, SILLET_KEY_DOWN, "move");
    if (menu->at >= 0)
        column += strip_view_key(pen, row, column, SILLET_KEY_ENTER, "does it");
    (void)strip_view_key(pen, row, column, MENU_KEY, "closes");
}
