/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TEMPLATE_TEMPLATE_INSIDE_H
#define SILLET_TEMPLATE_TEMPLATE_INSIDE_H

#include "base/strbuf.h"
#include "model/survey/survey_layout.h"
#include "page/page.h"

/* Private to template: what the single templates share. */

struct template_source {
    const struct record *record;
    struct place place; /* the pass whose readings it shows */
    const struct derived *derived;
    struct strbuf *missing;
    struct survey_layout layout;
};

/* Whether a number or choice is there and usable; if not, adds its name and leaf
 * to source->missing. */
bool template_need(const struct template_source *source, struct reading_key key);
bool template_need_one(const struct template_source *source, enum field_id field);

/* Each returns what template_draw returns. */
enum status template_draw_board(const struct template_source *source,
                                struct page_list **ret_drawing);
enum status template_draw_nut(const struct template_source *source, struct page_list **ret_drawing);
enum status template_draw_saddle(const struct template_source *source,
                                 struct page_list **ret_drawing);
enum status template_draw_heel(const struct template_source *source,
                               struct page_list **ret_drawing);
enum status template_draw_shim(const struct template_source *source,
                               struct page_list **ret_drawing);
enum status template_draw_tongue(const struct template_source *source,
                                 struct page_list **ret_drawing);

/* Lines to cut by are thin, lines to read by are thinner and grey. */
extern const struct page_stroke template_cut, template_guide, template_was, template_predicted;
extern const struct page_font template_plain, template_strong, template_small;

/* A new drawing with its page begun. */
enum status template_begin(double width_mm, double height_mm, struct page_list **ret_drawing);

/* Returns the drawing, or frees it and returns its failure. */
enum status template_finish(struct page_list *drawing, struct page_list **ret_drawing);

/* "314.33 mm  12.375 in" */
void template_add_length(struct strbuf *out, double mm);

void template_say(struct page_list *drawing, double x_mm, double y_mm, enum page_align align,
                  const struct page_font *font, const char *text);

#endif
