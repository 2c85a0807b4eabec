/* SPDX-License-Identifier: MIT */
#include "leaf/frets/headroom_view.h"

#include "words/amount.h"
#include "leaf/frets/leaf_frets.h"
#include "base/num.h"
#include "screen/grid_view.h"

enum {
    LABEL = 8,
    LISTS = 2,
    LIST_LEAST = 12,
    LIST_MOST = 24,
    NOTE_LEAST = 2,
    NOTE_MOST = 5,
    AMOUNT_LEAST = 4
};

static void draw_legend(const struct pen *pen, const struct app *app,
                        const struct headroom_area *area)
{
    static const struct {
        enum headroom headroom;
        const char *words;
    } states[] = {
        {HEADROOM_PLENTY, "plenty"}, {HEADROOM_TIGHT, "tight"}, {HEADROOM_BUZZES, "would buzz"}};
    char memory[64];
    struct strbuf text = STRBUF(memory);
    int column = 1;

    pen_rule(pen, area->row, 0, pen->frame->columns);
    strbuf_add(&text, app->previewing ? " if taken, touch " : " headroom, touch ");
    amount_add(&text, frets_state(app)->plan.touch.mm[area->string],
               app->units.bare[MEASURE_FEELER], false);
    amount_add_unit(&text, app->units.bare[MEASURE_FEELER]);
    strbuf_add_char(&text, ' ');
    column +=
        pen_put(pen, area->row, column, 60, app->previewing ? ROLE_PREVIEW : ROLE_LABEL, memory);
    for (size_t i = 0; i < sizeof states / sizeof states[0]; i++) {
        strbuf_clear(&text);
        strbuf_addf(&text, " %c %s ", frets_mark(states[i].headroom), states[i].words);
        column += pen_put(pen, area->row, column, 20, ROLE_DIM, memory);
    }
    column += pen_put(pen, area->row, column, 30, ROLE_DIM, " B heard to buzz ");
}

static enum role mark_role(enum headroom headroom)
{
    switch (headroom) {
    case HEADROOM_PLENTY:
        return ROLE_GOOD;
    case HEADROOM_TIGHT:
    case HEADROOM_MAY:
        return ROLE_ASSUMED;
    case HEADROOM_BUZZES:
        return ROLE_OFF;
    case HEADROOM_UNKNOWN:
        break;
    }
    return ROLE_DIM;
}

/* A note that was heard to buzz is marked as that, whatever headroom it has by the readings. */
static void draw_note(const struct pen *pen, const struct app *app, int string, int note, int row,
                      int column, bool looked_at)
{
    const struct frets_plan *plan = &frets_state(app)->plan;
    const enum headroom headroom = plan->headroom[string][note];
    const bool buzzes = plan->buzz[string].buzzing >> note & 1;
    const enum role role = buzzes ? ROLE_OFF : mark_role(headroom);

    frame_put_rune(pen->frame, row, column, looked_at ? ROLE_MARK : role,
                   (unsigned char)(buzzes ? 'B' : frets_mark(headroom)));
}

static void draw_string(const struct pen *pen, const struct app *app, const struct grid *grid,
                        const struct headroom_area *area, int string)
{
    const struct outfit *outfit = &app->now.setup.outfit;
    const int row = grid_row(grid, outfit_column(outfit, string));

    grid_draw_read(pen, app, string, row, 1, LABEL - 2);
    if (string > frets_state(app)->plan.strings)
        return;
    for (int n = grid->left; n < grid->left + grid->shown_columns; n++)
        draw_note(pen, app, string, n, row, grid_column(grid, n) + grid->room.cell - 1,
                  string == area->string && n == area->note);
}

