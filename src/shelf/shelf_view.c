/* SPDX-License-Identifier: MIT */
#include "shelf/shelf_view.h"

#include "shelf/shelf_earlier.h"
#include "base/utf8.h"
#include "screen/menu_view.h"
#include "screen/overlay_view.h"
#include "shelf/shelf_foot_view.h"
#include "shelf/shelf_journal_view.h"
#include "shelf/shelf_pane.h"
#include "shelf/shelf_rows.h"
#include "shelf/shelf_table_view.h"
#include "shelf/shelf_together.h"
#include "screen/strip_view.h"

enum { TITLE_ROW, STRIP_ROW, HEAD_ROW, FIRST_ROW };

int shelf_view_rows(int frame_rows)
{
    return frame_rows > FIRST_ROW + SHELF_FOOT_ROWS ? frame_rows - FIRST_ROW - SHELF_FOOT_ROWS : 1;
}

/* "12 instruments on file", "3 of 12 instruments found", "3 of 12 instruments in the house", and
 * the progress of reading. */
static void add_counts(const struct shelf_list *list, struct strbuf *out)
{
    const bool narrowed = !lineedit_is_empty(&list->filter);

    if (narrowed || list->question != SHELF_ALL)
        strbuf_addf(out, "%zu of ", list->found_count);
    strbuf_add_count(out, list->count, "instrument", "instruments");
    strbuf_addf(out, " %s",
                narrowed && list->question == SHELF_ALL
                    ? "found"
                    : shelf_question_get(list->question)->title);
    if (list->unread > 0)
        strbuf_addf(out, ", %zu still to read", list->unread);
    else if (list->glanced > 0)
        strbuf_addf(out, ", %zu still to work out", list->glanced);
}

static void draw_title(const struct pen *pen, const struct shelf_list *list)
{
    const int columns = pen->frame->columns;
    char memory[120];
    struct strbuf counts = STRBUF(memory);

    add_counts(list, &counts);
    frame_set_role(pen->frame, TITLE_ROW, 0, columns, ROLE_TITLE);
    const int used = pen_put(pen, TITLE_ROW, 1, columns - 2, ROLE_TITLE, memory);
    const int room = columns - used - 4, width = utf8_columns(list->folder);
    pen_put_cut(pen, TITLE_ROW, columns - 1 - (width < room ? width : room), room, ROLE_TITLE,
                list->folder);
}

static void draw_strip(const struct pen *pen, const struct shelf_list *list)
{
    const size_t seen = list->top + (size_t)list->rows;
    char memory[40];
    struct strbuf more = STRBUF(memory);

    strip_view_names(pen, STRIP_ROW, true, STRIP_SHELF);
    if ((list->mode != SHELF_LIST && list->mode != SHELF_ARCHIVING) || seen >= list->found_count)
        return;
    strbuf_addf(&more, "%zu more below", list->found_count - seen);
    pen_put_right(pen, STRIP_ROW, 0, pen->frame->columns - 1, ROLE_KEY, memory);
}

/* --- instead of the list --- */

static void draw_first_steps(const struct pen *pen, const struct shelf_list *list, int row)
{
    const int width = pen->frame->columns - 6;
    char make_memory[APP_MESSAGE_MAX + 64], copy_memory[APP_MESSAGE_MAX + 64];
    struct strbuf make = STRBUF(make_memory), copy = STRBUF(copy_memory);

    /* The folder is made with the first instrument, so it may not be there yet. */
    strbuf_add(&make, "mkdir -p ");
    strbuf_add(&make, list->folder);
    strbuf_add(&copy, "cp profiles/*.ini ");
    strbuf_add(&copy, list->folder);
    pen_put(pen, row + 1, 4, width, ROLE_LABEL, "Nothing is on file here yet.");
    row += 3;
    pen_put(pen, row, 4, width, ROLE_KEY, "Enter");
    row += pen_wrap(pen, row, 12, width - 8, 4, ROLE_TEXT,
                    "begins the first instrument: choose a starting point for its kind, give it "
                    "a name, and enter what you measure.");
    row += pen_wrap(pen, row + 1, 4, width, 4, ROLE_TEXT,
                    "Or copy the demo instruments that come with the program and look around:");
    pen_put_cut(pen, row + 2, 8, width - 4, ROLE_VALUE, make_memory);
    pen_put_cut(pen, row + 3, 8, width - 4, ROLE_VALUE, copy_memory);
    pen_wrap(pen, row + 5, 4, width, 4, ROLE_DIM,
             "Every profile in that folder is listed: one *.ini file for each instrument.");
}

