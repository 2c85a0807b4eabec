/* SPDX-License-Identifier: MIT */
#include "page/page_write.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/array.h"
#include "page/page_cairo_text.h"
#include "page/page_inside.h"

static const double points_per_mm = 72 / 25.4;

/* Collects cairo's output. Cairo carries on after a refused write and reports success, so the
 * failure is kept here. */
struct sink {
    struct page_bytes bytes;
    size_t capacity;
    bool failed;
};

static cairo_status_t take_bytes(void *closure, const unsigned char *data, unsigned int length)
{
    struct sink *sink = closure;

    while (!sink->failed && sink->capacity - sink->bytes.length < length) {
        unsigned char *moved = array_grow(sink->bytes.data, sink->capacity, &sink->capacity, 1);

        if (moved)
            sink->bytes.data = moved;
        else
            sink->failed = true;
    }
    if (sink->failed)
        return CAIRO_STATUS_WRITE_ERROR;
    memcpy(sink->bytes.data + sink->bytes.length, data, length);
    sink->bytes.length += length;
    return CAIRO_STATUS_SUCCESS;
}

/* --- one item --- */

static void stroke(const struct page_cairo *cairo, cairo_t *context,
                   const struct page_stroke *stroke)
{
    static const double dashed[] = {2.4, 1.2}, dotted[] = {0.4, 1.0};

    cairo->set_source_rgb(context, stroke->grey, stroke->grey, stroke->grey);
    cairo->set_line_width(context, stroke->width_mm);
    if (stroke->line == PAGE_LINE_DASHED)
        cairo->set_dash(context, dashed, 2, 0);
    else if (stroke->line == PAGE_LINE_DOTTED)
        cairo->set_dash(context, dotted, 2, 0);
    else
        cairo->set_dash(context, NULL, 0, 0);
    cairo->stroke(context);
}

static void draw_path(const struct page_cairo *cairo, cairo_t *context,
                      const struct page_item *item)
{
    cairo->move_to(context, item->points[0].x_mm, item->points[0].y_mm);
    for (size_t i = 1; i < item->point_count; i++)
        cairo->line_to(context, item->points[i].x_mm, item->points[i].y_mm);
    stroke(cairo, context, &item->stroke);
}

static void draw_circle(const struct page_cairo *cairo, cairo_t *context,
                        const struct page_item *item)
{
    cairo->new_sub_path(context);
    cairo->arc(context, item->at.x_mm, item->at.y_mm, item->width_mm, 0, 2 * M_PI);
    stroke(cairo, context, &item->stroke);
}

static void add_box(const struct page_cairo *cairo, cairo_t *context, const struct page_item *item)
{
    cairo->rectangle(context, item->at.x_mm, item->at.y_mm, item->width_mm, item->height_mm);
}

static void draw_fill(const struct page_cairo *cairo, cairo_t *context,
                      const struct page_item *item)
{
    cairo->set_source_rgb(context, item->grey, item->grey, item->grey);
    add_box(cairo, context, item);
    cairo->fill(context);
}

static void draw_item(const struct page_cairo *cairo, struct page_ruler *ruler, cairo_t *context,
                      const struct page_item *item)
{
    switch (item->kind) {
    case PAGE_ITEM_PATH:
        draw_path(cairo, context, item);
        break;
    case PAGE_ITEM_CIRCLE:
        draw_circle(cairo, context, item);
        break;
    case PAGE_ITEM_FILL:
        draw_fill(cairo, context, item);
        break;
    case PAGE_ITEM_TEXT:
        page_cairo_text(cairo, ruler, context, item);
        break;
    case PAGE_ITEM_CLIP:
        cairo->save(context);
        add_box(cairo, context, item);
        cairo->clip(context);
        break;
    case PAGE_ITEM_CLIP_END:
        cairo->restore(context);
        break;
    case PAGE_ITEM_BEGIN:
        break;
    }
}

/* --- the whole --- */

/* Draws the pages of a list below each other, `stacked_mm` apart, or each as a page of its own
 * if that is 0. */
