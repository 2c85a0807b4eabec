/* SPDX-License-Identifier: MIT */
#include "ui/trend_view.h"

#include <math.h>

#include "base/utf8.h"
#include "ui/canvas.h"

enum { SCALE_WIDTH = 6, DASH = 3 };

struct view {
    const struct record *record;
    const struct history *history;
    enum history_row row;
    int at;
    const struct shop_units *units;
    int first, last;   /* the passes that bound it */
    int columns, rows; /* of the canvas */
    double low, high;  /* values */
};

static bool is_point(const struct view *view, int i, enum history_side side)
{
    return view->history->passes[i].dated && view->history->passes[i].value[view->row][side].given;
}

static void widen(struct view *view, int i, double value)
{
    const struct history_pass *passes = view->history->passes;
    const bool none = view->first < 0;

    view->low = none ? value : fmin(view->low, value);
    view->high = none ? value : fmax(view->high, value);
    if (none || passes[i].day < passes[view->first].day)
        view->first = i;
    if (none || passes[i].day >= passes[view->last].day)
        view->last = i;
}

/* What is drawn, and the bounds of it; false for nothing. */
static bool find_bounds(struct view *view)
{
    view->first = view->last = -1;
    for (int i = 0; i < view->history->count; i++)
        for (int side = 0; side < HISTORY_SIDE_COUNT_; side++)
            if (is_point(view, i, (enum history_side)side))
                widen(view, i, view->history->passes[i].value[view->row][side].value);
    return view->first >= 0;
}

static int dot_x(const struct view *view, int i)
{
    const double first = view->history->passes[view->first].day;
    const double span = view->history->passes[view->last].day - first;
    const int last = view->columns * CANVAS_ACROSS - 1;

    return span > 0 ? (int)lround((view->history->passes[i].day - first) / span * last) : last / 2;
}

static int dot_y(const struct view *view, double value)
{
    const double span = view->high - view->low;
    const int last = view->rows * CANVAS_DOWN - 1;

    return span > 0 ? (int)lround((view->high - value) / span * last) : last / 2;
}

static void draw_stretch(struct canvas *canvas, const struct view *view, enum canvas_layer layer,
                         int from, int to, enum history_side side, int dash)
{
    const int x0 = dot_x(view, from), x1 = dot_x(view, to);
    const int y0 = dot_y(view, view->history->passes[from].value[view->row][side].value);
    const int y1 = dot_y(view, view->history->passes[to].value[view->row][side].value);
    const int across = x1 > x0 ? x1 - x0 : x0 - x1, down = y1 > y0 ? y1 - y0 : y0 - y1;
    const int steps = across > down ? across : down;

    for (int k = 0; k <= steps; k += dash)
        canvas_dot(canvas, layer, x0 + (steps ? (x1 - x0) * k / steps : 0),
                   y0 + (steps ? (y1 - y0) * k / steps : 0));
}

static void draw_side(struct canvas *canvas, const struct view *view, enum canvas_layer layer,
                      enum history_side side, int dash)
{
    int before = -1;

    for (int i = 0; i < view->history->count; i++) {
        if (!is_point(view, i, side))
            continue;
        const int x = dot_x(view, i);
        const int y = dot_y(view, view->history->passes[i].value[view->row][side].value);

        if (before >= 0)
            draw_stretch(canvas, view, layer, before, i, side, dash);
        /* Readings stand out of the line between them. */
        for (int dx = -1; dx <= 1; dx++)
            canvas_dot(canvas, layer, x + dx, y);
        canvas_dot(canvas, layer, x, y - 1);
        canvas_dot(canvas, layer, x, y + 1);
        before = i;
    }
}

static void draw_post(struct canvas *canvas, const struct view *view)
{
    const struct history_pass *pass = &view->history->passes[view->at];

    if (!pass->dated || pass->day < view->history->passes[view->first].day ||
        pass->day > view->history->passes[view->last].day)
        return;
    for (int y = 0; y < view->rows * CANVAS_DOWN; y += 2)
        canvas_dot(canvas, LAYER_FRET, dot_x(view, view->at), y);
}

