/* SPDX-License-Identifier: MIT */
#include "leaf/history/history_view.h"

#include <math.h>
#include <string.h>

#include "leaf/history/history_notes.h"
#include "base/utf8.h"
#include "leaf/history/trend_view.h"
#include "screen/work_lines.h"
#include "leaf/history/history_state.h"

enum {
    LABEL = 16,       /* the mark of the row looked at, the row's name and unit */
    CELL = 11,        /* one pass, with the blank or mark before it */
    CHANGE = 14,      /* one comparison */
    WIDE = 100,       /* screens this wide show two comparisons */
    HEADING_ROWS = 2, /* date, pass */
    NOTES_MAX = 5
};

struct view {
    const struct pen *pen;
    const struct app *app;
    const struct history *history;
    int at;          /* the pass looked at */
    int left, shown; /* the passes in the window */
    int row;
};

static void find_window(struct view *view)
{
    const int changes = view->pen->frame->columns >= WIDE ? 2 : 1;
    const int fit = (view->pen->frame->columns - LABEL - changes * CHANGE) / CELL;
    const int count = view->history->count;

    view->shown = count < fit ? count : fit;
    /* The newest is at the right edge, unless an older one is looked at. */
    view->left = count - view->shown;
    if (view->at < view->left)
        view->left = view->at - view->shown / 2;
    if (view->left < 0)
        view->left = 0;
}

static int column_of(const struct view *view, int i)
{
    return LABEL + (i - view->left) * CELL;
}

static const char *text_or(const struct view *view, struct reading_key key, const char *otherwise)
{
    const char *text = record_text(&view->app->record, &key);

    return text ? text : otherwise;
}

/* Whether a pass was measured on the same day as the one to its left. */
static bool is_same_day(const struct view *view, int i)
{
    const struct history_pass *pass = &view->history->passes[i];

    return i > view->left && pass[-1].visit == pass->visit && pass[-1].day.given &&
           pass->day.given && floor(pass[-1].day.value) >= floor(pass->day.value);
}

/* The day of the visit; for further passes of it the time, which tells them apart, and their own
 * day where that is a later one than that of the pass before. */
static void add_when(const struct view *view, int i, struct strbuf *out)
{
    const struct history_pass *pass = &view->history->passes[i];
    const char *time =
        text_or(view, reading_key_pass(FIELD_PASS_TIME, pass->visit, pass->pass), "");
    const bool own_date = strlen(time) > 11 && time[10] == 'T';
    const char *day = text_or(view, reading_key_visit(FIELD_VISIT_DATE, pass->visit), NULL);
    const bool first = i == view->left || pass[-1].visit != pass->visit;

    if (first && day)
        strbuf_add(out, day);
    else if (is_same_day(view, i) && time[0])
        work_add_time(view->app, own_date ? time + 11 : time, out);
    else if (own_date)
        strbuf_add_bytes(out, time, 10);
    else
        strbuf_add(out, day ? day : "no date");
}

/* Its number and label; without a label, "pass" and its number. */
static void add_which(const struct view *view, int i, struct strbuf *out)
{
    const struct history_pass *pass = &view->history->passes[i];
    const char *label =
        text_or(view, reading_key_pass(FIELD_PASS_LABEL, pass->visit, pass->pass), "");

    strbuf_addf(out, label[0] ? "%d " : "pass %d", pass->pass);
    strbuf_add(out, label);
}

static void draw_pass_heading(const struct view *view, int i)
{
    const int column = column_of(view, i);
    const enum role role = i == view->at ? ROLE_TAB_NOW : ROLE_LABEL;
    char when_memory[40], which_memory[80];
    struct strbuf when = STRBUF(when_memory), which = STRBUF(which_memory);

    if (i == view->at)
        pen_put(view->pen, view->row, column, 1, ROLE_MARK, ">");
    add_when(view, i, &when);
    add_which(view, i, &which);
    pen_put_cut(view->pen, view->row, column + 1, CELL - 1, role, when_memory);
    pen_put_cut(view->pen, view->row + 1, column + 1, CELL - 1, role, which_memory);
}

static int place_of_row(const struct view *view, enum history_row row)
{
    return view->row + HEADING_ROWS + history_rows_before(view->history, (int)row);
}

static void draw_label(const struct view *view, enum history_row row)
{
    const int at = place_of_row(view, row);
    const bool looked = history_state_row(view->app) == row;

    if (looked)
        pen_put(view->pen, at, 0, 1, ROLE_MARK, ">");
    pen_put(view->pen, at, 1, LABEL - 5, looked ? ROLE_TAB_NOW : ROLE_LABEL,
            history_row_name(&view->history->outfit, row));
    pen_put_right(view->pen, at, LABEL - 4, 4, ROLE_DIM,
                  history_row_unit(&view->history->outfit, row, &view->app->units));
}

