/* SPDX-License-Identifier: MIT */
#include "leaf/bench/moves_view.h"

#include <string.h>

#include "base/utf8.h"
#include "model/reading/work_line.h"
#include "screen/work_lines.h"

/* The consequence of a move is indented on its own row under it. */
enum { THEN_COLUMN = 5 };

struct moves_page {
    const struct pen *pen;
    const struct app *app;
    const struct board_grid *grid;
    int row, end;
    bool cautions; /* whether there is room for them */
    int spare;     /* rows left for what to expect, */
    int left;      /* and the due moves that still want one */
    int slack;     /* rows to spare for a second line of what to expect */
    bool missing;  /* something is not said for want of room */
};

/* A move and its words. */
struct shown_move {
    enum move_kind kind;
    const struct move *move;
    const struct move_words *words;
    bool done; /* and not read again: its amount is no longer to be made */
};

/* Reset, frets and pitch are listed only where something asks for them. */
static bool is_listed(const struct app *app, const struct move *move, int kind)
{
    return outfit_has_move(&app->now.setup.outfit, (enum move_kind)kind) &&
           (move_is_measured((enum move_kind)kind) || move_is_asked(move));
}

static bool is_done(const struct app *app, const struct move *move)
{
    return move_is_done(move) && app->pass >= record_last_read_pass(&app->record, app->visit);
}

/* The k-th move that the bench lists, from 0. False past the last. */
static bool find_shown(const struct app *app, int k, struct shown_move *ret_shown)
{
    const struct move *moves = app_shown(app)->moves.move;
    int kind = 0;

    for (;; kind++) {
        if (kind >= MOVE_COUNT_)
            return false;
        if (is_listed(app, &moves[kind], kind) && k-- == 0)
            break;
    }
    *ret_shown = (struct shown_move){.kind = (enum move_kind)kind,
                                     .move = &moves[kind],
                                     .words = &app->moves[kind],
                                     .done = is_done(app, &moves[kind])};
    return true;
}

static bool is_due(const struct shown_move *line)
{
    return line->move->state == MOVE_DUE && !line->done;
}

/* The state of a move; "-" if it is unknown for the same reason as the one above. */
static void add_state(const struct app *app, const struct shown_move *line, struct strbuf *out)
{
    const struct reading_key key = work_key(WORK_TIME, app->visit, line->move->done_by);

    if (!line->done) {
        strbuf_add(out, line->words->amount[0] ? line->words->amount : "-");
        return;
    }
    strbuf_add(out, "done ");
    work_add_time(app, record_text(&app->record, &key), out);
    strbuf_add(out, ", read again");
}

static enum role line_role(const struct moves_page *page, const struct shown_move *line)
{
    if (page->app->previewing)
        return ROLE_PREVIEW;
    if (line->done)
        return ROLE_GOOD;
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
    const struct outfit *outfit = &app_shown(page->app)->setup.outfit;
    const int cell = page->grid->cell;

