/* SPDX-License-Identifier: MIT */
#include "screen/grid_view.h"

#include "words/amount.h"
#include "base/utf8.h"
#include "model/reading/note_name.h"
#include "session/again.h"
#include "session/setback_cell.h"

/* The first of `shown` items out of `all`; the window moves by half of `shown`. */
static int first_shown(int all, int shown, int at)
{
    const int half = shown / 2 > 0 ? shown / 2 : 1;
    int first = (at / half - 1) * half;

    if (first > all - shown)
        first = all - shown;
    /* With a single row or column, steps of half the window would miss the one in hand. */
    if (shown == 1 && at < all)
        first = at;
    return first < 0 ? 0 : first;
}

static int at_most(int count, int room)
{
    return count < room ? count : room > 0 ? room : 0;
}

struct grid grid_fit(const struct grid_room *room, int rows, int columns, int at_row, int at_column)
{
    struct grid grid = {.room = *room, .rows = rows, .columns = columns};

    grid.shown_rows = at_most(rows, room->rows);
    grid.shown_columns = at_most(columns, room->width / room->cell);
    grid.top = first_shown(rows, grid.shown_rows, at_row);
    grid.left = first_shown(columns, grid.shown_columns, at_column);
    return grid;
}

int grid_column(const struct grid *grid, int column)
{
    if (column < grid->left || column >= grid->left + grid->shown_columns)
        return -1;
    return grid->room.column + (column - grid->left) * grid->room.cell;
}

int grid_row(const struct grid *grid, int row)
{
    if (row < grid->top || row >= grid->top + grid->shown_rows)
        return -1;
    return grid->room.row + row - grid->top;
}

void grid_draw_numbers(const struct pen *pen, const struct grid *grid, int row, int first, int at)
{
    const int end = grid->left + grid->shown_columns;
    int free = grid->room.column;

    for (int i = grid->left; i < end; i++) {
        const int number = first + i, width = number > 9 ? 2 : 1;
        const int column = grid_column(grid, i) + grid->room.cell - width;
        /* The number in hand is always shown; the one before it is left out if it is in the way. */
        const bool crowds = number + 1 == at && width + 1 > grid->room.cell - (number == 9);
        char memory[16];
        struct strbuf text = STRBUF(memory);

        if ((column < free || crowds) && number != at)
            continue;
        strbuf_addf(&text, "%d", number);
        pen_put(pen, row, column, width, number == at ? ROLE_MARK : ROLE_LABEL, memory);
        free = column + width + 1;
    }
    if (grid->left > 0)
        pen_put(pen, row, grid->room.column, 1, ROLE_KEY, "<");
    if (end < grid->columns)
        pen_put(pen, row, grid->room.column + grid->shown_columns * grid->room.cell, 1, ROLE_KEY,
                ">");
}

void grid_draw_more(const struct pen *pen, const struct grid *grid, int column)
{
    if (grid->top > 0)
        pen_put(pen, grid->room.row, column, 1, ROLE_KEY, "^");
    if (grid->top + grid->shown_rows < grid->rows)
        pen_put(pen, grid->room.row + grid->shown_rows - 1, column, 1, ROLE_KEY, "v");
}

/* A text too wide for its cell is replaced by its value in the cell's unit; a list is cut, with a
 * sign that it was. */
static void fit_text(const struct app *app, const struct route_cell *cell, struct strbuf *text,
                     int width)
{
    const struct field *field = field_get(cell->key.field);
    char memory[FIELD_TEXT_MAX + 1];
    struct strbuf copy = STRBUF(memory);
    const struct maybe read = record_entered(&app->record, cell->key);

    if (utf8_columns(text->text) <= width)
        return;
    if (field->kind == KIND_NUMBER && read.given) {
        strbuf_clear(text);
        if (field->quantity == QUANTITY_LENGTH)
            amount_add(text, read.value, field_bare_unit(field, &app->units), false);
        else
            num_format_fixed(read.value, 1, false, text);
    }
    if (utf8_columns(text->text) <= width || width < 3)
        return;
    strbuf_add(&copy, text->text);
    strbuf_clear(text);
    strbuf_add_bytes(text, memory, utf8_clip(memory, width - 2));
    strbuf_add(text, "..");
}

