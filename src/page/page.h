/* SPDX-License-Identifier: MIT */
#ifndef SILLET_PAGE_PAGE_H
#define SILLET_PAGE_PAGE_H

#include <stddef.h>

#include "base/status.h"

/*
 * A list of what to draw on paper: lines and text on pages, at true scale, in mm from the
 * page's top left corner, x to the right, y down. It knows nothing about instruments or
 * file formats; page_write.h turns it into PDF and SVG.
 */

struct page_size {
    double width_mm, height_mm;
};

extern const struct page_size page_a4;     /* ISO 216 */
extern const struct page_size page_letter; /* 8.5 by 11 in: ANSI/ASME Y14.1, size A */

enum page_line { PAGE_LINE_SOLID, PAGE_LINE_DASHED, PAGE_LINE_DOTTED };
enum page_align { PAGE_LEFT, PAGE_CENTRE, PAGE_RIGHT };
enum page_weight { PAGE_PLAIN, PAGE_BOLD };

struct page_stroke {
    double width_mm;
    enum page_line line;
    double grey; /* 0 black to 1 white */
};

struct page_font {
    double size_mm; /* of the em */
    enum page_weight weight;
    double grey;
};

struct page_point {
    double x_mm, y_mm;
};

struct page_list;

/* STATUS_DOMAIN if the size is not above 0; STATUS_NO_MEMORY. */
enum status page_list_new(struct page_size size, struct page_list **ret_list);
void page_list_free(struct page_list *list);

/*
 * The first failure of the list: STATUS_NO_MEMORY, STATUS_DOMAIN (a number that is not finite, a
 * width below 0, drawing before the first page, unmatched clips), STATUS_SYNTAX
 * (text that is not UTF-8). After a failure the calls below do nothing, so callers need not
 * check each of them.
 */
enum status page_list_status(const struct page_list *list);

/* Begins the next page. The calls below draw on the page begun last. */
void page_begin(struct page_list *list);
int page_list_pages(const struct page_list *list);
struct page_size page_list_size(const struct page_list *list);

/* Makes all that was drawn, and the paper, so many times as large: for what is not at true scale.
 */
void page_list_scale(struct page_list *list, double times);

/* Turns all that was drawn, and the paper, a quarter counterclockwise: its top is then at the left.
 */
void page_list_turn(struct page_list *list);

void page_draw_line(struct page_list *list, struct page_point from, struct page_point to,
                    const struct page_stroke *stroke);
/* A line through two or more points. */
void page_draw_path(struct page_list *list, const struct page_point *points, size_t count,
                    const struct page_stroke *stroke);
void page_draw_circle(struct page_list *list, struct page_point centre, double radius_mm,
                      const struct page_stroke *stroke);
void page_draw_box(struct page_list *list, struct page_point corner, double width_mm,
                   double height_mm, const struct page_stroke *stroke);
/* A filled box, without an edge. */
void page_fill_box(struct page_list *list, struct page_point corner, double width_mm,
                   double height_mm, double grey);
/* `at` is on the baseline; the text is turned about it, counterclockwise as seen on the page. */
void page_draw_text(struct page_list *list, struct page_point at, enum page_align align,
                    double turn_rad, const struct page_font *font, const char *utf8);

/* Until the matching page_end_clip, nothing outside the rectangle is drawn. Clips
 * nest, and end on the page they began on. */
void page_begin_clip(struct page_list *list, struct page_point corner, double width_mm,
                     double height_mm);
void page_end_clip(struct page_list *list);

/* Draws the single page of another list, its top left corner at `at`. STATUS_DOMAIN if that list
 * has failed or does not have exactly one page. */
void page_place(struct page_list *list, struct page_point at, const struct page_list *drawing);

#endif
