/* SPDX-License-Identifier: MIT */
#include "leaf/pitch/pitch_view.h"

#include "words/amount.h"
#include "words/pitch_words.h"
#include "words/saddle_top.h"
#include "leaf/pitch/leaf_pitch.h"
#include "base/num.h"
#include "leaf/pitch/cents_view.h"
#include "screen/grid_view.h"

enum {
    LABEL = 6,
    SETBACK = 6, /* width of the setback's column */
    FRETS_LEFT = 1 + LABEL + SETBACK,
    FRET_CELL = 5,
    FRETS_LEAST = 7 * FRET_CELL, /* the frets' columns that the figures beside them leave */
    CALCULATED = 9,              /* widths of columns beside the frets */
    PREDICTED = 11,
    HEADING = 2,
    PICTURE_MIN = 5,
    PICTURE_MAX = 16,
    DETAIL = 5, /* heading, move, both ends, prediction, contact */
};

struct page {
    const struct pen *pen;
    const struct app *app;
    const struct derived *derived;
    int strings, frets, fret; /* the fret in hand */
};

/* A column of figures beside the frets. `unit` is a gauge's unit, or the words under the title. */
struct side_column {
    const char *title, *words;
    enum field_measure measure;
    int width;
    enum role (*add)(const struct page *page, int string, struct strbuf *out);
};

static enum role add_calculated(const struct page *page, int string, struct strbuf *out)
{
    const struct fret_pitch *pitch = &page->derived->pitch[string];

    if (page->fret < 1 || page->fret > page->frets || !pitch->cents[page->fret].given ||
        !pitch_state(page->app)->string[string].contact_mm.given)
        return ROLE_DIM;
    amount_add_supported(
        out, pitch->cents[page->fret].value, pitch->cents_u[page->fret],
        &(struct amount_digits){.decimals_most = 1, .columns = CALCULATED - 2, .sign = true});
    return ROLE_VALUE;
}

static enum role state_role(enum pitch_state state)
{
    switch (state) {
    case PITCH_DUE:
        return ROLE_OFF;
    case PITCH_IN_TUNE:
        return ROLE_GOOD;
    case PITCH_WITHIN:
    case PITCH_MOVED:
        return ROLE_ASSUMED;
    case PITCH_UNREAD:
        break;
    }
    return ROLE_DIM;
}

static enum role add_saddle(const struct page *page, int string, struct strbuf *out)
{
    const struct pitch_move *move = &pitch_state(page->app)->string[string];

    pitch_add_short(move, &page->app->units, out);
    return state_role(move->state);
}

static enum role add_contact(const struct page *page, int string, struct strbuf *out)
{
    const struct pitch_move *move = &pitch_state(page->app)->string[string];
    const bool due = move->state == PITCH_DUE && move->has_change;

    if (!move->contact_mm.given)
        return ROLE_DIM;
    amount_add(out, move->contact_mm.value + (due ? move->change_mm : 0),
               page->app->units.bare[MEASURE_LONG], false);
    return due ? ROLE_OFF : ROLE_VALUE;
}

static enum role known_role(const struct figure *figure)
{
    return figure->known == KNOWN_INTERPOLATED ? ROLE_ASSUMED : ROLE_VALUE;
}

static enum role add_figure(const struct page *page, enum figure_id id, int string,
                            struct strbuf *out)
{
    const struct figure *figure = &page->derived->figures.at[id][string];

    if (figure->known != KNOWN_ABSENT)
        amount_add_supported_mm(out, figure->value, figure->u, page->app->units.bare[MEASURE_SMALL],
                                PREDICTED - 1);
    return known_role(figure);
}

static enum role add_predicted(const struct page *page, int string, struct strbuf *out)
{
    return add_figure(page, FIGURE_SETBACK_PREDICTED, string, out);
}

static enum role add_best(const struct page *page, int string, struct strbuf *out)
{
    return add_figure(page, FIGURE_SETBACK_BEST, string, out);
}

static enum role add_nut(const struct page *page, int string, struct strbuf *out)
{
    return add_figure(page, FIGURE_NUT_ADVANCE_BEST, string, out);
}

static enum role add_left(const struct page *page, int string, struct strbuf *out)
{
    const struct figure *figure = &page->derived->figures.at[FIGURE_CENTS_BEST_RMS][string];

    if (figure->known != KNOWN_ABSENT)
        num_format_fixed(figure->value, 1, false, out);
    return known_role(figure);
}

/* The first three always fit. */
static const struct side_column side_columns[] = {
    {"calc.", "cents", MEASURE_NONE, CALCULATED, add_calculated},
    {"saddle back", NULL, MEASURE_SMALL, 13, add_saddle},
    {"contact,", "to be ", MEASURE_LONG, 9, add_contact},
    {"setback,", "pred. ", MEASURE_SMALL, PREDICTED, add_predicted},
    {"setback,", "best ", MEASURE_SMALL, PREDICTED, add_best},
    {"nut adv.,", "best ", MEASURE_SMALL, PREDICTED, add_nut},
    {"leaves", "cents", MEASURE_NONE, 7, add_left},
};
enum { SIDE_COLUMNS = sizeof side_columns / sizeof side_columns[0], SIDE_LEAST = 3 };

