/* SPDX-License-Identifier: MIT */
#ifndef SILLET_PAGE_PAGE_WRITE_H
#define SILLET_PAGE_PAGE_WRITE_H

#include <stdbool.h>
#include <stddef.h>

#include "page/page.h"

/*
 * A list of pages as the bytes of a PDF or SVG file, whole in memory, so that a file is only
 * begun when nothing can go wrong but the disk. The same list gives the same bytes.
 *
 * Characters that the machine's font lacks come out as plain ones (a flat sign as b, one
 * half as 1/2, a micro sign as u), never as a box; what has no plain form as ?.
 */

struct page_bytes {
    unsigned char *data; /* to be freed */
    size_t length;
};

/* What a document says about itself. */
struct page_about {
    const char *title;
    const char *date; /* ISO 8601 day, "" for none */
};

/* False where sillet was built without cairo: all calls below but the width then give
 * STATUS_NOT_FOUND. */
bool page_can_write(void);

/* How wide a text comes out; without cairo a guess of half an em a column. */
double page_text_width_mm(const struct page_font *font, const char *utf8);

/* STATUS_NOT_FOUND, STATUS_NO_MEMORY, or the list's own status. A list without pages is
 * STATUS_DOMAIN. */
enum status page_write_pdf(const struct page_list *list, const struct page_about *about,
                           struct page_bytes *ret_bytes);

/* All pages below each other in one drawing. */
enum status page_write_svg(const struct page_list *list, struct page_bytes *ret_bytes);

#endif
