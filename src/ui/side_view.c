/* SPDX-License-Identifier: MIT */
#include "ui/side_view.h"

#include <math.h>

#include "base/num.h"
#include "model/note_name.h"
#include "ui/canvas.h"

enum { LEFT = 1 }; /* the column that the nut stands in */

/* What is drawn, and how millimetres become dots. */
struct view {
    const struct derived *derived;
    const struct app *app;
    int string;
    int columns, rows; /* of the canvas */
    double x_last_mm;
    double low_mm, high_mm;
};

static double crown_mm(const struct view *view, const struct neck_curve *curve, int fret)
{
    return neck_curve_height_mm(curve, &view->derived->setup.board, view->string, fret);
}

static double line_mm(const struct view *view, const struct string_line *line, double x_mm)
{
    const double contact = view->derived->setup.board.contact_mm[view->string];

    return string_line_height_mm(line, contact, x_mm);
}

static void widen(struct view *view, double height_mm)
{
    view->low_mm = fmin(view->low_mm, height_mm);
    view->high_mm = fmax(view->high_mm, height_mm);
}

static void widen_by_line(struct view *view, const struct string_line *line)
{
    if (!line->known)
        return;
    widen(view, line_mm(view, line, 0));
    widen(view, line_mm(view, line, view->x_last_mm));
}

static void find_heights(struct view *view)
{
    const struct string_lines *lines = &view->derived->lines;

    view->low_mm = view->high_mm = 0;
    for (int n = 1; n <= view->derived->setup.board.frets; n++)
        widen(view, crown_mm(view, &lines->curve_now, n));
    widen_by_line(view, &lines->now[view->string]);
    widen_by_line(view, &lines->after[view->string]);
    /* A flat neck without strings would have no height to draw. */
    if (view->high_mm - view->low_mm < 0.5)
        view->high_mm = view->low_mm + 0.5;
}

static double mm_across(const struct view *view)
{
    return view->x_last_mm / (view->columns * CANVAS_ACROSS - 1);
}

static double mm_down(const struct view *view)
{
    return (view->high_mm - view->low_mm) / (view->rows * CANVAS_DOWN - 1);
}

static int dot_x(const struct view *view, double x_mm)
{
    return (int)lround(x_mm / mm_across(view));
}

static int dot_y(const struct view *view, double height_mm)
{
    return (int)lround((view->high_mm - height_mm) / mm_down(view));
}

static void draw_line(struct canvas *canvas, const struct view *view, enum canvas_layer layer,
                      const struct string_line *line, int dash)
{
    if (!line->known)
        return;
    for (int x = 0; x < canvas->columns * CANVAS_ACROSS; x++)
        if (dash == 0 || x % dash == 0)
            canvas_dot(canvas, layer, x, dot_y(view, line_mm(view, line, x * mm_across(view))));
}

static void draw_crowns(struct canvas *canvas, const struct view *view)
{
    const struct board *board = &view->derived->setup.board;

    for (int n = 1; n <= board->frets; n++) {
        const int x = dot_x(view, board->station_mm[view->string][n]);
        const int y = dot_y(view, crown_mm(view, &view->derived->lines.curve_now, n));

        canvas_dot(canvas, LAYER_FRET, x, y);
        canvas_dot(canvas, LAYER_FRET, x, y + 1);
    }
}

/* The fret at which the reading in hand is taken; 0 where it is at the saddle. */
static int marked_fret(const struct view *view)
{
    const struct route_cell *cell = app_cell(view->app);
    const struct board *board = &view->derived->setup.board;

    if (!cell)
        return 0;
    switch (cell->row) {
    case ROW_RELIEF:
        return board->has_relief ? board->relief_fret : 0;
    case ROW_GAP:
        return 1;
    case ROW_ACTION:
        return board->action_fret > 0 ? board->action_fret : 0;
    case ROW_EXPOSURE:
    case ROW_COUNT_:
        break;
    }
    return 0;
}

/* A dotted post from the crown to the string, or to the chord where relief is read. */
static void draw_mark(struct canvas *canvas, const struct view *view)
{
    const struct board *board = &view->derived->setup.board;
    const struct string_line *line = &view->derived->lines.now[view->string];
    const int fret = marked_fret(view);

    if (fret < 1 || fret > board->frets)
        return;
    const double x_mm = board->station_mm[view->string][fret];
    const bool relief = app_cell(view->app)->row == ROW_RELIEF;
    const double top_mm = line->known && !relief ? line_mm(view, line, x_mm) : 0;
    const int low = dot_y(view, crown_mm(view, &view->derived->lines.curve_now, fret));
    for (int y = dot_y(view, top_mm); y <= low; y++)
        canvas_dot(canvas, LAYER_MARK, dot_x(view, x_mm), y);
}