/* The last value in brackets, where it is offered again; never cut, and never without them. */
static void add_last(const struct app *app, const struct route_cell *cell, int width,
                     struct strbuf *out)
{
    const struct reading *last = again_find(app, cell);

    if (!last) {
        strbuf_add_char(out, '-');
        return;
    }
    strbuf_add_char(out, '[');
    entry_show(last->text, field_get(cell->key.field), &app->units, out);
    strbuf_add_char(out, ']');
    if (utf8_columns(out->text) > width) {
        strbuf_clear(out);
        strbuf_add(out, "[..]");
    }
}

/* What it should be after its saddle moved. */
static void add_moved(const struct app *app, const struct route_cell *cell, int width,
                      struct strbuf *out)
{
    const struct maybe mm = setback_cell_expected(app, cell);

    if (!mm.given) {
        strbuf_add_char(out, '-');
        return;
    }
    strbuf_add_char(out, '(');
    amount_add(out, mm.value, field_bare_unit(field_get(cell->key.field), &app->units), false);
    strbuf_add_char(out, ')');
    if (utf8_columns(out->text) > width) {
        strbuf_clear(out);
        strbuf_add(out, "(..)");
    }
}

static enum role cell_text(const struct app *app, const struct route_cell *cell, int width,
                           struct strbuf *out)
{
    const struct reading *reading = record_get(&app->record, &cell->key);

    if (setback_cell_is_moved(app, cell)) {
        add_moved(app, cell, width, out);
        return ROLE_DIM;
    }
    if (!reading) {
        add_last(app, cell, width, out);
        return ROLE_DIM;
    }
    if (cell->key.field != FIELD_STRING_NOTE || !note_name_of(&app->record, cell->key.string, out))
        entry_show(reading->text, field_get(cell->key.field), &app->units, out);
    if (reading->value.state == READING_GOOD) {
        fit_text(app, cell, out, width);
        return ROLE_VALUE;
    }
    fit_text(app, cell, out, width - 1);
    strbuf_add_char(out, '!');
    return ROLE_OFF;
}

void grid_draw_cell(const struct pen *pen, const struct app *app, const struct route_cell *cell,
                    int row, int column, int width)
{
    const bool in_hand = app_cell(app) == cell;
    char memory[FIELD_TEXT_MAX + 16];
    struct strbuf text = STRBUF(memory);
    enum role role;

    if (row < 0 || column < 0)
        return;
    role = cell_text(app, cell, width, &text);
    if (in_hand && app->previewing) {
        /* Of a long entry show the end, where the typing is. */
        const char *typed = app->entry.text;

        while (utf8_columns(typed) > width)
            typed += utf8_clip(typed, 1) > 0 ? utf8_clip(typed, 1) : 1;
        strbuf_clear(&text);
        strbuf_add(&text, typed);
    }
    pen_put_right(pen, row, column, width, in_hand ? ROLE_CELL : role, memory);
    if (!in_hand)
        return;
    frame_set_role(pen->frame, row, column, width, ROLE_CELL);
    pen->frame->cursor_row = row;
    pen->frame->cursor_column = column + width - 1;
}

void grid_draw_read(const struct pen *pen, const struct app *app, int string, int row, int column,
                    int width)
{
    char memory[64];
    struct strbuf text = STRBUF(memory);

    note_name_add_read(&text, &app->record, &app->now.setup.outfit, string);
    pen_put(pen, row, column, width, string == app_string(app) ? ROLE_MARK : ROLE_LABEL, memory);
}

void grid_draw_string(const struct pen *pen, const struct app *app, int string, int row, int column,
                      int width)
{
    char memory[64];
    struct strbuf text = STRBUF(memory);

    note_name_add_string(&text, &app->record, string);
    pen_put(pen, row, column, width, string == app_string(app) ? ROLE_MARK : ROLE_LABEL, memory);
}
