/* SPDX-License-Identifier: MIT */
#include "sheet/sheet_page.h"

#include "page/page_write.h"
#include "sheet/sheet_flow.h"

enum { LEAST_LINES = 6 }; /* on the last page of several */

#define CLOSEST 1.4 /* pages that the closest setting can bring on one, and some more */

/* How a sheet is laid out. */
struct laid {
    struct page_ruler *ruler;
    double spacing, kept_free_mm;
    double scale;   /* of letters and all, 1 as designed */
    bool columns;   /* short sections stand beside each other */
    int total;      /* pages to print in the foot; 0 if not known yet */
    double last_mm; /* how much of the last page it fills */
    struct page_list *list;
};

static struct setter setter_of(const struct sheet *sheet, struct page_size size,
                               const struct laid *laid)
{
    return (struct setter){.sheet = sheet,
                           .ruler = laid->ruler,
                           .size = {size.width_mm / laid->scale, size.height_mm / laid->scale},
                           .left_mm = SET_MARGIN_MM,
                           .width_mm = size.width_mm / laid->scale - 2 * SET_MARGIN_MM,
                           .total = laid->total,
                           .spacing = laid->spacing,
                           .columns = laid->columns,
                           .kept_free_mm = laid->kept_free_mm};
}

static enum status lay(const struct sheet *sheet, struct page_size size, struct laid *laid)
{
    struct setter setter = setter_of(sheet, size, laid);

    page_list_free(laid->list);
    laid->list = NULL;
    enum status status = page_list_new(setter.size, &setter.list);
    if (status != STATUS_OK)
        return status;
    flow_set(&setter);
    status = page_list_status(setter.list);
    if (status != STATUS_OK) {
        page_list_free(setter.list);
        return status;
    }
    page_list_scale(setter.list, laid->scale);
    laid->list = setter.list;
    laid->last_mm = setter.y_mm - SET_TOP_MM;
    return STATUS_OK;
}

/* How high all of it would stand on one endless page. */
static double measure_mm(const struct sheet *sheet, struct page_size size, const struct laid *laid)
{
    struct setter setter = setter_of(sheet, size, laid);

    flow_set(&setter);
    return setter.y_mm + SET_BOTTOM_MM;
}

/* Sets it closer, then in columns, then a little smaller, as far as one page then holds it; else as
 * designed. */
static void seek_one_page(const struct sheet *sheet, struct page_size size, struct laid *laid)
{
    static const struct {
        double spacing, scale;
        bool columns;
    } tries[] = {{1, 1, false},  {0.75, 1, false},  {1, 1, true},     {0.75, 1, true},
                 {0.6, 1, true}, {0.6, 0.95, true}, {0.5, 0.9, true}, {0.4, 0.87, true}};

    for (size_t i = 0; i < sizeof tries / sizeof tries[0]; i++) {
        laid->spacing = tries[i].spacing;
        laid->scale = tries[i].scale;
        laid->columns = tries[i].columns;
        const double needs = measure_mm(sheet, size, laid) * laid->scale / size.height_mm;
        if (needs <= 1)
            return;
        if (laid->columns && needs > CLOSEST)
            break;
    }
    laid->spacing = laid->scale = 1;
    laid->columns = false;
}

/* A page with only a few lines looks like a slip. */
static bool ends_short(const struct laid *laid)
{
    return page_list_pages(laid->list) > 1 &&
           laid->last_mm < LEAST_LINES * (set_body.line_mm + FLOW_PART_MM);
}

/* Takes more lines over to the last page. */
static enum status mend_short(const struct sheet *sheet, struct page_size size, struct laid *laid)
{
    enum status status = STATUS_OK;

    for (int moved = 1; moved <= 4; moved *= 2) {
        laid->kept_free_mm = moved * LEAST_LINES * set_body.line_mm;
        status = lay(sheet, size, laid);
        if (status != STATUS_OK || !ends_short(laid))
            break;
    }
    return status;
}

enum status sheet_lay_pages(const struct sheet *sheet, struct page_size size,
                            struct page_list **ret_list)
{
    struct laid laid = {.ruler = page_ruler_new(), .spacing = 1, .scale = 1};

    if (!laid.ruler)
        return STATUS_NO_MEMORY;
    seek_one_page(sheet, size, &laid);
    enum status status = lay(sheet, size, &laid);

    if (status == STATUS_OK && ends_short(&laid))
        status = mend_short(sheet, size, &laid);
    if (status == STATUS_OK && page_list_pages(laid.list) > 1) {
        /* Once more: the foot of each page has the number of pages, which is known only now. */
        laid.total = page_list_pages(laid.list);
        status = lay(sheet, size, &laid);
    }
    if (status == STATUS_OK)
        *ret_list = laid.list;
    page_ruler_free(laid.ruler);
    return status;
}