/* Pads whole numbers so that they line up with those of the row that have a tenth. */
static void add_aligned(const struct view *view, enum history_row row, double value, bool change,
                        struct strbuf *out)
{
    const size_t before = out->length;

    history_add(out, &view->history->outfit, row, value, change, &view->app->units);
    if (history_is_length(&view->history->outfit, row) && !strchr(out->text + before, '.'))
        strbuf_add(out, "  ");
}

/* Puts a side's value into its half of a cell; rows with one value use the right half. */
static void put_half(const struct view *view, int row, int column, int width, bool right,
                     enum role role, const char *text)
{
    const int half = width / 2;

    pen_put_right(view->pen, row, right ? column + width - half : column, half, role, text);
}

/* An instrument with one string has two saddle ends, but only one side of anything else. */
static int count_sides(const struct view *view, enum history_row row)
{
    const int strings = view->app->now.setup.board.strings;
    const struct bench_row *bench = history_bench_row(&view->history->outfit, row);

    return bench && (bench_row_has_ends(bench) || (bench_row_by_string(bench) && strings != 1))
               ? HISTORY_SIDE_COUNT_
               : 1;
}

static void draw_value(const struct view *view, int i, enum history_row row)
{
    const int at = place_of_row(view, row), column = column_of(view, i) + 1;
    const int sides = count_sides(view, row);

    for (int side = 0; side < sides; side++) {
        const struct history_value *value = &view->history->passes[i].value[row][side];
        char memory[24];
        struct strbuf text = STRBUF(memory);

        strbuf_add(&text, value->taken ? "~" : "");
        if (value->given)
            add_aligned(view, row, value->value, false, &text);
        else
            strbuf_add_char(&text, '-');
        put_half(view, at, column, CELL - 1, side + 1 == sides,
                 !value->given  ? ROLE_DIM
                 : value->taken ? ROLE_ASSUMED
                                : ROLE_VALUE,
                 memory);
    }
    if (i != view->at || row != history_state_row(view->app))
        return;
    frame_set_role(view->pen->frame, at, column, CELL - 1, ROLE_CELL);
    view->pen->frame->cursor_row = at;
    view->pen->frame->cursor_column = column + CELL - 2;
}

static void draw_change(const struct view *view, int from, enum history_row row, int column)
{
    const int at = place_of_row(view, row);
    const int sides = count_sides(view, row);
    double change;

    for (int side = 0; side < sides; side++) {
        char memory[24];
        struct strbuf text = STRBUF(memory);

        if (!history_change(view->history, from, view->at, row, (enum history_side)side, &change))
            continue;
        add_aligned(view, row, change, true, &text);
        put_half(view, at, column, CHANGE - 1, side + 1 == sides, ROLE_TEXT, memory);
    }
}

/* What changed since another pass, under a heading that names it. */
static void draw_changes(const struct view *view, int from, int column)
{
    const struct history_pass *since = &view->history->passes[from];
    const bool visit = since->visit != view->history->passes[view->at].visit;
    char memory[32];
    struct strbuf text = STRBUF(memory);

    pen_put_right(view->pen, view->row, column, CHANGE - 1, ROLE_LABEL, "change since");
    strbuf_addf(&text, visit ? "visit %d" : "pass %d", visit ? since->visit : since->pass);
    pen_put_right(view->pen, view->row + 1, column, CHANGE - 1, ROLE_LABEL, memory);
    for (int row = 0; row < HISTORY_ROW_COUNT_; row++)
        if (history_has_row(view->history, (enum history_row)row))
            draw_change(view, from, (enum history_row)row, column);
}

static void draw_grid(const struct view *view)
{
    const int before = view->at - 1;
    const int last_visit = history_last_visit(view->history, view->at);
    const int column = LABEL + view->shown * CELL;

    pen_put(view->pen, view->row, 1, LABEL - 2, ROLE_DIM, "visit");
    pen_put(view->pen, view->row + 1, 1, LABEL - 2, ROLE_DIM, "bass, treble");
    for (int row = 0; row < HISTORY_ROW_COUNT_; row++)
        if (history_has_row(view->history, (enum history_row)row))
            draw_label(view, (enum history_row)row);
    for (int i = view->left; i < view->left + view->shown; i++) {
        draw_pass_heading(view, i);
        for (int row = 0; row < HISTORY_ROW_COUNT_; row++)
            if (history_has_row(view->history, (enum history_row)row))
                draw_value(view, i, (enum history_row)row);
    }
    if (before >= 0)
        draw_changes(view, before, column);
    if (last_visit >= 0 && last_visit != before && view->pen->frame->columns >= WIDE)
        draw_changes(view, last_visit, column + CHANGE);
}

