/* SPDX-License-Identifier: MIT */
#ifndef SILLET_PAGE_PAGE_CAIRO_TEXT_H
#define SILLET_PAGE_PAGE_CAIRO_TEXT_H

#include "page/page_cairo_load.h"
#include "page/page_inside.h"
#include "page/page_write.h"

/* Draws a text item with cairo, in mm, as the ruler, which must have cairo, measures it. A failure
 * stays in the cairo context. */
void page_cairo_text(const struct page_cairo *cairo, struct page_ruler *ruler, cairo_t *context,
                     const struct page_item *item);

#endif
