/* SPDX-License-Identifier: MIT */
#include "leaf/neck/section_view.h"

#include <math.h>
#include <string.h>

#include "words/amount.h"
#include "draw/canvas.h"

enum {
    LEGEND = 17,    /* columns right of the picture */
    RULER_DOTS = 3, /* of the canvas, below the neck: a gap, long ticks, short ticks */
    TICKS = 2,      /* a number at every second tick */
};

/* How mm become dots: across from the bass edge, up from the glue line. The numbers beside the
 * picture are in `unit`, inches or mm. */
struct drawing {
    const struct neck_facts *neck;
    enum unit unit;
    struct canvas canvas;
    double dots_per_mm;
};

static int dot_x(const struct drawing *drawing, double x_mm)
{
    return (int)lround(x_mm * drawing->dots_per_mm);
}

static int dot_y(const struct drawing *drawing, double y_mm)
{
    return (int)lround((drawing->neck->board_mm.value - y_mm) * drawing->dots_per_mm);
}

/* A line through points in mm. */
static void draw_path(struct drawing *drawing, enum canvas_layer layer, int dash,
                      const double (*mm)[2], int count)
{
    double before[2] = {0, 0};

    for (int i = 0; i < count; i++) {
        const double at[2] = {dot_x(drawing, mm[i][0]), dot_y(drawing, mm[i][1])};

        if (i > 0)
            canvas_line(&drawing->canvas, layer, before, at, dash);
        memcpy(before, at, sizeof before);
    }
}

/* A slot in the middle of the shaft's flat face. */
static void draw_cut(struct drawing *drawing, enum canvas_layer layer, int dash, double width_mm,
                     double depth_mm)
{
    const double middle = drawing->neck->width_mm.value / 2, half = width_mm / 2;
    const double path[][2] = {{middle - half, 0},
                              {middle - half, -depth_mm},
                              {middle + half, -depth_mm},
                              {middle + half, 0}};

    draw_path(drawing, layer, dash, path, 4);
}

static void draw_board(struct drawing *drawing)
{
    const double width = drawing->neck->width_mm.value, top = drawing->neck->board_mm.value;
    const double path[][2] = {{0, 0}, {0, top}, {width, top}, {width, 0}, {0, 0}};

    draw_path(drawing, LAYER_NOW, 1, path, 5);
}

/* Half an ellipse: a dot for its depth at every step across, and for its width at every step down,
 * so that it has no gaps. */
static void draw_shaft(struct drawing *drawing)
{
    const double half = drawing->neck->width_mm.value / 2;
    const double depth = drawing->neck->shaft_mm.value;
    const double step = 1 / drawing->dots_per_mm;

    for (double x = -half; x <= half; x += step)
        canvas_dot(&drawing->canvas, LAYER_NOW, dot_x(drawing, half + x),
                   dot_y(drawing, -depth * sqrt(fmax(0, 1 - x * x / (half * half)))));
    for (double y = 0; y <= depth; y += step) {
        const double out = half * sqrt(fmax(0, 1 - y * y / (depth * depth)));

        canvas_dot(&drawing->canvas, LAYER_NOW, dot_x(drawing, half - out), dot_y(drawing, -y));
        canvas_dot(&drawing->canvas, LAYER_NOW, dot_x(drawing, half + out), dot_y(drawing, -y));
    }
}

static bool has_recut(const struct neck_facts *neck)
{
    return neck->recut_width_mm.given && neck->recut_depth_mm.given;
}

static bool has_slot(const struct neck_facts *neck)
{
    return neck->slot_width_mm.given && neck->slot_depth_mm.given;
}

/* The rod lies on the bottom of its slot, the recut one if one is planned.
 * Its width is not entered, so it is drawn to fill the slot. */
