/* SPDX-License-Identifier: MIT */
#include "sheet/sheet_draw.h"

enum {
    SIDE_VIEW_MM = 32,
    CENTS_MM = 30,
    MAP_HEAD_MM = 10, /* fret numbers and key */
};

const struct page_font sheet_label_font = {.size_mm = 2.4, .weight = PAGE_PLAIN, .grey = 0.35};

double sheet_draw_height_mm(const struct sheet *sheet, enum sheet_drawing drawing)
{
    switch (drawing) {
    case SHEET_SIDE_VIEW:
        return SIDE_VIEW_MM;
    case SHEET_CENTS_CURVE:
        return CENTS_MM;
    case SHEET_HEADROOM_MAP:
        return MAP_HEAD_MM + SHEET_MAP_ROW_MM * sheet->headroom.strings;
    }
    return 0;
}

void sheet_draw_fret(struct page_list *list, double x_mm, double y_mm, int fret,
                     double *free_from_mm)
{
    /* Two digits and a blank, in the font for labels. */
    const double half_mm = fret > 9 ? 1.6 : 0.9;
    char memory[8];
    struct strbuf text = STRBUF(memory);

    if (x_mm - half_mm < *free_from_mm)
        return;
    strbuf_addf(&text, "%d", fret);
    page_draw_text(list, (struct page_point){x_mm, y_mm}, PAGE_CENTRE, 0, &sheet_label_font,
                   memory);
    *free_from_mm = x_mm + half_mm + 1;
}