static void draw_no_match(const struct pen *pen, const struct shelf_list *list, int row)
{
    const int width = pen->frame->columns - 6;
    char memory[APP_MESSAGE_MAX];
    struct strbuf text = STRBUF(memory);

    strbuf_add(&text, "No instrument ");
    if (list->question != SHELF_ALL)
        strbuf_addf(&text, "%s ", shelf_question_get(list->question)->title);
    strbuf_add(&text, "matches what is typed.");
    pen_put(pen, row, 4, width, ROLE_LABEL, memory);
    pen_wrap(pen, row + 2, 4, width, 4, ROLE_TEXT,
             "Every word must be in its " SHELF_SEARCHED ". * 1 lists all; * 4 begins a new "
             "instrument under that name.");
}

static void draw_none_found(const struct pen *pen, const struct shelf_list *list, int row)
{
    const int width = pen->frame->columns - 6;
    const bool narrowed = !lineedit_is_empty(&list->filter);
    const bool reading = list->unread > 0 || (!narrowed && list->glanced > 0);

    if (narrowed && !reading) {
        draw_no_match(pen, list, row + 1);
        return;
    }
    pen_put(pen, row + 1, 4, width, ROLE_LABEL,
            reading ? "None so far; the rest is still being read."
                    : shelf_question_get(list->question)->none);
    pen_put(pen, row + 3, 4, width, ROLE_TEXT, "* 1 lists all.");
}

/* One of the shop's own has no number. */
static void draw_start(const struct pen *pen, const struct shelf_starts *starts, int i, int row)
{
    const int place = starts->found[i], width = pen->frame->columns - 8;
    const bool now = i == starts->at, own = place < starts->own_count;
    char memory[16], words_memory[APP_MESSAGE_MAX];
    struct strbuf number = STRBUF(memory), words = STRBUF(words_memory);

    if (!own)
        strbuf_addf(&number, "%2d", place - starts->own_count + 1);
    strbuf_add(&words, starts->all[place].title);
    strbuf_add(&words, own ? ", the shop's own" : "");
    pen_put(pen, row, 1, 1, ROLE_KEY, now ? ">" : "");
    pen_put(pen, row, 3, 3, ROLE_KEY, memory);
    pen_put_cut(pen, row, 6, width, now ? ROLE_CELL : ROLE_TEXT, words_memory);
    if (now) {
        pen->frame->cursor_row = row;
        pen->frame->cursor_column = 6;
    }
}

static void draw_starts(const struct pen *pen, const struct shelf_starts *starts, int row, int rows)
{
    const int room = rows > 3 ? rows - 2 : 1;
    const int top = starts->at < room ? 0 : starts->at - room + 1;
    const int width = pen->frame->columns;

    pen_put(pen, row, 1, width - 2, ROLE_LABEL,
            "A new instrument: which of these is it most like?");
    for (int i = top; i < starts->found_count && i < top + room; i++)
        draw_start(pen, starts, i, row + 2 + i - top);
    if (starts->found_count + 4 < rows)
        pen_wrap(pen, row + starts->found_count + 3, 1, width - 2, 2, ROLE_DIM,
                 "It brings common sizes, strings and targets; every one of them can be changed.");
    else if (top + room < starts->found_count)
        pen_put_right(pen, row, 0, width - 1, ROLE_KEY, "Down: more");
}

static void draw_earlier(const struct pen *pen, const struct shelf_list *list, int row, int rows)
{
    const size_t room = rows > 5 ? (size_t)(rows - 4) : 1;
    const size_t top = shelf_earlier_top(list, room);
    const int width = pen->frame->columns;

    pen_put_cut(pen, row, 1, width - 2, ROLE_LABEL,
                list->earlier_count > 0 && list->earlier[0].beside
                    ? "Other versions beside it, to be put together with it; earlier states (UTC):"
                    : "Earlier states, each as it was before a session changed it (UTC):");
    for (size_t i = 0; i < room && top + i < list->earlier_count; i++) {
        const struct shelf_earlier *earlier = &list->earlier[top + i];
        const bool now = top + i == list->earlier_at;
        const int at = row + 2 + (int)i;

        pen_put(pen, at, 1, 1, ROLE_KEY, now ? ">" : "");
        pen_put(pen, at, 3, 16, now ? ROLE_CELL : ROLE_VALUE, earlier->when);
        pen_put_cut(pen, at, 21, width - 22, earlier->beside ? ROLE_CAUTION : ROLE_TEXT,
                    earlier->holds);
        if (now) {
            pen->frame->cursor_row = at;
            pen->frame->cursor_column = 3;
        }
    }
    if (top + room < list->earlier_count)
        pen_put_right(pen, row + rows - 1, 0, width - 1, ROLE_KEY, "Down: more");
}

