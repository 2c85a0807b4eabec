/* SPDX-License-Identifier: MIT */
#include "template/template_pages.h"

#include <math.h>

#include "template/template_around.h"
#include "template/template_inside.h"

enum {
    APART = 8, /* mm: drawings that share a page */
    TILES_MAX = 1000
};

enum status template_cut_tiles(double length_mm, double tile_mm, double overlap_mm,
                               struct template_tiles *ret_tiles)
{
    if (!(length_mm > 0) || !(overlap_mm >= 0) || !(tile_mm > overlap_mm))
        return STATUS_DOMAIN;
    const double step_mm = tile_mm - overlap_mm, more = ceil((length_mm - tile_mm) / step_mm);

    if (!(more < TILES_MAX))
        return STATUS_DOMAIN;
    ret_tiles->count = more > 0 ? 1 + (int)more : 1;
    ret_tiles->step_mm = step_mm;
    return STATUS_OK;
}

/* --- pages --- */

static enum status draw_around_turned(struct page_list *pages, const struct tile *tile)
{
    const struct page_size size = page_list_size(pages);
    struct page_list *around;
    const enum status status = template_begin(size.height_mm, size.width_mm, &around);

    if (status != STATUS_OK)
        return status;
    template_draw_around(around, tile);
    page_list_turn(around);
    page_place(pages, (struct page_point){0, 0}, around);
    page_list_free(around);
    return STATUS_OK;
}

static enum status draw_tile(struct page_list *pages, const struct tile *tile)
{
    const double spare_mm = tile->area.width_mm - page_list_size(tile->sheet->drawing).width_mm;
    const double centred_mm = spare_mm > 0 ? spare_mm / 2 : 0;
    const struct page_point at = {tile->corner.x_mm + centred_mm -
                                      tile->column * tile->across.step_mm,
                                  tile->corner.y_mm - tile->row * tile->down.step_mm};
    enum status status = STATUS_OK;

    page_begin(pages);
    if (tile->turned)
        status = draw_around_turned(pages, tile);
    else
        template_draw_around(pages, tile);
    page_begin_clip(pages, tile->corner, tile->area.width_mm, tile->area.height_mm);
    page_place(pages, at, tile->sheet->drawing);
    page_end_clip(pages);
    template_draw_joints(pages, tile);
    return status;
}

static struct page_size area_of(const struct page_list *pages)
{
    const struct page_size paper = page_list_size(pages);

    return (struct page_size){paper.width_mm - 2 * MARGIN - SIDE,
                              paper.height_mm - 2 * MARGIN - HEAD - FOOT};
}

static enum status cut_tiles(const struct page_list *pages, const struct template_sheet *sheet,
                             bool turned, struct tile *ret_tile)
{
    const struct page_size size = page_list_size(sheet->drawing), paper = page_list_size(pages);
    struct tile tile = {.sheet = sheet,
                        .turned = turned,
                        .corner = {MARGIN, MARGIN + HEAD},
                        .area = area_of(pages)};

    if (turned) {
        tile.corner = (struct page_point){MARGIN + HEAD, MARGIN + SIDE};
        tile.area = (struct page_size){paper.width_mm - 2 * MARGIN - HEAD - FOOT,
                                       paper.height_mm - 2 * MARGIN - SIDE};
    }
    if (template_cut_tiles(size.width_mm, tile.area.width_mm, OVERLAP, &tile.across) != STATUS_OK ||
        template_cut_tiles(size.height_mm, tile.area.height_mm, OVERLAP, &tile.down) != STATUS_OK)
        return STATUS_DOMAIN;
    *ret_tile = tile;
    return STATUS_OK;
}

static enum status add_tiles(struct page_list *pages, const struct template_sheet *sheet)
{
    struct tile tile, turned;

