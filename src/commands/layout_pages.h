/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_LAYOUT_PAGES_H
#define SILLET_COMMANDS_LAYOUT_PAGES_H

#include "page/page_write.h"
#include "template/template.h"

/* Templates that were drawn, put together on pages. */

/* Each with the pass that it was drawn from. {.count = 0} to begin with. */
struct layout_drawings {
    enum template_kind kind[TEMPLATE_COUNT_];
    struct place place[TEMPLATE_COUNT_];
    struct page_list *list[TEMPLATE_COUNT_];
    int count;
};

void layout_drawings_free(struct layout_drawings *drawings);

/* Draws one more. Fails as template_draw, and then adds none. */
enum status layout_add(struct layout_drawings *drawings, enum template_kind kind,
                       struct place place, const struct derived *derived, struct strbuf *missing);

/* The drawings as a document: PDF on that paper (0 by 0: the shop's), or SVG. It is dated with the
 * day of the readings, not today, so that the same record gives the same bytes. Fails as
 * page_write_pdf; a drawing too large for its paper is STATUS_DOMAIN. */
enum status layout_make_bytes(const struct record *record, const struct layout_drawings *drawings,
                              bool svg, struct page_size paper, struct page_bytes *ret_bytes);

#endif