static void draw_pages(const struct page_cairo *cairo, struct page_ruler *ruler, cairo_t *context,
                       const struct page_list *list, double stacked_mm)
{
    int pages = 0;

    for (size_t i = 0; i < list->count; i++) {
        if (list->items[i].kind == PAGE_ITEM_BEGIN) {
            if (pages > 0 && stacked_mm > 0)
                cairo->translate(context, 0, stacked_mm);
            else if (pages > 0)
                cairo->show_page(context);
            pages++;
        }
        draw_item(cairo, ruler, context, &list->items[i]);
    }
    cairo->show_page(context);
}

static enum status status_of(cairo_status_t status)
{
    if (status == CAIRO_STATUS_SUCCESS)
        return STATUS_OK;
    return status == CAIRO_STATUS_NO_MEMORY || status == CAIRO_STATUS_WRITE_ERROR ? STATUS_NO_MEMORY
                                                                                  : STATUS_DOMAIN;
}

static enum status check_list(const struct page_list *list)
{
    if (list->status != STATUS_OK)
        return list->status;
    return list->pages > 0 && list->clips == 0 ? STATUS_OK : STATUS_DOMAIN;
}

/* Draws on the surface, destroys it, and returns the bytes that went into the sink. */
static enum status write_pages(const struct page_cairo *cairo, cairo_surface_t *surface,
                               const struct page_list *list, double scale, double stacked_mm,
                               struct sink *sink, struct page_bytes *ret_bytes)
{
    cairo_t *context = cairo->create(surface);
    struct page_ruler *ruler = page_ruler_new();
    enum status status = STATUS_NO_MEMORY;

    if (ruler) {
        cairo->scale(context, scale, scale);
        draw_pages(cairo, ruler, context, list, stacked_mm);
        status = status_of(cairo->status(context));
    }
    page_ruler_free(ruler);
    cairo->destroy(context);
    cairo->surface_finish(surface);
    if (status == STATUS_OK)
        status = status_of(cairo->surface_status(surface));
    cairo->surface_destroy(surface);
    if (sink->failed)
        status = STATUS_NO_MEMORY;
    if (status == STATUS_OK)
        *ret_bytes = sink->bytes;
    else
        free(sink->bytes.data);
    return status;
}

bool page_can_write(void)
{
    struct page_cairo unused;

    return page_cairo_load(&unused);
}

/* An empty date leaves the creation date out; otherwise cairo would put the present time in. */
static void tell_about(const struct page_cairo *cairo, cairo_surface_t *surface,
                       const struct page_about *about)
{
    char date[32] = "";

    if (strlen(about->date) == 10) {
        memcpy(date, about->date, 10);
        memcpy(date + 10, "T12:00:00Z", sizeof "T12:00:00Z");
    }
    cairo->pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, about->title);
    cairo->pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "sillet");
    cairo->pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, date);
}

enum status page_write_pdf(const struct page_list *list, const struct page_about *about,
                           struct page_bytes *ret_bytes)
{
    struct sink sink = {.failed = false};
    const enum status status = check_list(list);
    struct page_cairo cairo;

    if (status != STATUS_OK)
        return status;
    if (!page_cairo_load(&cairo))
        return STATUS_NOT_FOUND;
    cairo_surface_t *surface =
        cairo.pdf_surface_create_for_stream(take_bytes, &sink, list->size.width_mm * points_per_mm,
                                            list->size.height_mm * points_per_mm);
    /* Later PDF versions may compress the metadata, by which sillet recognises its own files. */
    cairo.pdf_surface_restrict_to_version(surface, CAIRO_PDF_VERSION_1_4);
    tell_about(&cairo, surface, about);
    return write_pages(&cairo, surface, list, points_per_mm, 0, &sink, ret_bytes);
}

enum status page_write_svg(const struct page_list *list, struct page_bytes *ret_bytes)
{
    struct sink sink = {.failed = false};
    const enum status status = check_list(list);
    struct page_cairo cairo;

    if (status != STATUS_OK)
        return status;
    if (!page_cairo_load(&cairo))
        return STATUS_NOT_FOUND;
    cairo_surface_t *surface = cairo.svg_surface_create_for_stream(
        take_bytes, &sink, list->size.width_mm, list->pages * list->size.height_mm);
    cairo.svg_surface_set_document_unit(surface, CAIRO_SVG_UNIT_MM);
    return write_pages(&cairo, surface, list, 1, list->size.height_mm, &sink, ret_bytes);
}