static void draw_rod(struct drawing *drawing)
{
    const struct neck_facts *neck = drawing->neck;
    const bool recut = has_recut(neck);
    const double width = recut ? neck->recut_width_mm.value : neck->slot_width_mm.value;
    const double depth = recut ? neck->recut_depth_mm.value : neck->slot_depth_mm.value;
    const double middle = neck->width_mm.value / 2;

    if (!neck->rod_height_mm.given || !(recut || has_slot(neck)))
        return;
    const int top = dot_y(drawing, neck->rod_height_mm.value - depth);
    for (int y = top; y < dot_y(drawing, -depth); y++)
        for (int x = dot_x(drawing, middle - width / 2) + 1; x < dot_x(drawing, middle + width / 2);
             x++)
            if ((x + y) % 2 == 0)
                canvas_dot(&drawing->canvas, LAYER_FRET, x, y);
}

/* Marks the size that the cell in hand holds, where it is measured. */
static void draw_mark(struct drawing *drawing, enum field_id field)
{
    const struct neck_facts *neck = drawing->neck;
    const double width = neck->width_mm.value;
    const double through_board[][2] = {{width / 2, neck->board_mm.value}, {width / 2, 0}};
    const double through_shaft[][2] = {{width / 2, 0}, {width / 2, -neck->shaft_mm.value}};
    const double face[][2] = {{0, 0}, {width, 0}};

    switch (field) {
    case FIELD_THICKNESS:
        draw_path(drawing, LAYER_MARK, 1, through_board, 2);
        return;
    case FIELD_SHAFT_FIRST:
        draw_path(drawing, LAYER_MARK, 1, through_shaft, 2);
        return;
    case FIELD_WIDTH_NUT:
    case FIELD_WIDTH_JOIN:
        draw_path(drawing, LAYER_MARK, 1, face, 2);
        return;
    case FIELD_SLOT_WIDTH:
    case FIELD_SLOT_DEPTH:
        if (has_slot(neck))
            draw_cut(drawing, LAYER_MARK, 1, neck->slot_width_mm.value, neck->slot_depth_mm.value);
        return;
    case FIELD_RECUT_WIDTH:
    case FIELD_RECUT_DEPTH:
        if (has_recut(neck))
            draw_cut(drawing, LAYER_MARK, 1, neck->recut_width_mm.value,
                     neck->recut_depth_mm.value);
        return;
    default:
        return;
    }
}

/* The scale under the neck: a tick every 5 mm or 1/4 in; every second one is longer and has its
 * number. */
static void draw_ruler(struct drawing *drawing, const struct pen *pen, const struct form_area *area)
{
    const int last = drawing->canvas.rows * CANVAS_DOWN - 1, row = area->row + area->rows - 1;
    int column = area->column;

    const bool inch = drawing->unit == UNIT_IN;
    const double tick_mm = inch ? 25.4 / 4 : 5;

    for (int tick = 0; tick * tick_mm <= drawing->neck->width_mm.value; tick++) {
        const int x = dot_x(drawing, tick * tick_mm);

        canvas_dot(&drawing->canvas, LAYER_FRET, x, last);
        if (tick % TICKS != 0)
            continue;
        char memory[16];
        struct strbuf text = STRBUF(memory);

        canvas_dot(&drawing->canvas, LAYER_FRET, x, last - 1);
        num_format_fixed(unit_from_pivot(drawing->unit, tick * tick_mm), inch && tick > 0 ? 1 : 0,
                         inch, &text);
        column = area->column + x / CANVAS_ACROSS;
        column += pen_put(pen, row, column, 6, ROLE_DIM, memory);
    }
    pen_put(pen, row, column, area->column + area->width - column, ROLE_DIM, inch ? " in" : " mm");
}

struct legend {
    const struct pen *pen;
    enum unit unit;
    int row, end, column;
};

/* To hundredths of either unit: a calliper on wood cannot be trusted further. */
static void add_size(struct strbuf *out, double mm, enum unit unit)
{
    if (unit == UNIT_IN)
        num_format_fixed(unit_from_pivot(UNIT_IN, mm), 2, true, out);
    else
        amount_add(out, mm, unit, false);
}

