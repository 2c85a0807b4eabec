/* SPDX-License-Identifier: MIT */
#include "shelf/shelf_journal_view.h"

#include "model/common/day.h"
#include "screen/overlay_view.h"

enum { INDENT = 2, TIME = 5, TEXT = INDENT + TIME + 2, TEXT_MAX = 1000 };

static void add_part(struct strbuf *out, const char *before, const char *part)
{
    if (part[0])
        strbuf_addf(out, "%s%s", before, part);
}

static void draw_line(struct scroll *scroll, const struct shelf_journal_line *line)
{
    const int row = scroll->row;
    const bool shown = scroll->skip == 0 && row < scroll->end;
    char memory[TEXT_MAX];
    struct strbuf text = STRBUF(memory);

    strbuf_add(&text, line->name);
    add_part(&text, ": ", line->what);
    add_part(&text, line->what[0] ? ", " : ": ", line->words);
    add_part(&text, ", ", line->amount);
    scroll_put(scroll, TEXT, ROLE_TEXT, memory);
    if (shown)
        pen_put(scroll->pen, row, INDENT, TIME, ROLE_LABEL, line->time);
    if (line->note[0])
        scroll_put(scroll, TEXT, ROLE_DIM, line->note);
}

static void skip_line(struct scroll *scroll)
{
    if (scroll->skip > 0)
        scroll->skip--;
    else
        scroll->row++;
}

static void draw_day(struct scroll *scroll, int number)
{
    const struct day day = day_of_number(number);
    char memory[64];
    struct strbuf words = STRBUF(memory);

    day_add_words(&day, &words);
    scroll_put(scroll, INDENT, ROLE_LABEL, memory);
}

void shelf_journal_view_draw(const struct pen *pen, const struct shelf_list *list, int row,
                             int rows)
{
    struct scroll scroll = {.pen = pen, .row = row, .end = row + rows, .skip = list->help_top};
    const struct shelf_journal *journal = &list->journal;

    pen->frame->cursor_row = row;
    pen->frame->cursor_column = INDENT;
    for (size_t i = 0; i < journal->count; i++) {
        const struct shelf_journal_line *line = &journal->lines[i];

        if (i > 0 && line->day != journal->lines[i - 1].day)
            skip_line(&scroll);
        if (i == 0 || line->day != journal->lines[i - 1].day)
            draw_day(&scroll, line->day);
        draw_line(&scroll, line);
    }
    if (journal->count == 0)
        scroll_put(&scroll, INDENT, ROLE_TEXT,
                   "Nothing was done then. Left goes back to the last day with anything.");
    if (scroll.row > scroll.end)
        pen_put_right(pen, row + rows, 0, pen->frame->columns - 1, ROLE_KEY, "Down: more");
}
