/* SPDX-License-Identifier: MIT */
#include "leaf/strings/strings_view.h"

#include "leaf/strings/leaf_strings.h"
#include "leaf/strings/strings_words.h"
#include "base/utf8.h"
#include "screen/grid_view.h"
#include "leaf/strings/pulls_view.h"
#include "screen/strip_view.h"

enum {
    NUMBER = 3, /* the strings' numbers, at the left */
    HEADING_ROWS = 3,
    FOOT_ROWS = 4,     /* total, neck, the string in hand, keys */
    MASS_COLUMNS = 59, /* columns up to the unit mass, which are not given up for figures */
    EDGE = 2,
};

struct column {
    const char *name;
    int width; /* the blank before it included */
};

static const struct column columns[STRING_COLUMN_COUNT_] = {
    [STRING_COLUMN_NOTE] = {"note", 5},
    [STRING_COLUMN_GAUGE] = {"gauge", 6},
    [STRING_COLUMN_CORE] = {"core", 6},
    [STRING_COLUMN_HEX] = {"hex", 4},
    [STRING_COLUMN_BUILD] = {"build", 12},
    [STRING_COLUMN_WRAP] = {"wrap", 11},
    [STRING_COLUMN_SETBACK] = {"setback", 8},
    [STRING_COLUMN_MASS] = {"mass", 7},
    [STRING_COLUMN_WEIGH_MASS] = {"weighed", 8},
    [STRING_COLUMN_WEIGH_LENGTH] = {"length", 8},
    [STRING_COLUMN_LABEL_TENSION] = {"label", 7},
    [STRING_COLUMN_LABEL_NOTE] = {"at", 5},
    [STRING_COLUMN_LABEL_SCALE] = {"on scale", 9},
    [STRING_COLUMN_CORE_MATERIAL] = {"core of", 12},
    [STRING_COLUMN_MODULUS] = {"core E", 8},
    [STRING_COLUMN_FROM_FRET] = {"from fret", 10},
};

/* The layout of the table on this screen. */
struct sheet {
    const struct pen *pen;
    const struct app *app;
    int row;         /* of the first string */
    int first, last; /* columns shown */
    struct pulls now, then;
    bool asked; /* with a what-if beside it */
};

static int columns_width(int first, int last)
{
    int width = 0;

    for (int i = first; i <= last; i++)
        width += columns[i].width;
    return width;
}

/* Chooses the columns shown: always the one in hand; those before it are given up first. */
static void fit_columns(struct sheet *sheet, int room)
{
    const struct route_cell *cell = app_cell(sheet->app);
    const int at = cell ? cell->column : 0;

    while (sheet->first < at && columns_width(sheet->first, at) > room)
        sheet->first++;
    sheet->last = at;
    while (sheet->last + 1 < STRING_COLUMN_COUNT_ &&
           columns_width(sheet->first, sheet->last + 1) <= room)
        sheet->last++;
}

static void lay_out(struct sheet *sheet)
{
    const int wide = sheet->pen->frame->columns;
    const struct what_if_state *what_if = &strings_state(sheet->app)->what_if;
    int room = wide - NUMBER;

    sheet->asked = what_if->known;
    pulls_lay_now(&sheet->now, sheet->app);
    room -= sheet->now.width;
    if (sheet->asked) {
        pulls_lay_then(&sheet->then, sheet->app, wide >= 100);
        room -= EDGE + sheet->then.width;
    }
    if (room - PULLS_MASS_WIDTH >= MASS_COLUMNS) {
        pulls_add_mass(&sheet->now);
        room -= PULLS_MASS_WIDTH;
    }
    fit_columns(sheet, room);
    sheet->now.column = NUMBER + columns_width(sheet->first, sheet->last);
    sheet->then.column = sheet->now.column + sheet->now.width + EDGE;
}

static void draw_columns_heading(const struct sheet *sheet)
{
    const int row = sheet->row - HEADING_ROWS + 1;
    int column = NUMBER;

    for (int i = sheet->first; i <= sheet->last; i++) {
        const struct field *field = field_get(strings_column_field((enum string_column)i));
        const enum unit unit = field_bare_unit(field, &sheet->app->units);

        pen_put_right(sheet->pen, row, column + 1, columns[i].width - 1, ROLE_LABEL,
                      columns[i].name);
        pen_put_right(sheet->pen, row + 1, column + 1, columns[i].width - 1, ROLE_DIM,
                      unit_label(unit == UNIT_TH ? UNIT_IN : unit));
        column += columns[i].width;
    }
}

/* The title of the what-if goes over its columns, and extends to the left if it is longer. */
static int draw_question(const struct sheet *sheet)
{
    const int end = sheet->pen->frame->columns;
    char memory[240];
    struct strbuf title = STRBUF(memory);
    int column = sheet->then.column;

    if (!sheet->asked)
        return end;
    strbuf_add(&title, "what if: ");
    what_if_title(&strings_state(sheet->app)->what_if, strings_words_force(sheet->app), &title);
    if (utf8_columns(memory) > end - column)
        column = utf8_columns(memory) < end - 1 ? end - utf8_columns(memory) : 1;
    pen_put_cut(sheet->pen, sheet->row - HEADING_ROWS, column, end - column, ROLE_PREVIEW, memory);
    return column;
}

/* The words that say whether columns to either side are not shown. */
static const char *more_columns(const struct sheet *sheet)
{
    if (sheet->last + 1 < STRING_COLUMN_COUNT_)
        return sheet->first > 0 ? "< more >" : "more >";
    return sheet->first > 0 ? "< more" : "";
}

