/* SPDX-License-Identifier: MIT */
#include "ui/moves_view.h"

#include <string.h>

#include "base/utf8.h"

/* What follows from a move stands indented under it, with the whole width to itself. */
enum { THEN_COLUMN = 5 };

struct moves_page {
    const struct pen *pen;
    const struct app *app;
    const struct board_grid *grid;
    int row, end;
    bool then, cautions; /* whether there is room for these lines */
};

static bool is_due(const struct move_line *line)
{
    return line->state == MOVE_DUE || line->state == MOVE_WITHIN;
}

static const char *state_words(const struct move_line *line)
{
    switch (line->state) {
    case MOVE_UNKNOWN:
        return line->amount;
    case MOVE_NOT_DUE:
        return line->amount[0] ? line->amount : "on target, leave it";
    case MOVE_WITHIN:
        return "within measuring error";
    case MOVE_DUE:
        break;
    }
    return "";
}

static enum role line_role(const struct moves_page *page, const struct move_line *line)
{
    if (page->app->previewing)
        return ROLE_PREVIEW;
    switch (line->state) {
    case MOVE_DUE:
        return ROLE_OFF;
    case MOVE_NOT_DUE:
        return ROLE_GOOD;
    case MOVE_WITHIN:
        return ROLE_ASSUMED;
    case MOVE_UNKNOWN:
        break;
    }
    return ROLE_DIM;
}

static void draw_strings(const struct moves_page *page, const struct move_line *line)
{
    const int strings = app_shown(page->app)->setup.board.strings;
    const int cell = page->grid->cell;

    for (int s = strings; s >= 1; s--) {
        const int column = page->grid->label + (strings - s) * cell;
        const bool lower = page->grid->staggered && (strings - s) % 2 == 1;

        if (page->row + lower < page->end)
            pen_put_right(page->pen, page->row + lower,
                          page->grid->staggered ? column - cell : column,
                          page->grid->staggered ? 2 * cell - 1 : cell - 1, line_role(page, line),
                          line->string[s]);
    }
}

/* Whether the amount's words find room right of the strings. */
static bool is_aside(const struct moves_page *page, const struct move_line *line)
{
    return utf8_columns(line->amount) <= page->grid->side - 2;
}

static void draw_amounts(const struct moves_page *page, const struct move_line *line, int number)
{
    const struct board_grid *grid = page->grid;
    char memory[32];
    struct strbuf title = STRBUF(memory);
    const int wide = page->pen->frame->columns - grid->label;

    strbuf_addf(&title, "%d %s", number, line->title);
    pen_put(page->pen, page->row, 1, grid->label - 2, ROLE_LABEL, memory);
    if (!is_due(line)) {
        pen_put(page->pen, page->row, grid->label + 1, wide, line_role(page, line),
                state_words(line));
        return;
    }
    if (line->by_string) {
        draw_strings(page, line);
        if (is_aside(page, line))
            pen_put(page->pen, page->row, grid->side_column + 1, grid->side - 2,
                    line_role(page, line), line->amount);
        return;
    }
    pen_put(page->pen, page->row, grid->label + 1, wide, line_role(page, line), line->amount);
}

static void draw_then(const struct moves_page *page, const struct move_line *line)
{
    const int column = THEN_COLUMN;
    const int wide = page->pen->frame->columns - column;
    int used = 0;

    if (line->by_string && !is_aside(page, line)) {
        used = pen_put(page->pen, page->row, column, wide, line_role(page, line), line->amount);
        used += 2;
    }
    if (line->state == MOVE_WITHIN)
        used += 2 + pen_put(page->pen, page->row, column + used, wide - used, ROLE_ASSUMED,
                            "within measuring error");
    /* Half an expectation could be read as another one. */
    if (used + utf8_columns(line->then) + (int)strlen("then ") >= wide)
        return;
    used += pen_put(page->pen, page->row, column + used, wide - used, ROLE_DIM, "then ");
    pen_put(page->pen, page->row, column + used, wide - used, ROLE_VALUE, line->then);
}

static void draw_move(struct moves_page *page, const struct move_line *line, int number)
{
    if (page->row >= page->end)
        return;
    draw_amounts(page, line, number);
    page->row++;
    if (!is_due(line))
        return;
    page->row += line->by_string && page->grid->staggered;
    if (page->then && page->row < page->end) {
        draw_then(page, line);
        page->row++;
    }
    if (page->cautions && page->row < page->end && line->caution[0]) {
        pen_put(page->pen, page->row, THEN_COLUMN, page->pen->frame->columns - THEN_COLUMN,
                ROLE_CAUTION, line->caution);
        page->row++;
    }
}

static int due_count(const struct move_list *moves)
{
    int count = 0;

    for (int i = 0; i < moves->count; i++)
        count += is_due(&moves->lines[i]);
    return count;
}

/* The rows that the moves take with nothing but their amounts. */
static int amount_rows(const struct move_list *moves, const struct board_grid *grid)
{
    int rows = moves->count;

    for (int i = 0; i < moves->count; i++)
        rows += grid->staggered && moves->lines[i].by_string && is_due(&moves->lines[i]);
    return rows;
}

bool moves_view_draw(const struct pen *pen, const struct app *app, const struct board_grid *grid,
                     int row, int rows)
{
    const struct move_list *moves = &app->moves;
    const int due = due_count(moves), amounts = amount_rows(moves, grid);
    const int needed = 1 + amounts + due;
    struct moves_page page = {.pen = pen,
                              .app = app,
                              .grid = grid,
                              .row = row + 1,
                              .end = row + rows,
                              .then = rows >= needed,
                              .cautions = rows >= needed + due};
    /* With too little room for every line, the first due move still says what to expect. */
    int spare = rows - 1 - amounts;

    pen_rule(pen, row, 0, pen->frame->columns);
    pen_put(pen, row, 1, 40, ROLE_LABEL,
            app->previewing ? " moves if this is taken " : " next moves ");
    for (int i = 0; i < moves->count; i++) {
        if (!page.cautions)
            page.then = is_due(&moves->lines[i]) && spare-- > 0;
        draw_move(&page, &moves->lines[i], i + 1);
    }
    return page.cautions;
}

const char *moves_view_caution(const struct app *app)
{
    for (int i = 0; i < app->moves.count; i++)
        if (app->moves.lines[i].state == MOVE_DUE && app->moves.lines[i].caution[0])
            return app->moves.lines[i].caution;
    return "";
}