/* A rule that names the pass looked at, and which of the passes are on the screen. */
static void draw_rule(const struct view *view, int row)
{
    const struct history_pass *pass = &view->history->passes[view->at];
    const char *label =
        text_or(view, reading_key_pass(FIELD_PASS_LABEL, pass->visit, pass->pass), "");
    const int columns = view->pen->frame->columns, count = view->history->count;
    const int earlier = view->history->earlier;
    char memory[200];
    struct strbuf text = STRBUF(memory);
    int right = 0;

    pen_rule(view->pen, row, 0, columns);
    if (view->shown < count || earlier > 0) {
        strbuf_addf(&text, " %d to %d of %d, Left Right ", earlier + view->left + 1,
                    earlier + view->left + view->shown, earlier + count);
        right = utf8_columns(memory) + 1;
        pen_put(view->pen, row, columns - right, right, ROLE_KEY, memory);
    }
    strbuf_clear(&text);
    strbuf_addf(
        &text, " visit %d, pass %d%s%s%s", pass->visit, pass->pass, label[0] ? ", " : "", label,
        pass->visit == view->app->visit && pass->pass == view->app->pass ? " (in hand)" : "");
    const int used = pen_put_cut(view->pen, row, 1, columns - right - 4, ROLE_LABEL, memory);
    pen_put(view->pen, row, 1 + used, 1, ROLE_LABEL, " ");
}

/* In ASCII a plus-minus takes two columns, which the width must allow for. */
static int note_width(const struct pen *pen)
{
    return pen->frame->columns - (pen->utf8 ? 2 : 4);
}

/* The rows that all notes need, at most NOTES_MAX. */
static int notes_height(const struct pen *pen, const struct history_notes *notes)
{
    int height = 0;

    for (int i = 0; i < notes->count; i++)
        height += pen_wrap(pen, 0, 0, note_width(pen), 0, ROLE_TEXT, notes->notes[i].text);
    return height < NOTES_MAX ? height : NOTES_MAX;
}

/* Draws the notes that fit whole. */
static void draw_notes(const struct pen *pen, const struct history_notes *notes, int row, int rows)
{
    for (int i = 0; i < notes->count; i++) {
        const char *text = notes->notes[i].text;
        const int height = pen_wrap(pen, 0, 0, note_width(pen), 0, ROLE_TEXT, text);

        if (height > rows)
            continue;
        pen_wrap(pen, row, 1, note_width(pen), height, ROLE_TEXT, text);
        row += height;
        rows -= height;
    }
}

static void draw_trends(const struct view *view, int row, int rows)
{
    const enum history_row looked = history_state_row(view->app);
    const int columns = view->pen->frame->columns;
    const bool alone = looked == HISTORY_EMC;
    const struct trend_area left = {
        .row = row, .rows = rows, .column = 1, .width = alone ? columns - 2 : columns / 2 - 2};
    const struct trend_area right = {
        .row = row, .rows = rows, .column = columns / 2 + 1, .width = columns / 2 - 2};

    trend_view_draw(view->pen, &view->app->record, view->history, looked, view->at,
                    &view->app->units, &left);
    if (!alone)
        trend_view_draw(view->pen, &view->app->record, view->history, HISTORY_EMC, view->at,
                        &view->app->units, &right);
}

void history_view_draw(const struct pen *pen, const struct app *app, int row, int rows)
{
    const struct history *history = &history_state(app)->history;
    struct history_notes notes;
    struct view view = {.pen = pen, .app = app, .history = history, .row = row};

    view.at = history_state_find(app);
    if (view.at < 0) {
        pen_wrap(pen, row + rows / 2 - 1, 2, pen->frame->columns - 4, 3, ROLE_DIM,
                 "No pass yet. Measure relief, nut gaps, action and exposure on the Bench leaf, "
                 "and humidity and temperature on Intake: from the second pass on, this leaf "
                 "shows what moved.");
        return;
    }
    find_window(&view);
    history_notes_make(&app->record, history, view.at, history_state_row(app), &app->units, &notes);
    const int grid = HEADING_ROWS + history_rows_before(history, HISTORY_ROW_COUNT_);
    const int room = rows - grid - 1;
    const int most = room - TREND_ROWS_MIN, height = notes_height(pen, &notes);
    const int noted = height < most ? height : most;
    draw_grid(&view);
    draw_rule(&view, row + grid);
    draw_trends(&view, row + grid + 1, room - noted);
    draw_notes(pen, &notes, row + rows - noted, noted);
}
