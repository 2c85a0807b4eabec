/* SPDX-License-Identifier: MIT */
#include "draw/picture_view.h"

#include <math.h>
#include <string.h>

#include "draw/canvas.h"

/* How each kind of line looks: every `dash`-th dot is set. The nut is left out: it is too small. */
static const struct {
    enum canvas_layer layer;
    int dash;
    enum role role;
    const char *braille, *ascii; /* in a key */
} looks[PICTURE_ROLE_COUNT_] = {
    [PICTURE_CROWN] = {LAYER_FRET, 1, ROLE_FRET, "\xE2\xA0\x83\xE2\xA0\x83\xE2\xA0\x83", "^^^"},
    [PICTURE_POST] = {LAYER_FRET, 2, ROLE_FRET, "", ""},
    [PICTURE_OTHER] = {LAYER_AFTER, 4, ROLE_AFTER, "\xE2\xA0\x84\xE2\xA0\x84\xE2\xA0\x84", ":::"},
    [PICTURE_MAIN] = {LAYER_NOW, 1, ROLE_NOW, "\xE2\xA0\xA4\xE2\xA0\xA4\xE2\xA0\xA4", "---"},
    [PICTURE_MARK] = {LAYER_MARK, 1, ROLE_MARK, "o", "o"},
};

struct view {
    const struct pen *pen;
    const struct picture *picture;
    const struct picture_area *area;
    struct canvas canvas;
};

static int last_dot(int cells, int dots)
{
    return cells * dots - 1;
}

static double dot_x(const struct view *view, double x)
{
    return picture_across(view->picture, x) * last_dot(view->area->columns, CANVAS_ACROSS);
}

static double dot_y(const struct view *view, double y)
{
    return picture_down(view->picture, y) * last_dot(view->area->rows, CANVAS_DOWN);
}

static int row_of(const struct view *view, double y)
{
    return view->area->row + (int)lround(dot_y(view, y)) / CANVAS_DOWN;
}

static int column_of(const struct view *view, double x)
{
    return view->area->column + (int)lround(dot_x(view, x)) / CANVAS_ACROSS;
}

static void draw_level(struct view *view, double y, int dash)
{
    const double from[2] = {0, dot_y(view, y)};
    const double to[2] = {last_dot(view->area->columns, CANVAS_ACROSS), from[1]};

    canvas_line(&view->canvas, LAYER_FRET, from, to, dash);
}

/* Sets a point and dots next to it: below a crown, and all round a reading, so that
 * it stands out from its line. */
static void draw_point(struct view *view, const struct picture_line *line, const double at[2])
{
    const int x = (int)lround(at[0]), y = (int)lround(at[1]);
    const enum canvas_layer layer = looks[line->role].layer;

    canvas_dot(&view->canvas, layer, x, y);
    if (line->read || line->role == PICTURE_CROWN)
        canvas_dot(&view->canvas, layer, x, y + 1);
    if (!line->read)
        return;
    canvas_dot(&view->canvas, layer, x, y - 1);
    canvas_dot(&view->canvas, layer, x - 1, y);
    canvas_dot(&view->canvas, layer, x + 1, y);
}

static void draw_line(struct view *view, const struct picture_line *line)
{
    const struct picture_point *points = view->picture->points + line->first;
    double before[2] = {0, 0};

    for (int i = 0; i < line->count; i++) {
        const double at[2] = {dot_x(view, points[i].x), dot_y(view, points[i].y)};

        if (line->read || line->count == 1 || (line->role == PICTURE_CROWN && i > 0))
            draw_point(view, line, at);
        if (i > 0 && line->role != PICTURE_CROWN)
            canvas_line(&view->canvas, looks[line->role].layer, before, at, looks[line->role].dash);
        before[0] = at[0];
        before[1] = at[1];
    }
}

