/* SPDX-License-Identifier: MIT */
#include "page/page_write.h"

#include "base/utf8.h"

/* For builds without cairo: nothing can be written, and text widths are a guess. */

bool page_can_write(void)
{
    return false;
}

double page_text_width_mm(const struct page_font *font, const char *utf8)
{
    return 0.5 * font->size_mm * utf8_columns(utf8);
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
