/* SPDX-License-Identifier: MIT */
#include "screen/work_lines.h"

#include <string.h>

#include "model/reading/work_line.h"
#include "base/utf8.h"

enum { MARK_COLUMN = 1, KIND_COLUMN = 5, TIME_WIDTH = 11, FULL_COLUMN = 7 };

/* The columns of a line. */
struct columns {
    int at[WORK_COLUMN_COUNT_], width[WORK_COLUMN_COUNT_];
};

static struct columns find_columns(const struct pen *pen)
{
    const int all = pen->frame->columns;
    const int kind = all >= 100 ? 16 : 11;
    const int rest = all - KIND_COLUMN - kind - TIME_WIDTH - 4;
    const int amount = rest * 11 / 20;
    const struct columns columns = {.at = {KIND_COLUMN, KIND_COLUMN + kind + 1,
                                           KIND_COLUMN + kind + amount + 2, all - TIME_WIDTH - 1},
                                    .width = {kind, amount, rest - amount, TIME_WIDTH}};

    return columns;
}

static int first_row(const struct app *app)
{
    for (int i = 0; i < app->route.count; i++)
        if (app->route.cells[i].row >= MOVE_COUNT_)
            return app->route.cells[i].row;
    return app->route.rows;
}

int work_lines_height(const struct app *app)
{
    return app->route.rows - first_row(app);
}

/* Times are kept to the second to order work and passes, but shown without seconds. */
static void add_minute(const char *time, struct strbuf *out)
{
    const bool has_seconds = strlen(time) == 8 && time[2] == ':' && time[5] == ':';

    strbuf_add_bytes(out, time, has_seconds ? 5 : strlen(time));
}

void work_add_time(const struct app *app, const char *text, struct strbuf *out)
{
    const struct reading_key key = reading_key_visit(FIELD_VISIT_DATE, app->visit);
    const char *date = record_text(&app->record, &key);

    if (strlen(text) <= 11 || text[10] != 'T') {
        add_minute(text, out);
        return;
    }
    /* A visit's work needs no year. */
    if (!date || strncmp(date, text, 10) != 0) {
        strbuf_add_bytes(out, text + 5, 5);
        strbuf_add_char(out, ' ');
    }
    add_minute(text + 11, out);
}

static const char *cell_text(const struct app *app, const struct route_cell *cell)
{
    const char *text = record_text(&app->record, &cell->key);

    if (app_cell(app) == cell && app->entry.length > 0)
        return app->entry.text;
    if (!text)
        return "-";
    if (cell->column == WORK_KIND && work_mark_named(text) != MOVE_COUNT_)
        return outfit_move_name(&app->now.setup.outfit, work_mark_named(text));
    return text;
}

static bool is_own_room(const struct app *app, const struct route_cell *cell)
{
    return !work_line_exists(&app->record, app->visit, cell->key.part);
}

static void draw_cell(const struct pen *pen, const struct app *app, const struct columns *columns,
                      const struct route_cell *cell, int row)
{
    const int column = columns->at[cell->column], width = columns->width[cell->column];
    const bool in_hand = app_cell(app) == cell, own = is_own_room(app, cell);
    const char *text = cell_text(app, cell);
    char memory[48];
    struct strbuf time = STRBUF(memory);

    if (cell->column == WORK_TIME && !(in_hand && app->entry.length > 0)) {
        work_add_time(app, text, &time);
        text = memory;
    }
    if (own)
        pen_put(pen, row, MARK_COLUMN, 3, ROLE_DIM, " + ");
    else if (cell->column == WORK_KIND)
        pen_put(pen, row, MARK_COLUMN, 3, ROLE_GOOD, "[x]");
    if (own && app->entry.length == 0)
        text = "your own work: go to this row and type it";
    pen_put_cut(pen, row, column, own ? pen->frame->columns - column - 1 : width,
                strcmp(text, "-") == 0 || own ? ROLE_DIM : ROLE_VALUE, text);
    if (!in_hand)
        return;
    frame_set_role(pen->frame, row, column, width, ROLE_CELL);
    pen->frame->cursor_row = row;
    pen->frame->cursor_column = column;
}

/* The rows that the text in hand needs in full; 0 if its cell can hold it. */
static int full_rows(const struct pen *pen, const struct app *app, const struct columns *columns)
{
    const struct route_cell *cell = app_cell(app);

    if (!cell || cell->row < MOVE_COUNT_ || is_own_room(app, cell) ||
        utf8_columns(cell_text(app, cell)) <= columns->width[cell->column])
        return 0;
    const int rows = pen_wrap(pen, 0, 0, pen->frame->columns - FULL_COLUMN - 2, 0, ROLE_TEXT,
                              cell_text(app, cell));
    return rows < WORK_FULL_ROWS ? rows : WORK_FULL_ROWS;
}

static int draw_full(const struct pen *pen, const struct app *app, int row, int rows)
{
    return pen_wrap(pen, row, FULL_COLUMN, pen->frame->columns - FULL_COLUMN - 2, rows, ROLE_TEXT,
                    cell_text(app, app_cell(app)));
}

/* The first line shown. */
static int find_top(const struct app *app, int first, int height, int rows)
{
    const struct route_cell *cell = app_cell(app);
    const int at = cell && cell->row >= first ? cell->row - first : height - 1;
    int top = at - rows + 1;

    /* The last line and the empty one after it are scrolled into view together. */
    if (top < height - 1 - rows + 1 && at >= height - rows)
        top = height - rows;
    return top > 0 ? top : 0;
}

int work_lines_draw(const struct pen *pen, const struct app *app, int row, int rows)
{
    const struct columns columns = find_columns(pen);
    const int first = first_row(app), height = work_lines_height(app);
    const int full = rows > WORK_FULL_ROWS + 1 ? full_rows(pen, app, &columns) : 0;
    const int shown = height < rows - 1 - full ? height : rows - 1 - full;
    const int top = find_top(app, first, height, shown);
    const struct route_cell *in_hand = app_cell(app);
    int shift = 0;

    pen_rule(pen, row, 0, pen->frame->columns);
    pen_put(pen, row, 1, 40, ROLE_LABEL, " work done in this visit ");
    if (top > 0)
        pen_put_right(pen, row, 0, pen->frame->columns - 1, ROLE_KEY, " Up: more ");
    for (int i = 0; i < app->route.count; i++) {
        const struct route_cell *cell = &app->route.cells[i];
        const int line = cell->row - first - top;

        if (cell->row < first || line < 0 || line >= shown)
            continue;
        draw_cell(pen, app, &columns, cell, row + 1 + line + shift);
        /* After the line's last cell the lines below move down for the text in full. */
        if (full > 0 && in_hand && in_hand->row == cell->row && cell->column == WORK_TIME)
            shift = draw_full(pen, app, row + 2 + line, full);
    }
    return 1 + shown + shift;
}
