/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "base/num.h"
#include "sheet/sheet_draw.h"

/* Cents along the board: worked out for the outer strings, as read for any. */

enum {
    LEFT_MM = 9, /* the scale's numbers */
    RIGHT_MM = 4,
    BELOW_MM = 5, /* fret numbers */
};

/* The least that the scale reaches to either side: less would make hills of nothing. */
static const double least_reach_cents = 5;
static const double dot_mm = 0.75;

static const struct page_stroke level_stroke = {0.15, PAGE_LINE_SOLID, 0.5};
static const struct page_stroke bass_stroke = {0.25, PAGE_LINE_SOLID, 0.3};
static const struct page_stroke treble_stroke = {0.25, PAGE_LINE_DASHED, 0.3};
static const struct page_stroke dot_stroke = {0.3, PAGE_LINE_SOLID, 0};

struct plot {
    const struct sheet_cents_curve *curve;
    double left_mm, width_mm, top_mm, height_mm;
    double low, high; /* cents */
};

static void widen(struct plot *plot, double cents)
{
    plot->low = fmin(plot->low, cents);
    plot->high = fmax(plot->high, cents);
}

static void find_reach(struct plot *plot)
{
    const struct sheet_cents_curve *curve = plot->curve;

    plot->high = fmax(least_reach_cents, curve->tolerance_cents);
    plot->low = -plot->high;
    for (int i = 0; i < 2; i++)
        for (int n = 1; n <= curve->frets && curve->outer[i].string > 0; n++)
            if (curve->outer[i].predicted[n])
                widen(plot, curve->outer[i].cents[n]);
    for (int i = 0; i < curve->count; i++)
        widen(plot, curve->readings[i].cents);
    plot->low = floor(plot->low);
    plot->high = ceil(plot->high);
}

static double x_of(const struct plot *plot, int fret)
{
    const int frets = plot->curve->frets;

    return plot->left_mm + (frets > 1 ? plot->width_mm * (fret - 1) / (frets - 1) : 0);
}

static double y_of(const struct plot *plot, double cents)
{
    return plot->top_mm + plot->height_mm * (plot->high - cents) / (plot->high - plot->low);
}

static void draw_level(struct page_list *list, const struct plot *plot, double cents)
{
    char memory[24];
    struct strbuf text = STRBUF(memory);
    const double y_mm = y_of(plot, cents);

    if (cents > 0)
        strbuf_add_char(&text, '+');
    num_format_fixed(cents, 0, false, &text);
    page_draw_line(list, (struct page_point){plot->left_mm, y_mm},
                   (struct page_point){plot->left_mm + plot->width_mm, y_mm}, &level_stroke);
    page_draw_text(list, (struct page_point){plot->left_mm - 2, y_mm + 0.8}, PAGE_RIGHT, 0,
                   &sheet_label_font, memory);
}

/* One stroke for each run of notes that are known. */
static void draw_curve(struct page_list *list, const struct plot *plot,
                       const struct sheet_cents_string *string, const struct page_stroke *stroke)
{
    struct page_point run[FRETS_MAX + 1];
    size_t count = 0;

    for (int n = 1; n <= plot->curve->frets + 1; n++) {
        if (n <= plot->curve->frets && string->predicted[n]) {
            run[count++] = (struct page_point){x_of(plot, n), y_of(plot, string->cents[n])};
            continue;
        }
        if (count > 1)
            page_draw_path(list, run, count, stroke);
        count = 0;
    }
}

static bool same_place(const struct sheet_cents_reading *a, const struct sheet_cents_reading *b)
{
    return a->fret == b->fret && fabs(a->cents - b->cents) < 0.5;
}

static bool is_first(const struct sheet_cents_curve *curve, int i)
{
    for (int k = 0; k < i; k++)
        if (same_place(&curve->readings[k], &curve->readings[i]))
            return false;
    return true;
}

/* Circles that lie on each other are named together, and those above each other on either
 * side in turn. */
static void draw_reading(struct page_list *list, const struct plot *plot, int i, bool left)
{
    const struct sheet_cents_reading *reading = &plot->curve->readings[i];
    const struct page_point at = {x_of(plot, reading->fret), y_of(plot, reading->cents)};
    char memory[48];
    struct strbuf text = STRBUF(memory);

    page_draw_circle(list, at, dot_mm, &dot_stroke);
    for (int k = plot->curve->count - 1; k >= i; k--)
        if (same_place(reading, &plot->curve->readings[k]))
            strbuf_addf(&text, "%s%d", text.length > 0 ? " " : "", plot->curve->readings[k].string);
    page_draw_text(list, (struct page_point){at.x_mm + (left ? -1.6 : 1.6), at.y_mm + 0.8},
                   left ? PAGE_RIGHT : PAGE_LEFT, 0, &sheet_label_font, memory);
}

static void draw_readings(struct page_list *list, const struct plot *plot)
{
    int at_fret[FRETS_MAX + 1] = {0};

    for (int i = 0; i < plot->curve->count; i++)
        if (is_first(plot->curve, i))
            draw_reading(list, plot, i, at_fret[plot->curve->readings[i].fret]++ % 2 == 1);
}

void sheet_draw_cents_curve(struct page_list *list, const struct sheet_cents_curve *curve,
                            const struct sheet_area *area)
{
    struct plot plot = {.curve = curve,
                        .left_mm = area->corner.x_mm + LEFT_MM,
                        .width_mm = area->width_mm - LEFT_MM - RIGHT_MM,
                        .top_mm = area->corner.y_mm + 1,
                        .height_mm = area->height_mm - BELOW_MM - 1};
    const double tolerance = curve->tolerance_cents;
    double free_from_mm = 0;

    find_reach(&plot);
    page_fill_box(list, (struct page_point){plot.left_mm, y_of(&plot, tolerance)}, plot.width_mm,
                  y_of(&plot, -tolerance) - y_of(&plot, tolerance), 0.92);
    draw_level(list, &plot, 0);
    draw_level(list, &plot, plot.high);
    draw_level(list, &plot, plot.low);
    if (curve->outer[0].string > 0)
        draw_curve(list, &plot, &curve->outer[0], &bass_stroke);
    if (curve->outer[1].string > 0)
        draw_curve(list, &plot, &curve->outer[1], &treble_stroke);
    draw_readings(list, &plot);
    for (int n = 1; n <= curve->frets; n++)
        sheet_draw_fret(list, x_of(&plot, n), area->corner.y_mm + area->height_mm - 0.5, n,
                        &free_from_mm);
}
