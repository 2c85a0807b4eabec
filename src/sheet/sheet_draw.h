/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHEET_SHEET_DRAW_H
#define SILLET_SHEET_SHEET_DRAW_H

#include "page/page.h"
#include "sheet/sheet.h"

/* Private to sheet: the drawings, each into an area of the current page. */

struct sheet_area {
    struct page_point corner; /* top left */
    double width_mm, height_mm;
};

/* The height of the area that a drawing needs in that width, mm. */
double sheet_draw_height_mm(const struct sheet *sheet, enum sheet_drawing drawing, double width_mm);

/* Draws one of the pictures, scaled to the area; and the headroom map. */
void sheet_draw_picture(struct page_list *list, const struct sheet *sheet,
                        enum sheet_drawing drawing, const struct sheet_area *area);
void sheet_draw_headroom_map(struct page_list *list, const struct sheet *sheet,
                             const struct sheet_area *area);

/* By how much the side view exaggerates heights over lengths in that area. */
double sheet_side_view_times(const struct picture *side, const struct sheet_area *area);

/* The height of a row of the map. */
#define SHEET_MAP_ROW_MM 4.2

/* The font of the drawings' labels. */
extern const struct page_font sheet_label_font;

/* Draws a fret's number centred at x_mm, unless it would touch the one before. *free_from_mm is
 * where the next may begin. */
void sheet_draw_fret(struct page_list *list, double x_mm, double y_mm, int fret,
                     double *free_from_mm);

#endif