    for (int s = outfit->strings; s >= 1; s--) {
        const int column = page->grid->label + outfit_column(outfit, s) * cell;
        const bool lower = page->grid->staggered && outfit_column(outfit, s) % 2 == 1;

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

/* Amounts by string whose words have no room beside them stand in the row under them. */
static bool is_under(const struct moves_page *page, const struct shown_move *line)
{
    return is_due(line) && line->words->by_string && !is_aside(page, line);
}

static void add_more(struct strbuf *out)
{
    strbuf_addf(out, "more on Work: F%d", 1 + LEAF_WORK);
}

/* Appends a label and a text, in at most `wide` columns: whole, or as many of its parts as fit, and
 * where the rest is to be found. Half an amount or expectation could be read as another one. */
static void add_parts(const char *label, const char *text, int wide, struct strbuf *out)
{
    int length = (int)strlen(text);

    strbuf_addf(out, "%s%s", label, text);
    while (length > 0 && utf8_columns(out->text) > wide) {
        do
            length--;
        while (length > 0 && !strchr(",;", text[length]));
        strbuf_clear(out);
        if (length > 0)
            strbuf_addf(out, "%s%.*s; ", label, length, text);
        add_more(out);
    }
}

/* Returns the column behind a due move's amount. */
static int draw_amounts(const struct moves_page *page, const struct shown_move *line, int number)
{
    const struct board_grid *grid = page->grid;
    char memory[32];
    struct strbuf title = STRBUF(memory);
    const int wide = page->pen->frame->columns - grid->label;

    strbuf_addf(&title, "%d %s", number,
                outfit_move_name(&app_shown(page->app)->setup.outfit, line->kind));
    pen_put(page->pen, page->row, 1, grid->label - 2, ROLE_LABEL, memory);
    if (!is_due(line)) {
        char state_memory[sizeof line->words->amount];
        struct strbuf state = STRBUF(state_memory);

        add_state(page->app, line, &state);
        pen_put(page->pen, page->row, grid->label + 1, wide, line_role(page, line), state_memory);
        return 0;
    }
    if (line->words->by_string) {
        draw_strings(page, line);
        if (is_aside(page, line))
            pen_put(page->pen, page->row, grid->side_column + 1, grid->side - 2,
                    line_role(page, line), line->words->amount);
        return page->pen->frame->columns;
    }
    char amount_memory[sizeof line->words->amount + 48];
    struct strbuf amount = STRBUF(amount_memory);

    add_parts("", line->words->amount, wide - 1, &amount);
    return grid->label + 1 +
           pen_put(page->pen, page->row, grid->label + 1, wide, line_role(page, line),
                   amount_memory);
}

static void put_then(const struct moves_page *page, const char *text, int column)
{
    const int wide = page->pen->frame->columns - column;
    const int label = strncmp(text, "then ", strlen("then ")) == 0 ? (int)strlen("then ") : 0;

    pen_put(page->pen, page->row, column, label, ROLE_DIM, text);
    pen_put(page->pen, page->row, column + label, wide - label, ROLE_VALUE, text + label);
}

/* In a row of its own. */
static void draw_then(struct moves_page *page, const struct shown_move *line)
{
    char memory[sizeof line->words->then + 48];
    struct strbuf text = STRBUF(memory);
    int column = THEN_COLUMN;

    if (is_under(page, line))
        column += 2 + pen_put(page->pen, page->row, column, page->pen->frame->columns - column,
                              line_role(page, line), line->words->amount);
    const int wide = page->pen->frame->columns - column;
    if (page->slack > 0 && is_long(page->pen, page->grid, line)) {
        strbuf_addf(&text, "then %s", line->words->then);
        page->row += pen_wrap(page->pen, page->row, column, wide, 2, ROLE_VALUE, memory);
        page->slack--;
        return;
    }
    add_parts("then ", line->words->then, wide, &text);
    put_then(page, memory, column);
    page->row++;
}

/* Behind the amount, which ends before `column`. False where it does not fit there. */
static bool draw_then_behind(const struct moves_page *page, const struct shown_move *line, int row,
                             int column)
{
    char memory[sizeof line->words->then + 48];
    struct strbuf text = STRBUF(memory);
    struct moves_page behind = *page;

    behind.row = row;
    strbuf_addf(&text, "then %s", line->words->then);
    if (column + 2 + utf8_columns(memory) > page->pen->frame->columns)
        return false;
    put_then(&behind, memory, column + 2);
    return true;
}

static void draw_move(struct moves_page *page, const struct shown_move *line, int number)
{
    if (page->row >= page->end)
        return;
    const int row = page->row, behind = draw_amounts(page, line, number);

    page->row += 1 + (is_due(line) && line->words->by_string && page->grid->staggered);
    if (!is_due(line))
        return;
    if (is_under(page, line)) {
        draw_then(page, line);
    } else if (page->spare >= page->left || !draw_then_behind(page, line, row, behind)) {
        if (page->spare > 0)
            draw_then(page, line);
        else
            page->missing = true;
        page->spare -= page->spare > 0;
    }
    page->left -= !is_under(page, line);
    if (page->cautions && page->row < page->end && line->words->caution[0]) {
        pen_put(page->pen, page->row, THEN_COLUMN, page->pen->frame->columns - THEN_COLUMN,
                ROLE_CAUTION, line->words->caution);
        page->row++;
    }
}

/* First come the amounts, then what to expect, then the cautions. */
static void share_rows(struct moves_page *page, int rows)
{
    struct shown_move line;
    int due = 0, too_long = 0, amounts = 1;

    for (int k = 0; find_shown(page->app, k, &line); k++) {
        const bool under = is_under(page, &line);

        due += is_due(&line);
        page->left += is_due(&line) && !under;
        too_long += is_long(page->pen, page->grid, &line);
        amounts += 1 + under + (page->grid->staggered && line.words->by_string && is_due(&line));
    }
    const int needed = amounts + page->left;
    page->spare = rows - amounts;
    page->cautions = rows >= needed + too_long + due;
    page->slack = rows - needed - (page->cautions ? due : 0);
}

bool moves_view_draw(const struct pen *pen, const struct app *app, const struct board_grid *grid,
                     int row, int rows)
{
    struct moves_page page = {
        .pen = pen, .app = app, .grid = grid, .row = row + 1, .end = row + rows};
    struct shown_move line;
    char memory[32];
    struct strbuf more = STRBUF(memory);

    share_rows(&page, rows);
    pen_rule(pen, row, 0, pen->frame->columns);
    pen_put(pen, row, 1, 40, ROLE_LABEL,
            app->previewing ? " moves if this is taken " : " next moves ");
    for (int k = 0; find_shown(app, k, &line); k++)
        draw_move(&page, &line, k + 1);
    strbuf_add(&more, " ");
    add_more(&more);
    strbuf_add(&more, " ");
    if (page.missing)
        pen_put_right(pen, row, 41, pen->frame->columns - 42, ROLE_LABEL, memory);
    return page.cautions;
}

void moves_view_rows(const struct app *app, const struct board_grid *grid, int *ret_least,
                     int *ret_most)
{
    const struct move *moves = app->now.moves.move;
    int due = 0, amounts = 1;

    for (int kind = 0; kind < MOVE_COUNT_; kind++) {
        const bool is_due = moves[kind].state == MOVE_DUE && !is_done(app, &moves[kind]);

        due += is_due;
        amounts += is_listed(app, &moves[kind], kind);
        amounts += grid->staggered && is_due && move_is_measured((enum move_kind)kind) &&
                   move_is_by_string((enum move_kind)kind);
    }
    *ret_least = amounts + due;
    /* One for an expectation that takes two rows. */
    *ret_most = amounts + 2 * due + (due > 0);
}

const char *moves_view_caution(const struct app *app)
{
    struct shown_move line;

    for (int k = 0; find_shown(app, k, &line); k++)
        if (is_due(&line) && line.words->caution[0])
            return line.words->caution;
    return "";
}
