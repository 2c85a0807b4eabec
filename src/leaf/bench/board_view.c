/* SPDX-License-Identifier: MIT */
#include "leaf/bench/board_view.h"

#include <string.h>

#include "leaf/bench/expected.h"
#include "words/amount.h"
#include "words/row_state.h"
#include "base/utf8.h"
#include "model/doubt/doubt_row.h"
#include "model/reading/note_name.h"
#include "model/setup/belief_line.h"
#include "model/setup/bench_goal.h"
#include "session/again.h"

static const struct bench_row *row_of(const struct app *app, const struct route_cell *cell)
{
    return bench_row_in(&app->now.setup.outfit, cell->row);
}

static void draw_heading(const struct pen *pen, const struct app *app,
                         const struct board_grid *grid, int row)
{
    const struct outfit *outfit = &app->now.setup.outfit;
    const int strings = app->now.setup.board.strings;

    pen_put(pen, row, 1, grid->label - 1, ROLE_LABEL,
            app_nut_method(app) == NUT_HELD_3 ? "held on 3" : "readings");
    for (int s = strings; s >= 1; s--) {
        char memory[32];
        struct strbuf text = STRBUF(memory);

        if (!outfit_is_read(outfit, s))
            continue;
        note_name_add_read(&text, &app->record, outfit, s);
        /* A note that is cut would read as another note. */
        if ((int)text.length >= grid->cell)
            memory[strcspn(memory, " ")] = '\0';
        pen_put_right(pen, row, grid->label + outfit_column(outfit, s) * grid->cell, grid->cell - 1,
                      ROLE_LABEL, memory);
    }
    if (grid->side > 7)
        pen_put(pen, row, grid->side_column + 1, grid->side - 1, ROLE_LABEL, "target");
}

/* The value taken from the neighbouring strings for a cell that was not read. A held gap's figure,
 * which is that of the open string, is known only where relief and action are. */
static struct maybe find_filled(const struct app *app, const struct route_cell *cell)
{
    const struct bench_row *row = row_of(app, cell);

    if (row->figure == FIGURE_COUNT_ || !bench_row_by_string(row))
        return maybe_absent();
    const struct figures *figures = &app->now.figures;
    const struct figure *figure = &figures->at[row->figure][cell->string];
    if (figure->known != KNOWN_INTERPOLATED)
        return maybe_absent();
    if (!bench_goal_is_held(row, &app->now.setup))
        return maybe_given(figure->value);
    return belief_line_held_from(&app->now.setup, cell->string, figures->at[FIGURE_RELIEF][0].value,
                                 figure->value, figures->at[FIGURE_ACTION][cell->string].value);
}

/* The text of a cell: the reading as typed, else the assumed or expected value. */
static enum role cell_text(const struct app *app, const struct route_cell *cell,
                           struct bench_expecting *expecting, int width, struct strbuf *out)
{
    const struct reading *reading = record_get(&app->record, &cell->key);
    const enum unit unit = board_row_unit(app, row_of(app, cell));

    if (reading) {
        entry_show(reading->text, field_get(cell->key.field), &app->units, out);
        if (reading->value.state == READING_GOOD &&
            !doubt_is_unlike_row(&app->record, &cell->key, &app->now.setup.outfit,
                                 app->now.setup.board.strings))
            return ROLE_VALUE;
        strbuf_add_char(out, '!');
        return ROLE_OFF;
    }
    const struct reading *last = again_find(app, cell);

    if (last) {
        strbuf_add_char(out, '[');
        amount_add_short(out, last->value.value, unit, width - 2);
        strbuf_add_char(out, ']');
        return ROLE_DIM;
    }
    const struct maybe expected = bench_expect(expecting, app, cell),
                       filled = find_filled(app, cell);

    if (expected.given) {
        strbuf_add_char(out, '(');
        amount_add_short(out, expected.value, unit, width - 2);
        strbuf_add_char(out, ')');
        return ROLE_DIM;
    }
    if (filled.given) {
        strbuf_add_char(out, '~');
        amount_add_short(out, filled.value, unit, width - 1);
        return ROLE_ASSUMED;
    }
    strbuf_add_char(out, '-');
    return ROLE_DIM;
}

