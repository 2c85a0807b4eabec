/* SPDX-License-Identifier: MIT */
#include "leaf/frets/frets_view.h"

#include "words/amount.h"
#include "leaf/frets/leaf_frets.h"
#include "base/num.h"
#include "screen/grid_view.h"
#include "leaf/frets/headroom_view.h"

enum {
    LABEL = 19,
    FRET_CELL = 6,
    /* fret numbers, spots, crowns, fall-away, and two rows for each levelling plan */
    CROWN_ROWS = 1 + FRETS_ROWS + 2 * LEVELLING_PLANS,
    WORDS_MIN = 3,
    WORDS_WANTED = 8, /* rows of text, before spare rows show the headrooms in numbers */
};

struct page {
    const struct pen *pen;
    const struct app *app;
    int strings, frets;
    int row, end; /* of the sentences */
};

static int count_cells(const struct app *app, enum field_id field)
{
    int count = 0;

    for (int i = 0; i < app->route.count; i++)
        count += app->route.cells[i].key.field == field;
    return count;
}

/* Leaves a sentence out if it does not fit whole; false then. */
static bool put_sentence(struct page *page, enum role role, const char *words)
{
    const int width = page->pen->frame->columns - 2;
    const int rows = pen_wrap(page->pen, 0, 0, width, 0, role, words);

    if (page->row + rows > page->end)
        return false;
    page->row += pen_wrap(page->pen, page->row, 1, width, rows,
                          page->app->previewing ? ROLE_PREVIEW : role, words);
    return true;
}

static enum role headroom_role(enum headroom headroom)
{
    return headroom == HEADROOM_BUZZES ? ROLE_OFF : ROLE_VALUE;
}

static void put_note(struct page *page, int string, int note)
{
    const struct frets_plan *plan = &frets_state(page->app)->plan;
    char memory[160];
    struct strbuf words = STRBUF(memory);

    if (string > plan->strings) {
        put_sentence(page, ROLE_DIM, "No map yet: the scale length on Intake comes first.");
        return;
    }
    if (note < 0) {
        put_sentence(page, ROLE_DIM,
                     "No map yet: relief, nut gap and action on Bench make it, gauges on Strings "
                     "the rest.");
        return;
    }
    frets_add_note(app_shown(page->app), plan, string, note, &page->app->units, &words);
    put_sentence(page, headroom_role(plan->headroom[string][note]), memory);
}

static void put_buzz(struct page *page, int string)
{
    const struct frets_plan *plan = &frets_state(page->app)->plan;
    char memory[240];
    struct strbuf words = STRBUF(memory);

    if (!frets_add_buzz(plan, string, &page->app->units, &words) ||
        !put_sentence(page, ROLE_OFF, memory))
        return;
    strbuf_clear(&words);
    if (frets_add_evidence(plan, string, &page->app->units, &words))
        put_sentence(page, ROLE_DIM, memory);
}

static void put_tightest(struct page *page)
{
    const struct frets_plan *plan = &frets_state(page->app)->plan;
    char memory[240];
    struct strbuf words = STRBUF(memory);

    if (frets_add_tightest(plan, &words))
        put_sentence(page, ROLE_VALUE, memory);
}

static void put_gains(struct page *page)
{
    char memory[160];
    struct strbuf words = STRBUF(memory);

    if (frets_add_gains(&frets_state(page->app)->plan, &page->app->units, &words))
        put_sentence(page, ROLE_DIM, memory);
}

static void put_levelling(struct page *page, enum levelling_plan which)
{
    const struct frets_plan *plan = &frets_state(page->app)->plan;
    char memory[200];
    struct strbuf words = STRBUF(memory);

    frets_add_levelling(plan, which, &page->app->units, &words);
    put_sentence(page, plan->levelling.summary[which].too_low_count > 0 ? ROLE_OFF : ROLE_VALUE,
                 memory);
}

/* The buzzes of the other strings, leaving `kept` rows free. */
static void put_other_buzzes(struct page *page, int string, int kept)
{
    page->end -= kept;
    for (int s = frets_state(page->app)->plan.strings; s >= 1; s--)
        if (s != string)
            put_buzz(page, s);
    page->end += kept;
}

