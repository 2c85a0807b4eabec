/* SPDX-License-Identifier: MIT */
#include "leaf/bench/moves_view.h"

#include <string.h>

#include "base/utf8.h"

/* The consequence of a move is indented on its own row under it. */
enum { THEN_COLUMN = 5 };

struct moves_page {
    const struct pen *pen;
    const struct app *app;
    const struct board_grid *grid;
    int row, end;
    bool then, cautions; /* whether there is room for these lines */
    int slack;           /* rows to spare for a second line of what to expect */
};

/* A move and its words. */
struct shown_move {
    enum move_kind kind;
    const struct move *move;
    const struct move_words *words;
};

/* The k-th move that the bench lists, from 0: reset, frets and pitch only if due. False past
 * the last. */
static bool find_shown(const struct app *app, int k, struct shown_move *ret_shown)
{
    const struct move *moves = app_shown(app)->moves.move;
    int kind = 0;

    for (;; kind++) {
        if (kind >= MOVE_COUNT_)
            return false;
        if (!move_is_measured((enum move_kind)kind) && moves[kind].state != MOVE_DUE)
            continue;
        if (k-- == 0)
            break;
    }
    *ret_shown = (struct shown_move){(enum move_kind)kind, &moves[kind], &app->moves[kind]};
    return true;
}

static bool is_due(const struct shown_move *line)
{
    return line->move->state == MOVE_DUE;
}

/* The state of a move; "-" if it is unknown for the same reason as the one above. */
static const char *state_words(const struct shown_move *line)
{
    return line->words->amount[0] ? line->words->amount : "-";
}

static enum role line_role(const struct moves_page *page, const struct shown_move *line)
{
    if (page->app->previewing)
        return ROLE_PREVIEW;
    switch (line->move->state) {
    case MOVE_DUE:
        return ROLE_OFF;
    case MOVE_GOOD:
        return ROLE_GOOD;
    case MOVE_WAITS:
        return ROLE_ASSUMED;
    case MOVE_UNKNOWN:
        break;
    }
    return ROLE_DIM;
}

static void draw_strings(const struct moves_page *page, const struct shown_move *line)
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
                          line->words->string[s]);
    }
}

/* Whether the amount's words fit to the right of the strings. */
static bool is_aside(const struct moves_page *page, const struct shown_move *line)
{
    return utf8_columns(line->words->amount) <= page->grid->side - 2;
}

/* Whether what to expect has a row to itself, and is too wide for it. */
static bool is_long(const struct pen *pen, const struct board_grid *grid,
                    const struct shown_move *line)
{
    const int wide = pen->frame->columns - THEN_COLUMN - (int)strlen("then ");
    const bool beside =
        line->words->by_string && utf8_columns(line->words->amount) > grid->side - 2;

    return is_due(line) && !beside && utf8_columns(line->words->then) > wide;
}

static void draw_amounts(const struct moves_page *page, const struct shown_move *line, int number)
{
    const struct board_grid *grid = page->grid;
    char memory[32];
    struct strbuf title = STRBUF(memory);
    const int wide = page->pen->frame->columns - grid->label;

    strbuf_addf(&title, "%d %s", number, work_mark_name(line->kind));
    pen_put(page->pen, page->row, 1, grid->label - 2, ROLE_LABEL, memory);
    if (!is_due(line)) {
        pen_put(page->pen, page->row, grid->label + 1, wide, line_role(page, line),
                state_words(line));
        return;
    }
    if (line->words->by_string) {
        draw_strings(page, line);
        if (is_aside(page, line))
            pen_put(page->pen, page->row, grid->side_column + 1, grid->side - 2,
                    line_role(page, line), line->words->amount);
        return;
    }
    pen_put(page->pen, page->row, grid->label + 1, wide, line_role(page, line),
            line->words->amount);
}

static void draw_then(struct moves_page *page, const struct shown_move *line)
{
    const int column = THEN_COLUMN;
    const int wide = page->pen->frame->columns - column;
    char memory[sizeof line->words->then + 8];
    struct strbuf text = STRBUF(memory);
    int used = 0;

    if (line->words->by_string && !is_aside(page, line)) {
        used =
            pen_put(page->pen, page->row, column, wide, line_role(page, line), line->words->amount);
        used += 2;
    }
    strbuf_add(&text, "then ");
    strbuf_add(&text, line->words->then);
    if (page->slack > 0 && is_long(page->pen, page->grid, line)) {
        pen_wrap(page->pen, page->row++, column, wide, 2, ROLE_VALUE, memory);
        page->slack--;
        return;
    }
    /* Half an expectation could be read as another one. */
    if (used + utf8_columns(memory) > wide)
        return;
    used += pen_put(page->pen, page->row, column + used, wide - used, ROLE_DIM, "then ");
    pen_put(page->pen, page->row, column + used, wide - used, ROLE_VALUE, line->words->then);
}

static void draw_move(struct moves_page *page, const struct shown_move *line, int number)
{
    if (page->row >= page->end)
        return;
    draw_amounts(page, line, number);
    page->row++;
    if (!is_due(line))
        return;
    page->row += line->words->by_string && page->grid->staggered;
    if (page->then && page->row < page->end) {
        draw_then(page, line);
        page->row++;
    }
    if (page->cautions && page->row < page->end && line->words->caution[0]) {
        pen_put(page->pen, page->row, THEN_COLUMN, page->pen->frame->columns - THEN_COLUMN,
                ROLE_CAUTION, line->words->caution);
        page->row++;
    }
}

/* The rows that the moves need for their amounts alone; *ret_due is the number of due moves,
 * *ret_long that of those with more than a row to expect. */
static int amount_rows(const struct pen *pen, const struct app *app, const struct board_grid *grid,
                       int *ret_due, int *ret_long)
{
    struct shown_move line;
    int rows = 0;

    *ret_due = *ret_long = 0;
    for (int k = 0; find_shown(app, k, &line); k++) {
        *ret_due += is_due(&line);
        *ret_long += is_long(pen, grid, &line);
        rows += 1 + (grid->staggered && line.words->by_string && is_due(&line));
    }
    return rows;
}

bool moves_view_draw(const struct pen *pen, const struct app *app, const struct board_grid *grid,
                     int row, int rows)
{
    int due, too_long;
    const int amounts = amount_rows(pen, app, grid, &due, &too_long);
    const int needed = 1 + amounts + due;
    const bool cautions = rows >= needed + too_long + due;
    struct moves_page page = {.pen = pen,
                              .app = app,
                              .grid = grid,
                              .row = row + 1,
                              .end = row + rows,
                              .then = rows >= needed,
                              .cautions = cautions,
                              .slack = rows - needed - (cautions ? due : 0)};
    /* If not all lines fit, the first due move still says what to expect. */
    int spare = rows - 1 - amounts;
    struct shown_move line;

    pen_rule(pen, row, 0, pen->frame->columns);
    pen_put(pen, row, 1, 40, ROLE_LABEL,
            app->previewing ? " moves if this is taken " : " next moves ");
    for (int k = 0; find_shown(app, k, &line); k++) {
        if (!page.cautions)
            page.then = is_due(&line) && spare-- > 0;
        draw_move(&page, &line, k + 1);
    }
    return page.cautions;
}

const char *moves_view_caution(const struct app *app)
{
    struct shown_move line;

    for (int k = 0; find_shown(app, k, &line); k++)
        if (is_due(&line) && line.words->caution[0])
            return line.words->caution;
    return "";
}