static void draw_picture(const struct pen *pen, const struct view *view, int row, int column)
{
    struct canvas canvas;

    if (canvas_init(&canvas, view->rows, view->columns) != STATUS_OK)
        return;
    draw_post(&canvas, view);
    draw_side(&canvas, view, LAYER_AFTER, HISTORY_TREBLE, DASH);
    draw_side(&canvas, view, LAYER_NOW, HISTORY_BASS, 1);
    canvas_draw(&canvas, pen, row, column);
    canvas_done(&canvas);
}

static void draw_scale(const struct pen *pen, const struct view *view, int row, int column)
{
    char memory[24];
    struct strbuf text = STRBUF(memory);
    const bool flat = !(view->high > view->low);

    history_add(&text, view->row, view->high, false, view->units);
    pen_put_right(pen, flat ? row + dot_y(view, view->high) / CANVAS_DOWN : row, column,
                  SCALE_WIDTH - 1, ROLE_DIM, memory);
    if (flat)
        return;
    strbuf_clear(&text);
    history_add(&text, view->row, view->low, false, view->units);
    pen_put_right(pen, row + view->rows - 1, column, SCALE_WIDTH - 1, ROLE_DIM, memory);
}

static bool has_side(const struct view *view, enum history_side side)
{
    for (int i = 0; i < view->history->count; i++)
        if (is_point(view, i, side))
            return true;
    return false;
}

static void draw_heading(const struct pen *pen, const struct view *view,
                         const struct trend_area *area)
{
    char memory[64];
    struct strbuf text = STRBUF(memory);
    const int end = area->column + area->width;
    int column = area->column;

    strbuf_addf(&text, "%s, %s ", history_row_name(view->row),
                history_row_unit(view->row, view->units));
    column += pen_put(pen, area->row, column, end - column, ROLE_LABEL, memory);
    if (!has_side(view, HISTORY_TREBLE))
        return;
    column += pen_put(pen, area->row, column, end - column, ROLE_LABEL, " bass ");
    column += pen_put(pen, area->row, column, end - column, ROLE_NOW,
                      pen->utf8 ? "\xE2\xA0\xA4\xE2\xA0\xA4" : "--");
    column += pen_put(pen, area->row, column, end - column, ROLE_LABEL, " treble ");
    pen_put(pen, area->row, column, end - column, ROLE_AFTER,
            pen->utf8 ? "\xE2\xA0\x84\xE2\xA0\x84" : "::");
}

static const char *date_of(const struct view *view, int i)
{
    const struct reading_key key =
        reading_key_visit(FIELD_VISIT_DATE, view->history->passes[i].visit);
    const char *text = record_text(view->record, &key);

    return text ? text : "";
}

static void draw_dates(const struct pen *pen, const struct view *view, int row, int column)
{
    const char *first = date_of(view, view->first), *last = date_of(view, view->last);

    pen_put(pen, row, column, view->columns, ROLE_DIM, first);
    if (view->history->passes[view->first].visit == view->history->passes[view->last].visit)
        return;
    if (utf8_columns(first) + utf8_columns(last) < view->columns)
        pen_put_right(pen, row, column, view->columns, ROLE_DIM, last);
}

void trend_view_draw(const struct pen *pen, const struct record *record,
                     const struct history *history, enum history_row row, int at,
                     const struct shop_units *units, const struct trend_area *area)
{
    struct view view = {.record = record,
                        .history = history,
                        .row = row,
                        .at = at,
                        .units = units,
                        .columns = area->width - SCALE_WIDTH - 1,
                        .rows = area->rows - 2};
    const int column = area->column + SCALE_WIDTH;

    draw_heading(pen, &view, area);
    if (!find_bounds(&view)) {
        pen_wrap(pen, area->row + 2, area->column + 1, area->width - 2, 2, ROLE_DIM,
                 row >= HISTORY_HUMIDITY
                     ? "Nothing to draw yet: humidity and temperature on Intake make it."
                     : "Nothing to draw yet: readings on Bench and the date on Intake make it.");
        return;
    }
    draw_picture(pen, &view, area->row + 1, column);
    draw_scale(pen, &view, area->row + 1, area->column);
    draw_dates(pen, &view, area->row + area->rows - 1, column);
}
