/* SPDX-License-Identifier: MIT */
#include "ui/cents_view.h"

#include <math.h>

#include "base/num.h"
#include "ui/canvas.h"

enum { SCALE_WIDTH = 7, LEFT = 1 + SCALE_WIDTH };

/* The least that the scale reaches to either side: less would make hills of nothing. */
static const double least_reach_cents = 5;

struct view {
    const struct app *app;
    const struct pitch_curve *curve;
    const struct fret_pitch *pitch; /* as predicted */
    int frets, fret;
    int columns, rows; /* of the canvas */
    double low, high;
};

static void widen(struct view *view, double cents)
{
    view->low = fmin(view->low, cents);
    view->high = fmax(view->high, cents);
}

static void find_reach(struct view *view)
{
    const double reach = fmax(least_reach_cents, view->app->pitch_plan.tolerance_cents);

    view->low = -reach;
    view->high = reach;
    for (int n = 1; n <= view->frets; n++) {
        if (view->pitch->known[n])
            widen(view, view->pitch->cents[n]);
        if (view->curve->has_best)
            widen(view, view->curve->best_cents[n]);
    }
    for (int i = 0; i < view->curve->read.count; i++)
        widen(view, view->curve->read.at[i].cents);
    /* Whole cents at both ends, which is what the scale is labelled with. */
    view->low = floor(view->low);
    view->high = ceil(view->high);
}

static double dot_x(const struct view *view, double fret)
{
    const int last = view->columns * CANVAS_ACROSS - 1;

    return view->frets > 1 ? (fret - 1) * last / (view->frets - 1) : last / 2.0;
}

static int dot_y(const struct view *view, double cents)
{
    return (int)lround((view->high - cents) * (view->rows * CANVAS_DOWN - 1) /
                       (view->high - view->low));
}

static void draw_level(struct canvas *canvas, const struct view *view, double cents, int dash)
{
    for (int x = 0; x < canvas->columns * CANVAS_ACROSS; x += dash)
        canvas_dot(canvas, LAYER_FRET, x, dot_y(view, cents));
}

/* From the note of a fret to the next one's. */
static void draw_stretch(struct canvas *canvas, const struct view *view, enum canvas_layer layer,
                         int fret, const double *cents, int dash)
{
    const double from = dot_x(view, fret), to = dot_x(view, fret + 1);

    for (int x = (int)lround(from); x <= (int)lround(to); x++) {
        const double share = to > from ? fmin(1, fmax(0, (x - from) / (to - from))) : 0;

        if (x % dash == 0)
            canvas_dot(canvas, layer, x,
                       dot_y(view, cents[fret] + share * (cents[fret + 1] - cents[fret])));
    }
}

static void draw_curves(struct canvas *canvas, const struct view *view)
{
    for (int n = 1; n < view->frets; n++) {
        if (view->curve->has_best)
            draw_stretch(canvas, view, LAYER_AFTER, n, view->curve->best_cents, 4);
        if (view->pitch->known[n] && view->pitch->known[n + 1])
            draw_stretch(canvas, view, LAYER_NOW, n, view->pitch->cents, 1);
    }
    if (view->frets == 1 && view->pitch->known[1])
        canvas_dot(canvas, LAYER_NOW, (int)dot_x(view, 1), dot_y(view, view->pitch->cents[1]));
}

static int column_of(const struct view *view, int fret)
{
    return LEFT + (int)lround(dot_x(view, fret)) / CANVAS_ACROSS;
}

static void draw_readings(const struct pen *pen, const struct view *view, int row)
{
    for (int i = 0; i < view->curve->read.count; i++) {
        const struct fret_cents *reading = &view->curve->read.at[i];

        frame_put_rune(pen->frame, row + dot_y(view, reading->cents) / CANVAS_DOWN,
                       column_of(view, reading->fret), ROLE_MARK,
                       reading->fret == view->fret ? 'O' : 'o');
    }
}

