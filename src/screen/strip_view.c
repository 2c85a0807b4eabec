/* SPDX-License-Identifier: MIT */
#include "screen/strip_view.h"

#include "session/command.h"
#include "screen/ui.h"

static int put_name(const struct pen *pen, int row, int column, bool now, const char *name)
{
    char memory[24];
    struct strbuf text = STRBUF(memory);

    strbuf_add(&text, now ? "[" : "");
    strbuf_add(&text, name);
    strbuf_add(&text, now ? "]" : "");
    return pen_put(pen, row, column, 12, now ? ROLE_TAB_NOW : ROLE_TAB, memory) + 1;
}

int strip_view_names(const struct pen *pen, int row, bool has_shelf, int now)
{
    int column = 1;

    if (has_shelf)
        column += put_name(pen, row, column, now == STRIP_SHELF, "Shelf");
    for (int leaf = 0; leaf < LEAF_COUNT_; leaf++)
        column += put_name(pen, row, column, now == leaf, leaf_name((enum leaf)leaf));
    return column;
}

int strip_view_key(const struct pen *pen, int row, int column, uint32_t key, const char *hint)
{
    char memory[24];
    struct strbuf name = STRBUF(memory);
    const int start = column;

    command_key_name(key, &name);
    column += pen_put(pen, row, column, 12, ROLE_KEY, memory) + 1;
    column += pen_put(pen, row, column, 24, ROLE_DIM, hint) + 2;
    return column - start;
}

bool strip_view_too_small(const struct pen *pen)
{
    const struct frame *frame = pen->frame;

    if (frame->rows >= UI_ROWS_MIN && frame->columns >= UI_COLUMNS_MIN)
        return false;
    pen_put(pen, frame->rows / 2, 0, frame->columns, ROLE_TEXT, "needs 80x24; nothing is lost");
    return true;
}
