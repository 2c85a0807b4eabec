/* SPDX-License-Identifier: MIT */
#include "sheet/sheet_draw.h"

/* The headroom of each note, string by string along the board. */

enum {
    LEFT_MM = 12, /* the strings' names */
    HEAD_MM = 4,  /* fret numbers */
    CELL_MOST_MM = 7,
};

static const struct page_stroke ring_stroke = {0.25, PAGE_LINE_SOLID, 0.1};

static void draw_square(struct page_list *list, struct page_point centre, double side_mm,
                        double grey)
{
    page_fill_box(list, (struct page_point){centre.x_mm - side_mm / 2, centre.y_mm - side_mm / 2},
                  side_mm, side_mm, grey);
}

static void draw_mark(struct page_list *list, struct page_point centre, enum headroom headroom)
{
    switch (headroom) {
    case HEADROOM_PLENTY:
        draw_square(list, centre, 0.7, 0.5);
        return;
    case HEADROOM_TIGHT:
    case HEADROOM_MAY:
        page_draw_circle(list, centre, 1.1, &ring_stroke);
        return;
    case HEADROOM_BUZZES:
        draw_square(list, centre, 2.3, 0.1);
        return;
    case HEADROOM_UNKNOWN:
        return;
    }
}

static void draw_key(struct page_list *list, double x_mm, double y_mm)
{
    static const struct {
        enum headroom headroom;
        const char *words;
        double width_mm;
    } keys[] = {
        {HEADROOM_PLENTY, "plenty", 16},
        {HEADROOM_TIGHT, "tight: would buzz at a harder touch", 54},
        {HEADROOM_BUZZES, "would buzz", 20},
    };

    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        draw_mark(list, (struct page_point){x_mm + 1.5, y_mm - 0.8}, keys[i].headroom);
        page_draw_text(list, (struct page_point){x_mm + 4, y_mm}, PAGE_LEFT, 0, &sheet_label_font,
                       keys[i].words);
        x_mm += keys[i].width_mm;
    }
}

static void draw_string(struct page_list *list, const struct sheet *sheet, int string,
                        struct page_point at, double cell_mm)
{
    page_draw_text(list, (struct page_point){at.x_mm, at.y_mm + 0.9}, PAGE_LEFT, 0,
                   &sheet_label_font, sheet->label[string]);
    for (int n = 0; n < sheet->frets.frets; n++)
        draw_mark(list, (struct page_point){at.x_mm + LEFT_MM + (n + 0.5) * cell_mm, at.y_mm},
                  sheet->frets.headroom[string][n]);
}

void sheet_draw_headroom_map(struct page_list *list, const struct sheet *sheet,
                             const struct sheet_area *area)
{
    const double most_mm = (area->width_mm - LEFT_MM) / sheet->frets.frets;
    const double cell_mm = most_mm < CELL_MOST_MM ? most_mm : CELL_MOST_MM;
    double y_mm = area->corner.y_mm + HEAD_MM, free_from_mm = 0;

    for (int n = 0; n < sheet->frets.frets; n++)
        sheet_draw_fret(list, area->corner.x_mm + LEFT_MM + (n + 0.5) * cell_mm, y_mm - 1, n,
                        &free_from_mm);
    for (int s = sheet->frets.strings; s >= 1; s--, y_mm += SHEET_MAP_ROW_MM)
        draw_string(list, sheet, s,
                    (struct page_point){area->corner.x_mm, y_mm + SHEET_MAP_ROW_MM / 2}, cell_mm);
    draw_key(list, area->corner.x_mm + LEFT_MM, area->corner.y_mm + area->height_mm - 1);
}
