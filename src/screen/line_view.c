/* SPDX-License-Identifier: MIT */
#include "screen/line_view.h"

#include "base/strbuf.h"
#include "base/utf8.h"

int line_view_draw(const struct pen *pen, int row, int column, int room,
                   const struct lineedit *line, int *ret_cursor)
{
    char memory[LINEEDIT_MAX + 1];
    struct strbuf before = STRBUF(memory);
    const char *shown = line->text, *left = memory;

    strbuf_add_bytes(&before, line->text, line->cursor);
    /* The cursor needs a column of its own, after the text before it. */
    while (utf8_columns(left) >= room && *left) {
        const size_t step = utf8_clip(left, 1) ? utf8_clip(left, 1) : utf8_clip(left, 2);

        left += step;
        shown += step;
    }
    *ret_cursor = column + utf8_columns(left);
    return pen_put(pen, row, column, room, ROLE_ENTRY, shown);
}
