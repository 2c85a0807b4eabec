/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TEMPLATE_TEMPLATE_AROUND_H
#define SILLET_TEMPLATE_TEMPLATE_AROUND_H

#include <stdbool.h>

#include "template/template_pages.h"

/* Private to template: what stands around a drawing on a page, and where tiles are joined. */

/* All mm. */
enum {
    MARGIN = 10, /* more than printers need */
    HEAD = 17,   /* title, instrument, how to join */
    FOOT = 24,   /* bars and caution */
    SIDE = 8,    /* right of a tile: the bar along the page */
    OVERLAP = 12,
};

/* One tile of a sheet: its place among the others, and the part of the page it fills. On a turned
 * page, all that is said around the drawing stands along its sides, so that there is more room for
 * its length. */
struct tile {
    const struct template_sheet *sheet;
    bool turned;
    struct template_tiles across, down;
    int column, row;
    struct page_point corner;
    struct page_size area;
};

int template_count_tiles(const struct tile *tile);

/* From the top left corner. */
void template_draw_head(struct page_list *pages, const struct template_sheet *sheet, double x,
                        double y);
void template_draw_foot(struct page_list *pages, const struct template_sheet *sheet, double x,
                        double y);

/* The bar that runs down the page from there; its length is said for a page that is then turned, or
 * not. */
void template_draw_bar_along(struct page_list *pages, double x, double y, bool turned);

/* Head, foot and bars of a tile, on a page that is not turned yet. */
void template_draw_around(struct page_list *page, const struct tile *tile);

/* The lines that it shares with the tiles beside it. */
void template_draw_joints(struct page_list *pages, const struct tile *tile);

#endif