/* How many of them fit, and their total width. */
static int side_count(const struct page *page, int *ret_width)
{
    const int room = page->pen->frame->columns - FRETS_LEFT - FRETS_LEAST - 1;
    int count = 0, width = 0;

    while (count < SIDE_COLUMNS &&
           (count < SIDE_LEAST || width + side_columns[count].width <= room))
        width += side_columns[count++].width;
    *ret_width = width;
    return count;
}

static void draw_side_column(const struct page *page, const struct side_column *column,
                             const struct grid *grid, int left)
{
    const enum unit unit = page->app->units.bare[column->measure];
    const int row = grid->room.row - HEADING, right = column->width - 1;
    char memory[64];
    struct strbuf text = STRBUF(memory);

    strbuf_add(&text, column->words ? column->words : "");
    if (column->measure != MEASURE_NONE)
        strbuf_add(&text, amount_unit(unit));
    pen_put_right(page->pen, row, left + 1, right, ROLE_LABEL, column->title);
    pen_put_right(page->pen, row + 1, left + 1, right, ROLE_DIM, memory);
    for (int i = grid->top; i < grid->top + grid->shown_rows; i++) {
        strbuf_clear(&text);
        const enum role role = column->add(page, page->strings - i, &text);

        pen_put_right(page->pen, grid_row(grid, i), left + 1, right,
                      page->app->previewing ? ROLE_PREVIEW : role, memory);
    }
}

static void draw_headings(const struct page *page, const struct grid *grid)
{
    const struct pen *pen = page->pen;
    const int row = grid->room.row - HEADING;

    pen_put_right(pen, row, 1, LABEL + SETBACK - 1, ROLE_LABEL, "setback");
    pen_put_right(pen, row + 1, 1 + LABEL, SETBACK - 1, ROLE_DIM,
                  amount_unit(page->app->units.bare[MEASURE_SMALL]));
    pen_put(pen, row, FRETS_LEFT + 2, grid->shown_columns * FRET_CELL - 2, ROLE_LABEL,
            page->app->now.setup.outfit.fretless ? "cents read at mark, + is sharp"
                                                 : "cents read at fret, + is sharp");
    grid_draw_numbers(pen, grid, row + 1, 1, page->fret);
}

static void draw_cells(const struct page *page, const struct grid *grid)
{
    const struct app *app = page->app;

    for (int i = grid->top; i < grid->top + grid->shown_rows; i++)
        grid_draw_string(page->pen, app, page->strings - i, grid_row(grid, i), 1, LABEL - 1);
    for (int i = 0; i < app->route.count; i++) {
        const struct route_cell *cell = &app->route.cells[i];
        const int row = grid_row(grid, cell->row);

        if (cell->column == PITCH_SETBACK_COLUMN)
            grid_draw_cell(page->pen, app, cell, row, 1 + LABEL, SETBACK - 1);
        else if (grid_column(grid, cell->column - 1) >= 0)
            grid_draw_cell(page->pen, app, cell, row, grid_column(grid, cell->column - 1) + 1,
                           FRET_CELL - 1);
    }
}

static void draw_table(const struct page *page, int row, int rows)
{
    const struct route_cell *cell = app_cell(page->app);
    int side_width;
    const int sides = side_count(page, &side_width);
    const struct grid_room room = {.row = row + HEADING,
                                   .rows = rows - HEADING,
                                   .column = FRETS_LEFT,
                                   .width = page->pen->frame->columns - FRETS_LEFT - side_width - 1,
                                   .cell = FRET_CELL};
    const struct grid grid =
        grid_fit(&room, page->strings, page->frets, cell ? cell->row : 0, page->fret - 1);
    int left = page->pen->frame->columns - side_width - 1;

    draw_headings(page, &grid);
    draw_cells(page, &grid);
    grid_draw_more(page->pen, &grid, LABEL);
    for (int i = 0; i < sides; i++) {
        draw_side_column(page, &side_columns[i], &grid, left);
        left += side_columns[i].width;
    }
}

/* Draws one sentence; returns the row after it. */
static int put_sentence(const struct page *page, int row, int end, enum role role,
                        const char *words)
{
    const enum role shown = page->app->previewing ? ROLE_PREVIEW : role;

    if (row >= end)
        return row;
    return row +
           pen_wrap(page->pen, row, 2, page->pen->frame->columns - 3, end - row, shown, words);
}

static int put_move(const struct page *page, int string, int row, int end)
{
    const struct pitch_plan *plan = pitch_state(page->app);
    char memory[160];
    struct strbuf words = STRBUF(memory);

    pitch_add_move(plan, string, &page->app->units, &words);
    return put_sentence(page, row, end, state_role(plan->string[string].state), memory);
}