static void draw_lists(const struct pen *pen, const struct app *app, const struct grid *grid,
                       int column, int width)
{
    pen_put_right(pen, grid->room.row - 1, column, width - 1, ROLE_LABEL, "heard buzz");
    pen_put_right(pen, grid->room.row - 1, column + width, width - 1, ROLE_LABEL, "clean");
    for (int i = 0; i < app->route.count; i++) {
        const struct route_cell *cell = &app->route.cells[i];

        if (cell->key.field == FIELD_BUZZ || cell->key.field == FIELD_CLEAN)
            grid_draw_cell(pen, app, cell, grid_row(grid, cell->row),
                           column + (cell->column == FRETS_CLEAN_COLUMN ? width : 0), width - 1);
    }
}

static int within(int value, int least, int most)
{
    return value < least ? least : value > most ? most : value;
}

/* The amounts have three columns: thousandths of an inch, or tenths of a mm. */
static bool is_inch(const struct app *app)
{
    return app->units.bare[MEASURE_FEELER] == UNIT_TH;
}

static void draw_amount(const struct pen *pen, const struct app *app, int string, int note, int row,
                        int column)
{
    const struct maybe headroom_mm = app_shown(app)->clearance[string].headroom_mm[note];
    char memory[24];
    struct strbuf text = STRBUF(memory);

    if (!headroom_mm.given)
        return;
    if (is_inch(app))
        num_format_fixed(unit_from_pivot(UNIT_TH, headroom_mm.value), 0, false, &text);
    else
        num_format_fixed(headroom_mm.value, 1, false, &text);
    pen_put_right(pen, row, column + 1, AMOUNT_LEAST - 1,
                  app->previewing ? ROLE_PREVIEW : ROLE_VALUE, memory);
}

/* The amounts under the map, in the same columns. */
static void draw_amounts(const struct pen *pen, const struct app *app, const struct grid *grid,
                         int row)
{
    pen_put(pen, row, 1, 40, ROLE_LABEL,
            is_inch(app) ? "headroom, thousandths of an inch" : "headroom, mm");
    for (int i = 0; i < grid->rows && i < frets_state(app)->plan.strings; i++) {
        const int string = outfit_at_column(&app->now.setup.outfit, i);

        grid_draw_read(pen, app, string, row + 1 + i, 1, LABEL - 2);
        for (int n = grid->left; n < grid->left + grid->shown_columns; n++)
            draw_amount(pen, app, string, n, row + 1 + i,
                        grid_column(grid, n) + grid->room.cell - AMOUNT_LEAST);
    }
}

int headroom_view_draw(const struct pen *pen, const struct app *app,
                       const struct headroom_area *area)
{
    const int columns = pen->frame->columns, notes = area->frets + 1;
    const int cell =
        within((columns - LABEL - LISTS * LIST_LEAST - 3) / notes, NOTE_LEAST, NOTE_MOST);
    const int list = within((columns - LABEL - 3 - cell * notes) / LISTS, LIST_LEAST, LIST_MOST);
    const struct grid_room room = {.row = area->row + HEADROOM_HEADING,
                                   .rows = area->rows - HEADROOM_HEADING,
                                   .column = LABEL,
                                   .width = columns - LABEL - LISTS * list - 2,
                                   .cell = cell};
    const struct outfit *outfit = &app->now.setup.outfit;
    const struct grid grid =
        grid_fit(&room, area->strings, notes, outfit_column(outfit, area->string),
                 area->note < 0 ? 0 : area->note);

    draw_legend(pen, app, area);
    pen_put(pen, area->row + 1, 1, LABEL - 2, ROLE_LABEL, "note");
    grid_draw_numbers(pen, &grid, area->row + 1, 0, area->note);
    for (int i = grid.top; i < grid.top + grid.shown_rows; i++)
        draw_string(pen, app, &grid, area, outfit_at_column(outfit, i));
    grid_draw_more(pen, &grid, LABEL - 1);
    draw_lists(pen, app, &grid, columns - LISTS * list, list);
    if (cell < AMOUNT_LEAST || area->spare < area->strings + 1)
        return area->rows;
    draw_amounts(pen, app, &grid, area->row + area->rows);
    return area->rows + area->strings + 1;
}