static void draw_help(const struct pen *pen, const struct shelf_list *list, int row, int rows)
{
    struct scroll scroll = {.pen = pen, .row = row, .end = row + rows, .skip = list->help_top};

    scroll_put(&scroll, 2, ROLE_LABEL, "Finding an instrument");
    scroll_put(&scroll, 2, ROLE_TEXT,
               "Letters and digits narrow the list: every word typed must be in " SHELF_SEARCHED
               ". The one last worked on comes first.");
    scroll_put(&scroll, 2, ROLE_LABEL, "Keys");
    for (int id = 0; id < SHELF_KEY_COUNT_; id++) {
        const struct shelf_key *key = shelf_key_get((enum shelf_key_id)id);

        char memory[48];
        struct strbuf keys = STRBUF(memory);

        command_keys_name(key->key, key->other_key, 0, false, &keys);
        if (key->place) {
            strbuf_add(&keys, keys.length > 0 ? " or * " : "* ");
            command_key_name(key->letter, &keys);
        }
        if (key->mode == SHELF_LIST || key->mode == SHELF_ANY)
            scroll_key(&scroll, memory, key->words);
    }
    if (scroll.row > scroll.end)
        pen_put_right(pen, row + rows, 0, pen->frame->columns - 1, ROLE_KEY, "Down: more");
}

/* The list, and beside it the one in hand where there is room. */
static void draw_list(const struct pen *pen, const struct shelf_list *list, int rows)
{
    const int pane = shelf_pane_columns(pen->frame->columns);
    const int columns = pen->frame->columns - pane;

    shelf_rows_draw(pen, list, HEAD_ROW, rows, columns);
    if (pane > 0)
        shelf_pane_draw(pen, list, HEAD_ROW, rows, columns + 1);
}

static void draw_body(const struct pen *pen, const struct shelf_list *list)
{
    const int rows = shelf_view_rows(pen->frame->rows);

    if (list->mode == SHELF_HELP)
        draw_help(pen, list, HEAD_ROW, rows + 1);
    else if (list->mode == SHELF_MENU)
        menu_view_draw(pen, &list->menu, "Shelf", HEAD_ROW, rows + 1);
    else if (list->mode == SHELF_PRESETS ||
             ((list->mode == SHELF_NAMING || list->mode == SHELF_UNITS) &&
              list->named_from == SHELF_PRESETS))
        draw_starts(pen, &list->starts, HEAD_ROW, rows + 1);
    else if (list->mode == SHELF_EARLIER)
        draw_earlier(pen, list, HEAD_ROW, rows + 1);
    else if (list->mode == SHELF_TOGETHER)
        shelf_together_draw(pen, list, HEAD_ROW, rows + 1);
    else if (list->mode == SHELF_TABLE)
        shelf_table_view_draw(pen, list, HEAD_ROW, rows + 1);
    else if (list->mode == SHELF_JOURNAL)
        shelf_journal_view_draw(pen, list, HEAD_ROW, rows + 1);
    else if (list->mode == SHELF_PEEKING && shelf_pane_columns(pen->frame->columns) == 0)
        shelf_pane_draw(pen, list, HEAD_ROW, rows + 1, 4);
    else if (list->failure[0])
        pen_wrap(pen, FIRST_ROW, 4, pen->frame->columns - 6, rows, ROLE_CAUTION, list->failure);
    else if (list->count == 0)
        draw_first_steps(pen, list, HEAD_ROW);
    else if (list->found_count == 0)
        draw_none_found(pen, list, HEAD_ROW);
    else
        draw_list(pen, list, rows + 1);
}

void shelf_view_compose(const struct shelf_list *list, bool utf8, struct frame *frame)
{
    const struct pen pen = {.frame = frame, .utf8 = utf8};
    const int rows = frame->rows;

    frame_clear(frame);
    if (strip_view_too_small(&pen))
        return;
    draw_title(&pen, list);
    draw_strip(&pen, list);
    draw_body(&pen, list);
    shelf_foot_view_draw(&pen, list, rows - SHELF_FOOT_ROWS);
}