/* "slot 6.35 x 11"; the second size may be left out. */
static void add_legend(struct legend *legend, enum role role, const char *name,
                       const struct maybe *first, const char *between, const struct maybe *second)
{
    char memory[48];
    struct strbuf text = STRBUF(memory);

    if (!first->given || (second && !second->given) || legend->row >= legend->end)
        return;
    strbuf_add(&text, name);
    add_size(&text, first->value, legend->unit);
    if (second) {
        strbuf_add(&text, between);
        add_size(&text, second->value, legend->unit);
    }
    pen_put_cut(legend->pen, legend->row++, legend->column, LEGEND, role, memory);
}

static void draw_legend(const struct pen *pen, const struct neck_facts *neck, enum unit unit,
                        const struct form_area *area)
{
    struct legend legend = {.pen = pen,
                            .unit = unit,
                            .row = area->row + 1,
                            .end = area->row + area->rows,
                            .column = area->column + area->width - LEGEND};

    add_legend(&legend, ROLE_NOW, "width ", &neck->width_mm, "", NULL);
    add_legend(&legend, ROLE_NOW, "board ", &neck->board_mm, "", NULL);
    add_legend(&legend, ROLE_NOW, "shaft ", &neck->shaft_mm, "", NULL);
    add_legend(&legend, ROLE_NOW, "slot ", &neck->slot_width_mm, " x ", &neck->slot_depth_mm);
    add_legend(&legend, ROLE_AFTER, "recut ", &neck->recut_width_mm, " x ", &neck->recut_depth_mm);
    add_legend(&legend, ROLE_FRET, "rod ", &neck->rod_height_mm, " + ", &neck->rod_cap_mm);
}

static void draw_dots(struct drawing *drawing, enum field_id field)
{
    const struct neck_facts *neck = drawing->neck;

    draw_board(drawing);
    draw_shaft(drawing);
    if (has_slot(neck))
        draw_cut(drawing, LAYER_NOW, 1, neck->slot_width_mm.value, neck->slot_depth_mm.value);
    if (has_recut(neck))
        draw_cut(drawing, LAYER_AFTER, 2, neck->recut_width_mm.value, neck->recut_depth_mm.value);
    draw_rod(drawing);
    draw_mark(drawing, field);
}

void section_view_draw(const struct pen *pen, const struct app *app, const struct form_area *area)
{
    const struct neck_facts *neck = &app_shown(app)->neck;
    const int columns = area->width - LEGEND - 1;
    const int across = columns * CANVAS_ACROSS;
    const int down = (area->rows - 2) * CANVAS_DOWN - RULER_DOTS;
    const double high_mm = neck->board_mm.value + neck->shaft_mm.value;
    const struct route_cell *cell = app_cell(app);
    struct form_area used = *area;
    struct drawing drawing = {.neck = neck, .unit = app->units.bare[MEASURE_SMALL]};
    char memory[64];
    struct strbuf title = STRBUF(memory);

    if (area->rows < SECTION_VIEW_ROWS_MIN || !neck->width_mm.given || !neck->board_mm.given ||
        !neck->shaft_mm.given)
        return;
    drawing.dots_per_mm = fmin((across - 1) / neck->width_mm.value, (down - 1) / high_mm);
    /* No more rows than the neck needs at this scale. */
    used.rows =
        2 + ((int)lround(high_mm * drawing.dots_per_mm) + RULER_DOTS + CANVAS_DOWN) / CANVAS_DOWN;
    if (canvas_init(&drawing.canvas, used.rows - 2, columns) != STATUS_OK)
        return;
    strbuf_addf(&title, "section at fret 1, %s%s", amount_unit(drawing.unit),
                app->previewing ? ", if this is taken" : "");
    pen_put(pen, area->row, area->column, area->width, app->previewing ? ROLE_PREVIEW : ROLE_LABEL,
            memory);
    draw_dots(&drawing, cell ? cell->key.field : FIELD_COUNT_);
    draw_ruler(&drawing, pen, &used);
    canvas_draw(&drawing.canvas, pen, area->row + 1, area->column);
    canvas_done(&drawing.canvas);
    draw_legend(pen, neck, drawing.unit, area);
}