static void draw_picture(const struct pen *pen, const struct view *view, int row)
{
    const struct string_lines *lines = &view->derived->lines;
    struct canvas canvas;

    if (canvas_init(&canvas, view->rows, view->columns) != STATUS_OK)
        return;
    draw_crowns(&canvas, view);
    draw_line(&canvas, view, LAYER_AFTER, &lines->after[view->string], 4);
    draw_line(&canvas, view, LAYER_NOW, &lines->now[view->string], 0);
    draw_mark(&canvas, view);
    canvas_draw(&canvas, pen, row, LEFT);
    canvas_done(&canvas);
}

/* Fret numbers under their frets, as many as find room; the join is named. */
static void draw_frets(const struct pen *pen, const struct view *view, int row)
{
    const struct board *board = &view->derived->setup.board;
    int free = LEFT + pen_put(pen, row, 0, 4, ROLE_DIM, "nut") + 1;

    for (int n = 1; n <= board->frets; n++) {
        char memory[24];
        struct strbuf label = STRBUF(memory);
        const int column = LEFT + dot_x(view, board->station_mm[view->string][n]) / CANVAS_ACROSS;

        strbuf_addf(&label, "%d", n);
        if (n == board->join_fret)
            strbuf_add(&label, " join");
        if (column - (n > 9) < free)
            continue;
        free = column - (n > 9) + 1 +
               pen_put(pen, row, column - (n > 9), 8, n == marked_fret(view) ? ROLE_MARK : ROLE_DIM,
                       memory);
    }
}

static void draw_heading(const struct pen *pen, const struct view *view, int row)
{
    const struct string_lines *lines = &view->derived->lines;
    char memory[64];
    struct strbuf text = STRBUF(memory);
    int column = 1;

    strbuf_add(&text, "string ");
    note_name_add_string(&text, &view->app->record, view->string);
    strbuf_add(&text, "  heights \xC3\x97");
    num_format_fixed(round(mm_across(view) / mm_down(view)), 0, false, &text);
    column += pen_put(pen, row, column, 40, ROLE_LABEL, memory) + 3;
    if (lines->now[view->string].known) {
        column += pen_put(pen, row, column, 8, ROLE_LABEL, "now ");
        column += pen_put(pen, row, column, 8, ROLE_NOW,
                          pen->utf8 ? "\xE2\xA0\xA4\xE2\xA0\xA4\xE2\xA0\xA4" : "---") +
                  3;
    }
    if (lines->after[view->string].known) {
        column += pen_put(pen, row, column, 16, ROLE_LABEL, "after the moves ");
        column += pen_put(pen, row, column, 8, ROLE_AFTER,
                          pen->utf8 ? "\xE2\xA0\x84\xE2\xA0\x84\xE2\xA0\x84" : ":::") +
                  3;
    }
    pen_put(pen, row, column, 8, ROLE_LABEL, "crowns ");
    pen_put(pen, row, column + 7, 4, ROLE_FRET,
            pen->utf8 ? "\xE2\xA0\x83\xE2\xA0\x83\xE2\xA0\x83" : "^^^");
}

static const char *nothing_to_draw(const struct derived *derived)
{
    if (!derived->setup.has_board || !derived->setup.board.has_curve)
        return "No picture yet: scale, strings, frets and join fret, on Intake, make it.";
    return "No picture yet: relief makes the neck, a nut gap and an action its string.";
}

void side_view_draw(const struct pen *pen, const struct app *app, int row, int rows)
{
    const struct derived *derived = app_shown(app);
    const struct route_cell *cell = app_cell(app);
    const struct board *board = &derived->setup.board;
    struct view view = {.derived = derived, .app = app};

    view.string = cell ? cell->string : board->strings;
    if (!derived->lines.has_now || board->frets < 1 || view.string > board->strings) {
        pen_put(pen, row + rows / 2, 2, pen->frame->columns - 2, ROLE_DIM,
                nothing_to_draw(derived));
        return;
    }
    view.columns = pen->frame->columns - 2 * LEFT;
    view.rows = rows - 2;
    view.x_last_mm = board->station_mm[view.string][board->frets];
    find_heights(&view);
    draw_heading(pen, &view, row);
    draw_picture(pen, &view, row + 1);
    draw_frets(pen, &view, row + rows - 1);
}
