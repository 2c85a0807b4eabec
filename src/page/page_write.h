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

/* False without cairo, in the build or on the machine: page_write_pdf and page_write_svg then fail
 * with STATUS_NOT_FOUND. */
bool page_can_write(void);

/* Measures texts as they are drawn; without cairo it guesses half an em per column. NULL if memory
 * is out. */
struct page_ruler;
struct page_ruler *page_ruler_new(void);
void page_ruler_free(struct page_ruler *ruler);
double page_ruler_width_mm(struct page_ruler *ruler, const struct page_font *font,
                           const char *utf8);

/* STATUS_NOT_FOUND, STATUS_NO_MEMORY, or the list's own status. A list without pages is
 * STATUS_DOMAIN. */
enum status page_write_pdf(const struct page_list *list, const struct page_about *about,
                           struct page_bytes *ret_bytes);

/* All pages below each other in one drawing. Fails as page_write_pdf. */
enum status page_write_svg(const struct page_list *list, struct page_bytes *ret_bytes);

#endif
