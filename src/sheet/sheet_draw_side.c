/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "sheet/sheet_draw.h"

/* The neck from the side: crowns, the board under them, the string over them. */

enum {
    LEFT_MM = 7,  /* for "nut" */
    BELOW_MM = 7, /* the board and the fret numbers */
    CROWN_MM = 1, /* a crown over its board */
};

static const struct page_stroke board_stroke = {0.2, PAGE_LINE_SOLID, 0.55};
static const struct page_stroke crown_stroke = {0.35, PAGE_LINE_SOLID, 0.3};
static const struct page_stroke left_stroke = {0.3, PAGE_LINE_SOLID, 0};
static const struct page_stroke found_stroke = {0.25, PAGE_LINE_DASHED, 0.25};

/* How millimetres of the neck become millimetres of paper. */
struct scale {
    double x_mm, y_mm; /* where the nut's front edge and the chord lie */
    double across, up; /* paper per neck */
};

static void widen(const struct sheet_point *points, int count, double *low, double *high)
{
    for (int i = 0; i < count; i++) {
        *low = fmin(*low, points[i].y_mm);
        *high = fmax(*high, points[i].y_mm);
    }
}

static struct scale find_scale(const struct sheet_side_view *view, const struct sheet_area *area)
{
    const double length_mm = view->crown[view->frets].x_mm;
    double low = 0, high = 0.5;

    widen(view->crown, view->frets + 1, &low, &high);
    widen(view->left, 2, &low, &high);
    if (view->has_found)
        widen(view->found, 2, &low, &high);
    struct scale scale = {.across = (area->width_mm - LEFT_MM - 2) / length_mm,
                          .up = (area->height_mm - BELOW_MM) / (high - low)};
    scale.x_mm = area->corner.x_mm + LEFT_MM;
    scale.y_mm = area->corner.y_mm + high * scale.up;
    return scale;
}

double sheet_side_view_times(const struct sheet_side_view *view, const struct sheet_area *area)
{
    const struct scale scale = find_scale(view, area);

    return scale.up / scale.across;
}

static struct page_point place(const struct scale *scale, const struct sheet_point *point)
{
    return (struct page_point){scale->x_mm + scale->across * point->x_mm,
                               scale->y_mm - scale->up * point->y_mm};
}

static void draw_string(struct page_list *list, const struct scale *scale,
                        const struct sheet_point line[2], const struct page_stroke *stroke)
{
    page_draw_line(list, place(scale, &line[0]), place(scale, &line[1]), stroke);
}

/* The board's face runs a crown's height below the crowns; that height is no measure. */
static void draw_board(struct page_list *list, const struct scale *scale,
                       const struct sheet_side_view *view)
{
    struct page_point face[FRETS_MAX + 1];

    for (int n = 0; n <= view->frets; n++) {
        face[n] = place(scale, &view->crown[n]);
        if (n > 0)
            page_draw_line(list, face[n],
                           (struct page_point){face[n].x_mm, face[n].y_mm + CROWN_MM},
                           &crown_stroke);
        face[n].y_mm += CROWN_MM;
    }
    page_draw_path(list, face, (size_t)view->frets + 1, &board_stroke);
}

static void draw_nut(struct page_list *list, const struct scale *scale,
                     const struct sheet_side_view *view)
{
    const struct page_point foot = place(scale, &view->crown[0]);
    const struct page_point top = place(scale, &view->left[0]);
    const double height_mm = foot.y_mm + CROWN_MM - top.y_mm;

    if (height_mm > 0)
        page_fill_box(list, (struct page_point){foot.x_mm - 1.6, top.y_mm}, 1.6, height_mm, 0.8);
    page_draw_text(list, (struct page_point){foot.x_mm - 2.2, foot.y_mm + CROWN_MM}, PAGE_RIGHT, 0,
                   &sheet_label_font, "nut");
}

static void draw_frets(struct page_list *list, const struct scale *scale,
                       const struct sheet_side_view *view, double y_mm)
{
    double free_from_mm = 0;

    for (int n = 1; n <= view->frets; n++) {
        const double x_mm = scale->x_mm + scale->across * view->crown[n].x_mm;

        sheet_draw_fret(list, x_mm, y_mm, n, &free_from_mm);
        if (n != view->join_fret)
            continue;
        page_draw_text(list, (struct page_point){x_mm + 2.4, y_mm}, PAGE_LEFT, 0, &sheet_label_font,
                       "join");
        free_from_mm = x_mm + 8;
    }
}

void sheet_draw_side_view(struct page_list *list, const struct sheet_side_view *view,
                          const struct sheet_area *area)
{
    const struct scale scale = find_scale(view, area);

    draw_board(list, &scale, view);
    draw_nut(list, &scale, view);
    if (view->has_found)
        draw_string(list, &scale, view->found, &found_stroke);
    draw_string(list, &scale, view->left, &left_stroke);
    draw_frets(list, &scale, view, area->corner.y_mm + area->height_mm - 0.8);
}