/* The string in hand comes first: its note and its buzzes; then the other buzzes, the tightest
 * notes and levelling, as far as there is room. With the cursor among the crowns no string is in
 * hand, so buzzes and levelling come before a note. */
static void draw_words(struct page *page, int string, int note)
{
    const struct frets_plan *plan = &frets_state(page->app)->plan;
    const struct route_cell *cell = app_cell(page->app);
    const bool on_string = !cell || cell->row < page->strings;

    if (on_string) {
        put_note(page, string, note);
        if (string <= plan->strings)
            put_buzz(page, string);
        put_other_buzzes(page, string, 1);
        put_tightest(page);
    } else {
        put_other_buzzes(page, 0, plan->levelling.known ? LEVELLING_PLANS : 1);
    }
    put_levelling(page, LEVELLING_SPOTS);
    if (plan->levelling.known)
        put_levelling(page, LEVELLING_FULL);
    if (!on_string) {
        put_tightest(page);
        put_note(page, string, note);
    }
    put_gains(page);
}

static void draw_row_label(const struct page *page, int row, const char *label, enum unit unit)
{
    pen_put(page->pen, row, 1, LABEL - 3, ROLE_LABEL, label);
    pen_put_right(page->pen, row, LABEL - 6, 5, ROLE_DIM, amount_unit(unit));
}

/* A crown that was not read is assumed to have the board's crown height. */
static void draw_crown_left(const struct page *page, int number, const struct levelling_fret *fret,
                            int row, int column)
{
    const struct app *app = page->app;
    const struct reading_key key =
        reading_key_pass_at(FIELD_CROWN, app->visit, app->pass, 0, number);
    const bool assumed = !record_get(&app->record, &key);
    const enum unit small = app->units.bare[MEASURE_SMALL];
    char memory[24];
    struct strbuf text = STRBUF(memory);

    strbuf_add(&text, assumed ? "~" : "");
    if (fret->crown_left_mm.value > 0)
        num_format_fixed(unit_from_pivot(small, fret->crown_left_mm.value),
                         small == UNIT_IN ? 3 : 2, fret->too_low || small == UNIT_IN, &text);
    else
        strbuf_add(&text, "0");
    strbuf_add(&text, fret->too_low ? "!" : "");
    pen_put_right(page->pen, row, column, FRET_CELL - 1,
                  fret->too_low ? ROLE_OFF
                  : assumed     ? ROLE_ASSUMED
                                : ROLE_VALUE,
                  memory);
}

static void draw_take(const struct page *page, const struct grid *grid, enum levelling_plan which,
                      int row)
{
    const struct survey_levelling *levelling = &frets_state(page->app)->plan.levelling;
    const enum unit feeler = page->app->units.bare[MEASURE_FEELER];

    draw_row_label(page, row, which == LEVELLING_SPOTS ? "off spots" : "off, all", feeler);
    if (outfit_asks(&page->app->now.setup.outfit, FIELD_CROWN, 0))
        draw_row_label(page, row + 1, "  crown left", page->app->units.bare[MEASURE_SMALL]);
    if (!levelling->known)
        return;
    for (int i = grid->left; i < grid->left + grid->shown_columns && i < levelling->frets; i++) {
        const struct levelling_fret *fret = &levelling->fret[which][i + 1];
        const int column = grid_column(grid, i) + 1;
        char memory[24];
        struct strbuf text = STRBUF(memory);

        if (fret->take_mm > 0)
            amount_add(&text, fret->take_mm, feeler, false);
        pen_put_right(page->pen, row, column, FRET_CELL - 1,
                      page->app->previewing ? ROLE_PREVIEW : ROLE_VALUE, memory);
        if (fret->crown_left_mm.given)
            draw_crown_left(page, i + 1, fret, row + 1, column);
    }
}

