/* SPDX-License-Identifier: MIT */
#ifndef SILLET_PAGE_PAGE_CAIRO_TEXT_H
#define SILLET_PAGE_PAGE_CAIRO_TEXT_H

#include "page/page_cairo_load.h"
#include "page/page_inside.h"

/* Draws a text item with cairo, in mm. A failure stays in the cairo context. */
void page_cairo_text(const struct page_cairo *cairo, cairo_t *context,
                     const struct page_item *item);

#endif
