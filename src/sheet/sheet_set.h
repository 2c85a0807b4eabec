/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHEET_SHEET_SET_H
#define SILLET_SHEET_SHEET_SET_H

#include "page/page.h"
#include "sheet/sheet.h"

/* Private to sheet: sets text down a page and on to the next. */

#define SET_MARGIN_MM 18.0
#define SET_TOP_MM    16.0
#define SET_BOTTOM_MM 17.0 /* holds the foot line */

struct setter {
    const struct sheet *sheet;
    struct page_ruler *ruler;
    struct page_list *list; /* NULL to measure only, on an endless page */
    struct page_size size;
    double left_mm, width_mm;            /* of the column in hand */
    bool columns;                        /* short sections stand beside each other */
    double spacing;                      /* of the space between blocks, 1 as designed */
    double kept_free_mm;                 /* of the foot of each page */
    double y_mm;                         /* how far the page is filled */
    int pages;                           /* begun so far */
    int total;                           /* of the document; 0 if not known yet */
    double table_top_mm, table_width_mm; /* of the last table, for a drawing beside it */
};

struct set_style {
    struct page_font font;
    double line_mm; /* from one baseline to the next */
};
extern const struct set_style set_body, set_small, set_cell, set_head;

double set_room_mm(const struct setter *setter);

/* Goes to the next page if height_mm does not fit on this one, unless the page is empty. */
void set_need(struct setter *setter, double height_mm);
void set_begin_page(struct setter *setter);

/* Draws text on the baseline of the line whose top is at y_mm; nothing while measuring. */
void set_text(struct setter *setter, double x_mm, double y_mm, enum page_align align,
              const struct set_style *style, const char *text);

/* Bytes of the next line of a text that fit in a width, broken at a blank if possible. */
size_t set_line(struct page_ruler *ruler, const struct page_font *font, const char *text,
                double width_mm);

/* Takes the next line that fits in a width from *at and advances it; false at the end. */
bool set_next_line(struct page_ruler *ruler, const struct page_font *font, const char **at,
                   double width_mm, struct strbuf *ret_line);

void set_table(struct setter *setter, const struct sheet_table *table);
/* Whether it can be set in that width without looking pinched. */
bool set_table_fits(const struct setter *setter, const struct sheet_table *table, double width_mm);
void set_pairs(struct setter *setter, const struct sheet_table *table);

#endif