static int put_saddle(const struct page *page, int row, int end)
{
    const struct pitch_plan *plan = pitch_state(page->app);
    char memory[200];
    struct strbuf words = STRBUF(memory);

    if (!plan->saddle.known)
        return row;
    pitch_add_saddle(plan, &page->app->units, &words);
    return put_sentence(page, row, end, pitch_saddle_is_narrow(plan) ? ROLE_OFF : ROLE_VALUE,
                        memory);
}

static int put_fit(const struct page *page, int string, int row, int end)
{
    const struct pitch_plan *plan = pitch_state(page->app);
    char memory[160];
    struct strbuf words = STRBUF(memory);

    pitch_add_fit(plan, string, &page->app->units, &words);
    return put_sentence(page, row, end, plan->string[string].has_fit ? ROLE_VALUE : ROLE_DIM,
                        memory);
}

static int put_string(const struct page *page, int string, int row, int end)
{
    const struct pitch_plan *plan = pitch_state(page->app);
    const struct shop_units *units = &page->app->units;
    char memory[160];
    struct strbuf words = STRBUF(memory);

    /* What would help comes last where an inner string has more to say: then there is no room. */
    const bool fit_last = !plan->string[string].has_fit &&
                          figures_get(&page->derived->figures, FIGURE_SADDLE_OVER, string).given;

    row = put_move(page, string, row, end);
    if (pitch_saddle_is_narrow(plan))
        row = put_saddle(page, row, end);
    if (!fit_last)
        row = put_fit(page, string, row, end);
    pitch_add_predicted(page->derived, string, units, &words);
    row = put_sentence(page, row, end, ROLE_VALUE, memory);
    strbuf_clear(&words);
    pitch_add_contact(&plan->string[string], units, &words);
    row = put_sentence(page, row, end, ROLE_VALUE, memory);
    strbuf_clear(&words);
    saddle_top_add(page->derived, string, units, &words);
    row = put_sentence(page, row, end, ROLE_VALUE, memory);
    if (!pitch_saddle_is_narrow(plan))
        row = put_saddle(page, row, end);
    return fit_last ? put_fit(page, string, row, end) : row;
}

/* The string in hand in full, then the moves of the other strings, if they all fit. */
static void draw_detail(const struct page *page, int row, int rows)
{
    const int string = app_string(page->app), end = row + rows;
    char memory[100];
    struct strbuf heading = STRBUF(memory);

    pen_rule(page->pen, row, 0, page->pen->frame->columns);
    strbuf_add(&heading,
               page->app->previewing ? " saddle and nut if this is taken" : " saddle and nut");
    pitch_add_wait(pitch_state(page->app), &heading);
    strbuf_add_char(&heading, ' ');
    (void)pen_put_cut(page->pen, row, 1, page->pen->frame->columns - 2, ROLE_LABEL, memory);
    if (string > pitch_state(page->app)->strings) {
        put_sentence(page, row + 1, end, ROLE_DIM,
                     "The scale length is missing: enter it on Intake, then the cents tell what "
                     "to move.");
        return;
    }
    row = put_string(page, string, row + 1, end);
    if (end - row < page->strings)
        return;
    row++;
    for (int s = page->strings; s >= 1; s--)
        if (s != string)
            row = put_move(page, s, row, end);
}

void pitch_view_draw(const struct pen *pen, const struct app *app, int row, int rows)
{
    const struct route_cell *cell = app_cell(app);
    struct page page = {.pen = pen, .app = app, .derived = app_shown(app)};

    page.strings = app->route.rows;
    page.frets = app->route.columns - 1;
    if (!cell) {
        pen_wrap(
            pen, row + 2, 2, pen->frame->columns - 4, rows - 2, ROLE_DIM,
            app->now.setup.outfit.lap
                ? "Played with a bar: the player's hand sets the pitch, and no fret is to "
                  "be tuned. Setbacks are on Strings."
                : "Nothing to tune yet: scale, strings and frets on Intake make the board; then "
                  "the cents a tuner shows go here, the octave of every string first.");
        return;
    }
    page.fret = cell->column == PITCH_SETBACK_COLUMN
                    ? outfit_octave_fret(&app->now.setup.outfit, cell->string)
                    : cell->column;
    const int most = rows - HEADING - PICTURE_MIN - DETAIL;
    const int table = HEADING + (page.strings < most ? page.strings : most);
    int picture = (rows - table - DETAIL + PICTURE_MIN) / 2;

    if (picture < PICTURE_MIN + 1)
        picture = rows - table - DETAIL;
    if (picture > PICTURE_MAX)
        picture = PICTURE_MAX;
    draw_table(&page, row, table);
    cents_view_draw(pen, app, page.fret, row + table, picture);
    draw_detail(&page, row + table + picture, rows - table - picture);
}