static void draw_heading(const struct sheet *sheet)
{
    const int row = sheet->row - HEADING_ROWS;
    const int free = draw_question(sheet), now_end = sheet->now.column + sheet->now.width;

    if (free > NUMBER + 9)
        pen_put(sheet->pen, row, 1, 8, ROLE_KEY, more_columns(sheet));
    if (!sheet->asked || free > now_end)
        pen_put_right(sheet->pen, row, sheet->now.column, sheet->now.width,
                      sheet->app->previewing ? ROLE_PREVIEW : ROLE_LABEL,
                      sheet->app->previewing ? "if taken" : "now");
    draw_columns_heading(sheet);
    pulls_draw_heading(sheet->pen, &sheet->now, row + 1);
    if (sheet->asked)
        pulls_draw_heading(sheet->pen, &sheet->then, row + 1);
}

/* The line between the present set and the what-if. */
static void draw_edge(const struct sheet *sheet, int rows)
{
    for (int i = 1; sheet->asked && i < rows; i++)
        frame_put_rune(sheet->pen->frame, sheet->row - HEADING_ROWS + i, sheet->then.column - 1,
                       ROLE_RULE, sheet->pen->utf8 ? 0x2502 : '|');
}

static int column_at(const struct sheet *sheet, int column)
{
    return NUMBER + columns_width(sheet->first, column - 1) + 1;
}

static void draw_strings(const struct sheet *sheet)
{
    const int strings = sheet->app->route.rows;
    const struct route *route = &sheet->app->route;

    for (int s = strings; s >= 1; s--) {
        char memory[8];
        struct strbuf number = STRBUF(memory);
        const int row = sheet->row + strings - s;

        strbuf_addf(&number, "%d", s);
        pen_put_right(sheet->pen, row, 0, NUMBER,
                      s == app_string(sheet->app) ? ROLE_MARK : ROLE_LABEL, memory);
        pulls_draw(sheet->pen, &sheet->now, row, s);
        if (sheet->asked)
            pulls_draw(sheet->pen, &sheet->then, row, s);
    }
    for (int i = 0; i < route->count; i++) {
        const struct route_cell *cell = &route->cells[i];

        if (cell->column >= sheet->first && cell->column <= sheet->last)
            grid_draw_cell(sheet->pen, sheet->app, cell, sheet->row + cell->row,
                           column_at(sheet, cell->column), columns[cell->column].width - 1);
    }
}

static void draw_total(const struct sheet *sheet, int row)
{
    pen_put_right(sheet->pen, row, NUMBER, sheet->now.column - NUMBER, ROLE_LABEL, "total");
    pulls_draw(sheet->pen, &sheet->now, row, PULLS_TOTAL);
    if (sheet->asked)
        pulls_draw(sheet->pen, &sheet->then, row, PULLS_TOTAL);
}

static void draw_keys(const struct sheet *sheet, int row)
{
    static const struct {
        enum command_id id;
        const char *hint;
    } keys[] = {{COMMAND_WHAT_IF_TAKE, "take over"}, {COMMAND_WHAT_IF_DROP, "drop"},
                {COMMAND_TUNING_NAMED, "tuning"},    {COMMAND_SET_NAMED, "set"},
                {COMMAND_PULL_WANTED, "pull"},       {COMMAND_SEMITONE_UP, "up"},
                {COMMAND_SEMITONE_DOWN, "down"},     {COMMAND_ALL_UP, "all up"},
                {COMMAND_ALL_DOWN, "all down"}};
    const bool on = what_if_is_on(&strings_state(sheet->app)->what_if);
    const char *title = app_takes_letters(sheet->app) ? "what if, behind *:" : "what if:";
    int column = 2 + pen_put(sheet->pen, row, 1, 20, ROLE_LABEL, title);

    const size_t count = sizeof keys / sizeof keys[0] - (sheet->pen->frame->columns < 110 ? 2 : 0);

    for (size_t i = on ? 0 : 2; i < count; i++)
        column +=
            strip_view_key(sheet->pen, row, column, command_get(keys[i].id)->letter, keys[i].hint);
}

static void draw_foot(const struct sheet *sheet, int row)
{
    const int width = sheet->pen->frame->columns - 2;
    char neck_memory[200], string_memory[160];
    struct strbuf neck = STRBUF(neck_memory), string = STRBUF(string_memory);

    strings_words_neck(sheet->app, &neck);
    strings_words_string(sheet->app, &string);
    pen_put_cut(sheet->pen, row, 1, width, sheet->asked ? ROLE_PREVIEW : ROLE_TEXT, neck_memory);
    pen_put_cut(sheet->pen, row + 1, 1, width, ROLE_DIM, string_memory);
    draw_keys(sheet, row + 2);
}

const char *strings_view_draw(const struct pen *pen, const struct app *app, int row, int rows)
{
    struct sheet sheet = {.pen = pen, .app = app, .row = row + HEADING_ROWS};
    const int strings = app->route.rows;
    const int foot = sheet.row + strings, spare = rows - HEADING_ROWS - strings - FOOT_ROWS;

    if (strings < 1) {
        pen_put(pen, row + 1, 1, pen->frame->columns - 2, ROLE_KEY,
                "How many strings, and on which scale? Enter both on Intake first.");
        return "";
    }
    lay_out(&sheet);
    draw_heading(&sheet);
    draw_edge(&sheet, HEADING_ROWS + strings + 1);
    draw_strings(&sheet);
    draw_total(&sheet, foot);
    draw_foot(&sheet, foot + 1);
    if (spare >= strings)
        pulls_draw_bars(pen, app, foot + FOOT_ROWS + (spare > strings ? 1 : 0));
    return strings_words_caution(app);
}
