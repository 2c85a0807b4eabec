/* SPDX-License-Identifier: MIT */
#include "screen/work_lines.h"

#include <limits.h>
#include <string.h>

#include "model/reading/work_line.h"
#include "base/utf8.h"

enum {
    MARK_COLUMN = 1,
    KIND_COLUMN = 5,
    TIME_WIDTH = 11,
    COUNTED_ROWS = 64 /* more than any screen shows are not counted */
};

/* The columns of a line. */
struct columns {
    int at[WORK_COLUMN_COUNT_], width[WORK_COLUMN_COUNT_];
};

/* The work lines and how they are drawn: a text that is longer than its column goes on below it. */
struct lines {
    const struct pen *pen;
    const struct app *app;
    struct columns columns;
    int start;        /* the first cell of all lines in the route */
    int first, count; /* its row, and how many lines there are */
};

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

static bool is_typed_in(const struct app *app, const struct route_cell *cell)
{
    return app_cell(app) == cell && app->entry.length > 0;
}

/* What a cell shows; a time in `memory`. */
static const char *shown_text(const struct app *app, const struct route_cell *cell, char *memory,
                              size_t size)
{
    struct strbuf time = strbuf_over(memory, size);

    if (is_own_room(app, cell))
        return is_typed_in(app, cell) ? app->entry.text
                                      : "your own work: go to this row and type it";
    if (cell->column != WORK_TIME || is_typed_in(app, cell))
        return cell_text(app, cell);
    work_add_time(app, cell_text(app, cell), &time);
    return memory;
}

static int width_of(const struct lines *lines, const struct route_cell *cell)
{
    return is_own_room(lines->app, cell)
               ? lines->pen->frame->columns - lines->columns.at[cell->column] - 1
               : lines->columns.width[cell->column];
}

static int cell_rows(const struct lines *lines, const struct route_cell *cell)
{
    char memory[48];
    const int rows = pen_wrap(lines->pen, 0, 0, width_of(lines, cell), 0, ROLE_TEXT,
                              shown_text(lines->app, cell, memory, sizeof memory));

    return rows > 1 ? rows : 1;
}

/* The line's first cell; the others follow it. The last line may be the empty one, with one cell.
 */
static const struct route_cell *first_cell(const struct lines *lines, int line)
{
    return &lines->app->route.cells[lines->start + line * WORK_COLUMN_COUNT_];
}

static int line_rows(const struct lines *lines, int line)
{
    const struct route_cell *end = lines->app->route.cells + lines->app->route.count;
    int most = 1;

    for (const struct route_cell *cell = first_cell(lines, line);
         cell < end && cell->row == lines->first + line; cell++) {
        const int rows = cell_rows(lines, cell);
        most = rows > most ? rows : most;
    }
    return most;
}

/* The rows of the last lines, as far as they are counted. */
static int count_rows(const struct lines *lines)
{
    int rows = 0;

    for (int line = lines->count - 1; line >= 0 && rows < COUNTED_ROWS; line--)
        rows += line_rows(lines, line);
    return rows;
}

/* The columns where the work is `kind` wide, and the amount has that many twentieths of what amount
 * and note share. */
static struct columns make_columns(const struct pen *pen, int kind, int twentieths)
{
    const int all = pen->frame->columns;
    const int rest = all - KIND_COLUMN - kind - TIME_WIDTH - 4;
    const int amount = rest * twentieths / 20;

    return (struct columns){.at = {KIND_COLUMN, KIND_COLUMN + kind + 1,
                                   KIND_COLUMN + kind + amount + 2, all - TIME_WIDTH - 1},
                            .width = {kind, amount, rest - amount, TIME_WIDTH}};
}

/* The columns that need the fewest rows; of those alike the first tried. */
static void choose_columns(struct lines *lines)
{
    static const int shares[] = {11, 15, 7};
    enum { SHARES = sizeof shares / sizeof shares[0], KINDS = 3 };
    const int narrow = lines->pen->frame->columns >= 100 ? 16 : 11;
    const int fewest = lines->count < COUNTED_ROWS ? lines->count : COUNTED_ROWS;
    struct columns best = {.at = {0}};
    int least = INT_MAX;

    for (int i = 0; i < KINDS * SHARES && least > fewest; i++) {
        lines->columns = make_columns(lines->pen, narrow + i / SHARES * 8, shares[i % SHARES]);
        const int rows = count_rows(lines);

        if (rows < least)
            best = lines->columns;
        least = rows < least ? rows : least;
    }
    lines->columns = best;
}

