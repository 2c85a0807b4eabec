/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TEMPLATE_TEMPLATE_PAGES_H
#define SILLET_TEMPLATE_TEMPLATE_PAGES_H

#include "page/page.h"

/*
 * Puts drawings on paper. Every page has a title, a caution, and bars to measure
 * before it is trusted: 100 mm across and along, 4 in one way. A drawing larger than a page is
 * tiled, with all that is said turned to stand along its sides where that takes fewer pages: tiles
 * overlap, and on the overlap both pages carry the same line with a letter and two
 * crosses. Drawings that follow each other and fit on one page together share it.
 */

/* A drawing and its labels. Texts are UTF-8, and not kept. */
struct template_sheet {
    const struct page_list *drawing;
    const char *title;
    const char *instrument;
    const char *date; /* "" for none */
    const char *caution;
};

/* How a length is cut into tiles of `tile_mm` that overlap by `overlap_mm`. */
struct template_tiles {
    int count;
    double step_mm; /* from the start of one tile to that of the next */
};

/* Needs length_mm > 0, tile_mm > overlap_mm >= 0; else STATUS_DOMAIN, also for over a thousand
 * tiles. */
enum status template_cut_tiles(double length_mm, double tile_mm, double overlap_mm,
                               struct template_tiles *ret_tiles);

/* Adds the drawings' pages to a list whose pages are Letter, A4 or larger. Fails with the list's
 * own status, or with STATUS_DOMAIN for a drawing of over a thousand tiles. */
enum status template_add_pages(struct page_list *pages, const struct template_sheet *sheets,
                               int count);

/* All sheets below each other on one page that is large enough. The caller frees the drawing.
 * STATUS_DOMAIN if there are no sheets. */
enum status template_lay_drawing(const struct template_sheet *sheets, int count,
                                 struct page_list **ret_page);

#endif
