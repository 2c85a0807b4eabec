/* SPDX-License-Identifier: MIT */
#ifndef SILLET_PAGE_PAGE_INSIDE_H
#define SILLET_PAGE_PAGE_INSIDE_H

#include "page/page.h"

/* Private to page: the items that page.c collects and the writers walk through. */

enum page_item_kind {
    PAGE_ITEM_BEGIN, /* the next page */
    PAGE_ITEM_PATH,
    PAGE_ITEM_CIRCLE,
    PAGE_ITEM_FILL,
    PAGE_ITEM_TEXT,
    PAGE_ITEM_CLIP,
    PAGE_ITEM_CLIP_END,
};

struct page_item {
    enum page_item_kind kind;
    struct page_stroke stroke; /* of paths and circles */
    struct page_font font;     /* of texts */
    enum page_align align;
    double turn_rad;
    struct page_point at;       /* corner, centre or baseline */
    double width_mm, height_mm; /* of fills and clips; the radius of circles in width_mm */
    double grey;                /* of fills */
    struct page_point *points;  /* of paths; owned */
    size_t point_count;
    char *text; /* owned */
};

struct page_list {
    struct page_size size;
    struct page_item *items;
    size_t count, capacity;
    int pages;
    int clips; /* open on the current page */
    enum status status;
};

/* The width of a text where no font can be asked. */
double page_text_guess_mm(const struct page_font *font, const char *utf8);

#endif