static struct lines find_lines(const struct pen *pen, const struct app *app)
{
    const struct route *route = &app->route;
    struct lines lines = {.pen = pen, .app = app, .first = route->rows};

    while (lines.start < route->count && route->cells[lines.start].row < MOVE_COUNT_)
        lines.start++;
    if (lines.start < route->count)
        lines.first = route->cells[lines.start].row;
    lines.count = route->rows - lines.first;
    choose_columns(&lines);
    return lines;
}

int work_lines_height(const struct pen *pen, const struct app *app)
{
    const struct lines lines = find_lines(pen, app);

    return count_rows(&lines);
}

static void put_mark(const struct lines *lines, const struct route_cell *cell, int row)
{
    if (is_own_room(lines->app, cell))
        pen_put(lines->pen, row, MARK_COLUMN, 3, ROLE_DIM, " + ");
    else if (cell->column == WORK_KIND)
        pen_put(lines->pen, row, MARK_COLUMN, 3, ROLE_GOOD, "[x]");
}

static void draw_cell(const struct lines *lines, const struct route_cell *cell, int row, int rows)
{
    const struct pen *pen = lines->pen;
    const int column = lines->columns.at[cell->column], width = width_of(lines, cell);
    const int needed = cell_rows(lines, cell), shown = needed < rows ? needed : rows;
    char memory[48];
    const char *text = shown_text(lines->app, cell, memory, sizeof memory);
    const bool dim = strcmp(text, "-") == 0 || is_own_room(lines->app, cell);

    put_mark(lines, cell, row);
    pen_wrap(pen, row, column, width, shown, dim ? ROLE_DIM : ROLE_VALUE, text);
    if (needed > shown)
        pen_put(pen, row + shown - 1, column + width - 1, 1, ROLE_KEY,
                pen->utf8 ? "\xE2\x80\xA6" : "~");
    if (app_cell(lines->app) != cell)
        return;
    for (int i = 0; i < shown; i++)
        frame_set_role(pen->frame, row + i, column, lines->columns.width[cell->column], ROLE_CELL);
    pen->frame->cursor_row = row;
    pen->frame->cursor_column = column;
}

static void draw_line(const struct lines *lines, int line, int row, int rows)
{
    const struct route_cell *end = lines->app->route.cells + lines->app->route.count;

    for (const struct route_cell *cell = first_cell(lines, line);
         cell < end && cell->row == lines->first + line; cell++)
        draw_cell(lines, cell, row, rows);
}

/* The first line shown: the one in hand is shown whole, else the last, and what fits before it. */
static int find_top(const struct lines *lines, int rows)
{
    const struct route_cell *cell = app_cell(lines->app);
    const int last = lines->count - 1;
    const int at = cell && cell->row >= lines->first ? cell->row - lines->first : last;
    int used = line_rows(lines, at);

    /* The last line and the empty one after it are scrolled into view together. */
    if (at == last - 1 && used < rows)
        used += line_rows(lines, last);
    int top = at;
    while (top > 0) {
        used += line_rows(lines, top - 1);
        if (used > rows)
            break;
        top--;
    }
    return top;
}

int work_lines_draw(const struct pen *pen, const struct app *app, int row, int rows)
{
    const struct lines lines = find_lines(pen, app);
    int used = 1;

    pen_rule(pen, row, 0, pen->frame->columns);
    pen_put(pen, row, 1, 40, ROLE_LABEL, " work done in this visit ");
    if (lines.count == 0)
        return used;
    const int top = find_top(&lines, rows - 1);
    if (top > 0)
        pen_put_right(pen, row, 0, pen->frame->columns - 1, ROLE_KEY, " Up: more ");
    for (int line = top; line < lines.count && used < rows; line++) {
        const int needed = line_rows(&lines, line);
        const int room = needed < rows - used ? needed : rows - used;

        draw_line(&lines, line, row + used, room);
        used += room;
    }
    return used;
}
