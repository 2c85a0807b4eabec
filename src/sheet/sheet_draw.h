/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHEET_SHEET_DRAW_H
#define SILLET_SHEET_SHEET_DRAW_H

#include "page/page.h"
#include "sheet/sheet.h"

/* Inside sheet only: the drawings, each into an area of the page that is begun. */

struct sheet_area {
    struct page_point corner; /* top left */
    double width_mm, height_mm;
};

/* How high each wants its area, mm. */
double sheet_draw_height_mm(const struct sheet *sheet, enum sheet_drawing drawing);

/* One of the pictures, scaled to the area; and the map, which is none. */
void sheet_draw_picture(struct page_list *list, const struct sheet *sheet,
                        enum sheet_drawing drawing, const struct sheet_area *area);
void sheet_draw_headroom_map(struct page_list *list, const struct sheet *sheet,
                             const struct sheet_area *area);

/* How many times larger than their lengths the side view shows heights, in that area. */
double sheet_side_view_times(const struct picture *side, const struct sheet_area *area);

/* A row of the map. */
#define SHEET_MAP_ROW_MM 4.2

/* What drawings label with. */
extern const struct page_font sheet_label_font;

/* Fret numbers under or over a row of places, those that stand apart, centred. */
void sheet_draw_fret(struct page_list *list, double x_mm, double y_mm, int fret,
                     double *free_from_mm);

#endif
