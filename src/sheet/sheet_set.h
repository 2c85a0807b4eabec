/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHEET_SHEET_SET_H
#define SILLET_SHEET_SHEET_SET_H

#include "page/page.h"
#include "sheet/sheet.h"

/* Inside sheet only: setting text down a page, from page to page. */

#define SET_MARGIN_MM 18.0
#define SET_TOP_MM    16.0
#define SET_BOTTOM_MM 17.0 /* the foot line stands in it */

struct setter {
    const struct sheet *sheet;
    struct page_list *list; /* NULL: only measured, on a page without an end */
    struct page_size size;
    double y_mm;                         /* how far the page is filled */
    int pages;                           /* begun */
    int total;                           /* of the document; 0 where not known yet */
    double table_top_mm, table_width_mm; /* of the last table, for what stands beside it */
};

struct set_style {
    struct page_font font;
    double line_mm; /* from one base line to the next */
};
extern const struct set_style set_body, set_small, set_cell, set_head;

double set_width_mm(const struct setter *setter);
double set_room_mm(const struct setter *setter);

/* Goes on to the next page when so much finds no room, unless the page is empty. */
void set_need(struct setter *setter, double height_mm);
void set_begin_page(struct setter *setter);

/* Text on the base line of the line that begins at y_mm; nothing while measuring. */
void set_text(struct setter *setter, double x_mm, double y_mm, enum page_align align,
              const struct set_style *style, const char *text);

/* Bytes of the next line of a text that fit in a width, broken at blanks where there are any. */
size_t set_line(const struct page_font *font, const char *text, double width_mm);

/* The next line of *at within a width, which it goes past; false past the end. */
bool set_next_line(const struct page_font *font, const char **at, double width_mm,
                   struct strbuf *ret_line);

void set_table(struct setter *setter, const struct sheet_table *table);
void set_pairs(struct setter *setter, const struct sheet_table *table);

#endif