static void draw_mark_of_scale(const struct pen *pen, const struct view *view, double cents,
                               int row)
{
    char memory[24];
    struct strbuf text = STRBUF(memory);

    if (cents > 0)
        strbuf_add_char(&text, '+');
    num_format_fixed(cents, 0, false, &text);
    pen_put_right(pen, row + dot_y(view, cents) / CANVAS_DOWN, 0, SCALE_WIDTH, ROLE_DIM, memory);
}

static void draw_picture(const struct pen *pen, const struct view *view, int row)
{
    const double tolerance = view->app->pitch_plan.tolerance_cents;
    struct canvas canvas;

    if (canvas_init(&canvas, view->rows, view->columns) != STATUS_OK)
        return;
    draw_level(&canvas, view, 0, 2);
    draw_level(&canvas, view, tolerance, 6);
    draw_level(&canvas, view, -tolerance, 6);
    draw_curves(&canvas, view);
    canvas_draw(&canvas, pen, row, LEFT);
    canvas_done(&canvas);
    draw_readings(pen, view, row);
    draw_mark_of_scale(pen, view, view->high, row);
    draw_mark_of_scale(pen, view, view->low, row);
    draw_mark_of_scale(pen, view, 0, row);
}

static void draw_frets(const struct pen *pen, const struct view *view, int row)
{
    int free = LEFT;

    pen_put_right(pen, row, 0, SCALE_WIDTH, ROLE_DIM, "fret");
    for (int n = 1; n <= view->frets; n++) {
        const int column = column_of(view, n) - (n > 9);
        char memory[16];
        struct strbuf text = STRBUF(memory);

        strbuf_addf(&text, "%d", n);
        if (column >= free)
            free = column + 1 +
                   pen_put(pen, row, column, 2, n == view->fret ? ROLE_MARK : ROLE_DIM, memory);
    }
}

static int draw_key(const struct pen *pen, int row, int column, const char *words, enum role role,
                    const char *braille, const char *ascii)
{
    column += pen_put(pen, row, column, pen->frame->columns - column, ROLE_LABEL, words);
    return column + 2 +
           pen_put(pen, row, column, pen->frame->columns - column, role,
                   pen->utf8 ? braille : ascii);
}

static void draw_heading(const struct pen *pen, const struct view *view, int row)
{
    char memory[48];
    struct strbuf text = STRBUF(memory);
    int column = 1;

    strbuf_addf(&text, "string %d, cents", view->curve->string);
    column += pen_put(pen, row, column, 40, ROLE_LABEL, memory) + 2;
    if (view->pitch->known[1])
        column = draw_key(pen, row, column, "predicted ", ROLE_NOW,
                          "\xE2\xA0\xA4\xE2\xA0\xA4\xE2\xA0\xA4", "---");
    if (view->curve->has_best)
        column = draw_key(pen, row, column, "best, moves done ", ROLE_AFTER,
                          "\xE2\xA0\x84\xE2\xA0\x84\xE2\xA0\x84", ":::");
    if (view->curve->read.count > 0)
        column = draw_key(pen, row, column, "read ", ROLE_MARK, "o", "o");
    strbuf_clear(&text);
    strbuf_add(&text, "in tune \xC2\xB1");
    num_format(view->app->pitch_plan.tolerance_cents, &text);
    pen_put(pen, row, column, pen->frame->columns - column, ROLE_LABEL, memory);
}

void cents_view_draw(const struct pen *pen, const struct app *app, int fret, int row, int rows)
{
    const struct derived *derived = app_shown(app);
    const struct pitch_curve *curve = &app->pitch_plan.curve;
    struct view view = {.app = app, .curve = curve, .fret = fret};

    view.frets = derived->setup.board.frets;
    if (curve->string < 1 || view.frets < 1)
        return;
    view.pitch = &derived->pitch[curve->string];
    if (!view.pitch->known[1] && curve->read.count == 0) {
        pen_put(pen, row + rows / 2, 2, pen->frame->columns - 3, ROLE_DIM,
                "No curve yet: cents read here make its marks, gauges and heights the rest.");
        return;
    }
    view.columns = pen->frame->columns - LEFT - 1;
    view.rows = rows - 2;
    find_reach(&view);
    draw_heading(pen, &view, row);
    draw_picture(pen, &view, row + 1);
    draw_frets(pen, &view, row + rows - 1);
}
