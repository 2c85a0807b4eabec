/* SPDX-License-Identifier: MIT */
#include "page/page_write.h"

#include <stdlib.h>

#include "page/page_inside.h"

/* For builds without cairo: nothing can be written, and text widths are a guess. */

bool page_can_write(void)
{
    return false;
}

struct page_ruler {
    int unused;
};

struct page_ruler *page_ruler_new(void)
{
    return calloc(1, sizeof(struct page_ruler));
}

void page_ruler_free(struct page_ruler *ruler)
{
    free(ruler);
}

double page_ruler_width_mm(struct page_ruler *ruler, const struct page_font *font, const char *utf8)
{
    (void)ruler;
    return page_text_guess_mm(font, utf8);
}

enum status page_write_pdf(const struct page_list *list, const struct page_about *about,
                           struct page_bytes *ret_bytes)
{
    (void)list;
    (void)about;
    (void)ret_bytes;
    return STATUS_NOT_FOUND;
}

enum status page_write_svg(const struct page_list *list, struct page_bytes *ret_bytes)
{
    (void)list;
    (void)ret_bytes;
    return STATUS_NOT_FOUND;
}