    if (cut_tiles(pages, sheet, false, &tile) != STATUS_OK)
        return STATUS_DOMAIN;
    if (cut_tiles(pages, sheet, true, &turned) == STATUS_OK &&
        template_count_tiles(&turned) < template_count_tiles(&tile))
        tile = turned;
    for (tile.row = 0; tile.row < tile.down.count; tile.row++)
        for (tile.column = 0; tile.column < tile.across.count; tile.column++) {
            const enum status status = draw_tile(pages, &tile);

            if (status != STATUS_OK)
                return status;
        }
    return page_list_status(pages);
}

/* How many of the drawings, from the first one on, fit on one page; at least 1. */
static int find_shared(const struct page_list *pages, const struct template_sheet *sheets,
                       int count)
{
    const struct page_size area = area_of(pages);
    double height_mm = 0;

    for (int i = 0; i < count; i++) {
        const struct page_size size = page_list_size(sheets[i].drawing);

        height_mm += size.height_mm + (i > 0 ? APART + HEAD : 0);
        if (size.width_mm > area.width_mm || height_mm > area.height_mm)
            return i > 0 ? i : 1;
    }
    return count;
}

/* Each has its own head and caution; the bars hold for all. */
static void draw_shared(struct page_list *pages, const struct template_sheet *sheets, int count)
{
    const struct page_size paper = page_list_size(pages), area = area_of(pages);
    const struct template_sheet all = {.caution = ""};
    double y = MARGIN;

    page_begin(pages);
    for (int i = 0; i < count; i++) {
        const struct page_size size = page_list_size(sheets[i].drawing);

        template_draw_head(pages, &sheets[i], MARGIN, y);
        template_say(pages, MARGIN, y + 14, PAGE_LEFT, &template_plain, sheets[i].caution);
        page_place(pages,
                   (struct page_point){MARGIN + (area.width_mm - size.width_mm) / 2, y + HEAD},
                   sheets[i].drawing);
        y += HEAD + size.height_mm + APART;
    }
    template_draw_bar_along(pages, paper.width_mm - MARGIN, MARGIN + HEAD + OVERLAP, false);
    template_draw_foot(pages, &all, MARGIN, paper.height_mm - MARGIN - FOOT);
}

enum status template_add_pages(struct page_list *pages, const struct template_sheet *sheets,
                               int count)
{
    enum status status = STATUS_OK;

    for (int i = 0; i < count && status == STATUS_OK;) {
        const int shared = find_shared(pages, &sheets[i], count - i);

        if (shared > 1)
            draw_shared(pages, &sheets[i], shared);
        status = shared > 1 ? page_list_status(pages) : add_tiles(pages, &sheets[i]);
        i += shared;
    }
    return status;
}

/* --- one drawing --- */

static struct page_size size_of_all(const struct template_sheet *sheets, int count)
{
    struct page_size all = {186, 2 * MARGIN};

    for (int i = 0; i < count; i++) {
        const struct page_size size = page_list_size(sheets[i].drawing);

        all.width_mm = fmax(all.width_mm, size.width_mm);
        all.height_mm += HEAD + size.height_mm + FOOT + MARGIN;
    }
    all.width_mm += 2 * MARGIN;
    return all;
}

enum status template_lay_drawing(const struct template_sheet *sheets, int count,
                                 struct page_list **ret_page)
{
    const struct page_size all = size_of_all(sheets, count);
    struct page_list *page;
    double y = MARGIN;
    const enum status status =
        count > 0 ? template_begin(all.width_mm, all.height_mm, &page) : STATUS_DOMAIN;

    if (status != STATUS_OK)
        return status;
    for (int i = 0; i < count; i++) {
        template_draw_head(page, &sheets[i], MARGIN, y);
        page_place(page, (struct page_point){MARGIN, y + HEAD}, sheets[i].drawing);
        y += HEAD + page_list_size(sheets[i].drawing).height_mm;
        template_draw_foot(page, &sheets[i], MARGIN, y);
        y += FOOT + MARGIN;
    }
    return template_finish(page, ret_page);
}