static void draw_cell(const struct pen *pen, const struct app *app, const struct board_grid *grid,
                      const struct route_cell *cell, struct bench_expecting *expecting, int row)
{
    const bool in_hand = app_cell(app) == cell;
    const int column = grid->label + cell->column * grid->cell;
    const int width = grid->cell - 1;
    char memory[300];
    struct strbuf text = STRBUF(memory);
    enum role role = cell_text(app, cell, expecting, width, &text);

    board_fit_reading(app, &cell->key, width, &text);
    if (in_hand && app->previewing) {
        strbuf_clear(&text);
        strbuf_add(&text, app->entry.text);
        if (utf8_columns(memory) > width) {
            strbuf_clear(&text);
            amount_add_short(&text, app->entry_view.value, board_row_unit(app, row_of(app, cell)),
                             width);
        }
    }
    if (in_hand)
        role = ROLE_CELL;
    pen_put_right(pen, row, column, width, role, memory);
    if (!in_hand)
        return;
    frame_set_role(pen->frame, row, column, width, ROLE_CELL);
    pen->frame->cursor_row = row;
    pen->frame->cursor_column = column + width - 1;
}

static void draw_label(const struct pen *pen, const struct app *app, const struct bench_row *row,
                       const struct board_grid *grid, int at)
{
    pen_put(pen, at, 1, grid->label - 5, ROLE_LABEL, row->label);
    pen_put_right(pen, at, grid->label - 6, 5, ROLE_DIM, amount_unit(board_row_unit(app, row)));
}

/* The fret of a reading that is alone in its row, behind its cell. */
static void draw_place(const struct pen *pen, const struct app *app, const struct bench_row *row,
                       const struct board_grid *grid, int at)
{
    char memory[48];
    struct strbuf text = STRBUF(memory);
    const struct outfit *outfit = &app->now.setup.outfit;
    const bool aside =
        row->aside != NO_FIELD && app->pass > 1 && outfit_asks(outfit, row->aside, 0);
    const int columns = grid->cell * (grid->columns - (aside ? 2 : 1)) - 2;
    const int fret = bench_row_fret(row, &app->now.setup.board);

    if (bench_row_by_string(row) || bench_row_has_ends(row) || fret == 0 || columns < 9)
        return;
    strbuf_addf(&text, "at %s %d", outfit_fret_noun(outfit), fret);
    pen_put(pen, at, grid->label + grid->cell + 1, columns, ROLE_DIM, memory);
    if (aside)
        pen_put_right(pen, at, grid->label + grid->cell, columns + 1, ROLE_LABEL,
                      columns > 21 ? row->aside_label : row->aside_short);
}

static void draw_state(const struct pen *pen, const struct app *app, enum bench_row_id id,
                       const struct board_grid *grid, int row)
{
    const bool least = bench_row_in(&app->now.setup.outfit, (int)id)->goal == GOAL_LEAST;
    const char *over = least ? "over " : "", *target;
    char word[16];
    struct strbuf words = STRBUF(word);
    struct row_state state;
    int room, used;

    row_state_find(&app->record, app_shown(app), &app->units, id, &state);
    strbuf_addf(&words, "%s%s", state.then ? "then " : "", row_verdict_word(state.verdict));
    room = grid->side - 1 - (int)strlen(over) - (word[0] ? (int)strlen(word) + 1 : 0);
    /* The row's label has the unit too, so the unit is dropped first when there is no room. */
    target = utf8_columns(state.target) < room ? state.target : state.target_bare;
    if (target[0] && utf8_columns(target) <= room) {
        const int at = grid->side_column + (utf8_columns(target) < room);

        used = pen_put(pen, row, at, grid->side - 1, ROLE_DIM, over);
        pen_put(pen, row, at + used, room, ROLE_VALUE, target);
    }
    pen_put_right(pen, row, grid->side_column, grid->side - 1,
                  state.verdict == VERDICT_GOOD || state.verdict == VERDICT_NEAR ? ROLE_GOOD
                                                                                 : ROLE_OFF,
                  word);
}

void board_view_draw(const struct pen *pen, const struct app *app, const struct board_grid *grid,
                     const struct board_under *under, int row)
{
    struct bench_expecting expecting;
    int rows[ROW_COUNT_], at = row + 1;

    expecting.begun = false;
    draw_heading(pen, app, grid, row);
    for (int id = 0; id < ROW_COUNT_; id++) {
        const struct outfit *outfit = &app->now.setup.outfit;
        const struct bench_row *bench_row = bench_row_in(outfit, id);

        rows[id] = at;
        if (outfit->strings > 0 && !bench_row_is_asked(bench_row, outfit))
            continue;
        draw_label(pen, app, bench_row, grid, at);
        draw_place(pen, app, bench_row, grid, at);
        draw_state(pen, app, (enum bench_row_id)id, grid, at);
        at += 1 + board_under_draw(pen, app, grid, under, (enum bench_row_id)id, at + 1);
    }
    for (int i = 0; i < app->route.count; i++) {
        const struct route_cell *cell = &app->route.cells[i];

        draw_cell(pen, app, grid, cell, &expecting, rows[cell->row]);
    }
}
