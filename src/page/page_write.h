/* SPDX-License-Identifier: MIT */
#ifndef SILLET_PAGE_PAGE_WRITE_H
#define SILLET_PAGE_PAGE_WRITE_H

#include <stdbool.h>
#include <stddef.h>

#include "page/page.h"

/*
 * A list of pages as the bytes of a PDF or SVG file. They are built whole in memory, so that once
 * the file is begun only the disk can fail. The same list gives the same bytes.
 *
 * Characters that the machine's font lacks become plain ones (a flat sign b, one
 * half 1/2, a micro sign u), never a box; those without a plain form become ?.
 */

struct page_bytes {
    unsigned char *data; /* freed by the caller */
    size_t length;
};

/* The document's metadata. */
struct page_about {
    const char *title;
    const char *date; /* ISO 8601 day, "" for none */
};

/* False if sillet was built without cairo: page_write_pdf and page_write_svg then fail with
 * STATUS_NOT_FOUND. */
bool page_can_write(void);

/* The width of a text as drawn; without cairo a guess of half an em per column. */
double page_text_width_mm(const struct page_font *font, const char *utf8);

/* STATUS_NOT_FOUND, STATUS_NO_MEMORY, or the list's own status. A list without pages is
 * STATUS_DOMAIN. */
enum status page_write_pdf(const struct page_list *list, const struct page_about *about,
                           struct page_bytes *ret_bytes);

/* All pages below each other in one drawing. Fails as page_write_pdf. */
enum status page_write_svg(const struct page_list *list, struct page_bytes *ret_bytes);

#endif