static void draw_dots(struct view *view)
{
    const struct picture *picture = view->picture;

    if (picture->has_band) {
        draw_level(view, (picture->band_low + picture->band_high) / 2, 2);
        draw_level(view, picture->band_low, 6);
        draw_level(view, picture->band_high, 6);
    }
    for (int i = 0; i < picture->line_count; i++)
        if (looks[picture->lines[i].role].dash > 0)
            draw_line(view, &picture->lines[i]);
    canvas_draw(&view->canvas, view->pen, view->area->row, view->area->column);
}

/* Two numbers in one row would be read as one, so only the later one is shown: the zero. */
static void draw_scale(const struct view *view)
{
    const struct picture *picture = view->picture;
    const struct picture_area *area = view->area;

    for (int i = 0; i < picture->level_count; i++) {
        const int row = row_of(view, picture->levels[i].y);
        bool alone = true;

        for (int later = i + 1; later < picture->level_count; later++)
            alone = alone && row_of(view, picture->levels[later].y) != row;
        if (alone)
            pen_put_right(view->pen, row, area->column - 1 - area->scale, area->scale, ROLE_DIM,
                          picture->levels[i].text);
    }
}

/* A word that ends where its line does; where two lines end in one row, "after, now". */
static void draw_labels(const struct view *view)
{
    const struct picture *picture = view->picture;
    int taken_row = -1, taken_column = 0;

    for (int i = picture->label_count - 1; i >= 0; i--) {
        const struct picture_label *label = &picture->labels[i];
        const int row = row_of(view, label->at.y), width = (int)strlen(label->word);
        int column = column_of(view, label->at.x) - width + 1;

        if (width > 1) {
            if (row == taken_row) {
                column = taken_column - width - 2;
                pen_put(view->pen, row, column + width, 2, looks[label->role].role, ", ");
            }
            taken_row = row;
            taken_column = column;
        }
        pen_put(view->pen, row, column, width, looks[label->role].role, label->word);
    }
}

void picture_view_draw(const struct pen *pen, const struct picture *picture,
                       const struct picture_area *area)
{
    struct view view = {.pen = pen, .picture = picture, .area = area};

    if (canvas_init(&view.canvas, area->rows, area->columns) != STATUS_OK)
        return;
    draw_dots(&view);
    canvas_done(&view.canvas);
    for (int i = 0; i < picture->spot_count; i++)
        frame_put_rune(pen->frame, row_of(&view, picture->spots[i].at.y),
                       column_of(&view, picture->spots[i].at.x), ROLE_MARK,
                       picture->spots[i].in_hand ? 'O' : 'o');
    draw_labels(&view);
    draw_scale(&view);
}

void picture_view_ticks(const struct pen *pen, const struct picture *picture,
                        const struct picture_area *area, int free)
{
    const struct view view = {.pen = pen, .picture = picture, .area = area};

    for (int i = 0; i < picture->tick_count; i++) {
        const struct picture_tick *tick = &picture->ticks[i];
        const int column = column_of(&view, tick->x) - (tick->number > 9);
        char memory[24];
        struct strbuf text = STRBUF(memory);

        strbuf_addf(&text, "%d%s%s", tick->number, tick->word ? " " : "",
                    tick->word ? tick->word : "");
        if (column >= free)
            free = column + 1 +
                   pen_put(pen, area->row + area->rows, column, 8,
                           tick->in_hand ? ROLE_MARK : ROLE_DIM, memory);
    }
}

int picture_view_key(const struct pen *pen, int row, int column, const char *words,
                     enum picture_role role, int gap)
{
    const int end = pen->frame->columns;
    const int used = pen_put(pen, row, column, end - column, ROLE_LABEL, words);

    return used + gap +
           pen_put(pen, row, column + used, end - column - used, looks[role].role,
                   pen->utf8 ? looks[role].braille : looks[role].ascii);
}

double picture_view_times(const struct picture *picture, const struct picture_area *area)
{
    return picture_times(picture, last_dot(area->columns, CANVAS_ACROSS),
                         last_dot(area->rows, CANVAS_DOWN));
}