/* The cells of the rows. The fall-away has a single one, under fret 1 wherever the window is. */
static void draw_crown_cells(const struct page *page, const struct grid *grid)
{
    const struct app *app = page->app;

    for (int i = 0; i < app->route.count; i++) {
        const struct route_cell *cell = &app->route.cells[i];
        const bool fall_away = cell->key.field == FIELD_FALL_AWAY;
        const int column = fall_away ? grid->room.column : grid_column(grid, cell->column - 1);

        if (cell->row >= page->strings && column >= 0)
            grid_draw_cell(page->pen, app, cell, grid->room.row + cell->row - page->strings,
                           column + 1, FRET_CELL - 1);
    }
}

static void draw_crowns(const struct page *page, int row)
{
    const struct route_cell *cell = app_cell(page->app);
    const struct shop_units *units = &page->app->units;
    const int at = cell && cell->row >= page->strings ? cell->column : -1;
    const struct grid_room room = {.row = row + 1,
                                   .rows = FRETS_ROWS,
                                   .column = LABEL,
                                   .width = page->pen->frame->columns - LABEL - 1,
                                   .cell = FRET_CELL};
    const struct grid grid = grid_fit(&room, FRETS_ROWS, page->frets, 0, at > 0 ? at - 1 : 0);
    const bool has_crowns = outfit_asks(&page->app->now.setup.outfit, FIELD_CROWN, 0);
    const bool falls = cell && cell->key.field == FIELD_FALL_AWAY;

    pen_rule(page->pen, row, 0, page->pen->frame->columns);
    pen_put(page->pen, row, 1, LABEL - 2, ROLE_LABEL,
            has_crowns ? " crown at fret " : " board at mark ");
    grid_draw_numbers(page->pen, &grid, row, 1, falls ? -1 : at);
    draw_row_label(page, row + 1 + FRETS_ROW_SPOT, "spot, + high", units->bare[MEASURE_FEELER]);
    if (has_crowns)
        draw_row_label(page, row + 1 + FRETS_ROW_CROWN, "crown height", units->bare[MEASURE_SMALL]);
    draw_row_label(page, row + 1 + FRETS_ROW_FALL_AWAY, "fall-away", units->bare[MEASURE_FEELER]);
    pen_put(page->pen, row + 1 + FRETS_ROW_FALL_AWAY, LABEL + FRET_CELL + 2, 50, ROLE_DIM,
            has_crowns ? "last crown below the line over the body"
                       : "last mark below the line over the body");
    draw_crown_cells(page, &grid);
    for (int which = 0; which < LEVELLING_PLANS; which++)
        draw_take(page, &grid, (enum levelling_plan)which, row + 1 + FRETS_ROWS + 2 * which);
}

void frets_view_draw(const struct pen *pen, const struct app *app, int row, int rows)
{
    struct page page = {.pen = pen, .app = app};
    struct headroom_area map = {.row = row, .string = app_string(app)};

    page.strings = map.strings = count_cells(app, FIELD_BUZZ);
    page.frets = map.frets = count_cells(app, FIELD_SPOT);
    if (page.strings < 1) {
        pen_wrap(
            pen, row + 2, 2, pen->frame->columns - 4, rows - 2, ROLE_DIM,
            app->now.setup.outfit.lap
                ? "Played with a bar: nothing is fretted, so that no note can buzz on a "
                  "fret, and no crown is to be levelled."
                : "No frets yet: scale, strings and frets on Intake make the board; then the "
                  "notes heard to buzz, the spots that a rocker finds and the crowns go here.");
        return;
    }
    const int crowns = page.frets > 0 ? CROWN_ROWS : 0;
    const int most = rows - HEADROOM_HEADING - WORDS_MIN - crowns;
    map.note = app_note(app);
    map.rows = HEADROOM_HEADING + (page.strings < most ? page.strings : most);
    map.spare = rows - map.rows - crowns - WORDS_WANTED;
    page.row = row + headroom_view_draw(pen, app, &map);
    page.end = row + rows - crowns;
    draw_words(&page, map.string, map.note);
    if (crowns > 0)
        draw_crowns(&page, row + rows - crowns);
}
