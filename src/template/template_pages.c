/* SPDX-License-Identifier: MIT */
#include "template/template_pages.h"

#include <math.h>
#include <stdlib.h>

#include "base/strbuf.h"
#include "template/template_inside.h"

/* All mm. */
enum {
    MARGIN = 10, /* more than printers need */
    HEAD = 17,   /* title, instrument, how to join */
    FOOT = 24,   /* bars and caution */
    SIDE = 8,    /* right of a tile: the bar along the page */
    OVERLAP = 12,
    CROSS = 3,
    APART = 8, /* drawings that share a page */
    TILES_MAX = 1000
};

static const struct page_font heading = {.size_mm = 5, .weight = PAGE_BOLD};
static const struct page_stroke bar = {.width_mm = 0.2};
static const struct page_stroke joint = {.width_mm = 0.15, .line = PAGE_LINE_DASHED, .grey = 0.35};

/* One tile of a sheet: its place among the others, and the part of the page it fills. */
struct tile {
    const struct template_sheet *sheet;
    struct template_tiles across, down;
    int column, row;
    struct page_size area;
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

/* --- what every page says --- */

static void draw_head(struct page_list *pages, const struct template_sheet *sheet, double x,
                      double y)
{
    char memory[200];
    struct strbuf text = STRBUF(memory);

    template_say(pages, x, y + 4, PAGE_LEFT, &heading, sheet->title);
    strbuf_add(&text, sheet->instrument);
    if (sheet->date[0]) {
        strbuf_add(&text, text.length > 0 ? ", readings of " : "Readings of ");
        strbuf_add(&text, sheet->date);
    }
    template_say(pages, x, y + 9, PAGE_LEFT, &template_plain, memory);
}

static void draw_bar(struct page_list *pages, double x, double y, double length_mm, int parts,
                     const char *words)
{
    page_draw_line(pages, (struct page_point){x, y}, (struct page_point){x + length_mm, y}, &bar);
    for (int i = 0; i <= parts; i++) {
        const double at = x + length_mm * i / parts, up = i % parts == 0 ? 3 : 1.5;

        page_draw_line(pages, (struct page_point){at, y - up}, (struct page_point){at, y}, &bar);
    }
    template_say(pages, x + length_mm + 3, y, PAGE_LEFT, &template_strong, words);
}

/* A printer's scale along the page, in the feed direction, can differ from that across it. */
static void draw_bar_along(struct page_list *pages, double x, double y)
{
    enum { LENGTH = 100, PARTS = 10 };

    page_draw_line(pages, (struct page_point){x, y}, (struct page_point){x, y + LENGTH}, &bar);
    for (int i = 0; i <= PARTS; i++) {
        const double at = y + (double)LENGTH * i / PARTS, out = i % PARTS == 0 ? 3 : 1.5;

        page_draw_line(pages, (struct page_point){x - out, at}, (struct page_point){x, at}, &bar);
    }
    page_draw_text(pages, (struct page_point){x, y + LENGTH + 3}, PAGE_RIGHT, acos(-1) / 2,
                   &template_strong, "100 mm");
}

static void draw_foot(struct page_list *pages, const struct template_sheet *sheet, double x,
                      double y)
{
    draw_bar(pages, x, y + 6, 100, 10, "100 mm");
    draw_bar(pages, x, y + 13, 4 * 25.4, 4, "4 in");
    template_say(pages, x + 122, y + 4, PAGE_LEFT, &template_strong, "Measure the bars first.");
    template_say(pages, x + 122, y + 8.5, PAGE_LEFT, &template_small,
                 "Where one is off, do not cut by it.");
    template_say(pages, x + 122, y + 13, PAGE_LEFT, &template_small, "Print at 100 %, no scaling.");
    template_say(pages, x, y + 19, PAGE_LEFT, &template_plain, sheet->caution);
    template_say(
        pages, x, y + 23, PAGE_LEFT, &template_small,
        "Figures are estimates from the readings on file: check each against the instrument "
        "before it is cut.");
}

/* --- joints --- */

/* Joints across the page are A, B ..; those up and down the page continue the alphabet. */
static void add_letter(struct strbuf *out, int number)
{
    strbuf_add_char(out, (char)('A' + number % 26));
    if (number >= 26)
        strbuf_addf(out, "%d", number / 26);
}

static void draw_cross(struct page_list *pages, double x, double y)
{
    page_draw_line(pages, (struct page_point){x - CROSS, y}, (struct page_point){x + CROSS, y},
                   &template_cut);
    page_draw_line(pages, (struct page_point){x, y - CROSS}, (struct page_point){x, y + CROSS},
                   &template_cut);
    page_draw_circle(pages, (struct page_point){x, y}, CROSS / 2.0, &template_cut);
}

static void draw_joint(struct page_list *pages, struct page_point from, struct page_point to,
                       int number)
{
    char memory[16];
    struct strbuf letter = STRBUF(memory);
    const double dx = to.x_mm - from.x_mm, dy = to.y_mm - from.y_mm, inset = 6 / hypot(dx, dy);

    page_draw_line(pages, from, to, &joint);
    draw_cross(pages, from.x_mm + inset * dx, from.y_mm + inset * dy);
    draw_cross(pages, to.x_mm - inset * dx, to.y_mm - inset * dy);
    add_letter(&letter, number);
    template_say(pages, to.x_mm - 2 * inset * dx, to.y_mm - 2 * inset * dy - 1.2, PAGE_RIGHT,
                 &heading, memory);
}

/* The line in the middle of an overlap with the tile before (-1) or after (+1). */
static double joint_at(const struct template_tiles *tiles, int which)
{
    return which < 0 ? OVERLAP / 2.0 : tiles->step_mm + OVERLAP / 2.0;
}

static void draw_joints(struct page_list *pages, const struct tile *tile)
{
    const double right = MARGIN + tile->area.width_mm, top = MARGIN + HEAD;
    const double bottom = top + tile->area.height_mm;

    for (int which = -1; which <= 1; which += 2) {
        const int row = tile->row + (which > 0), column = tile->column + (which > 0);
        const double y = top + joint_at(&tile->down, which);
        const double x = MARGIN + joint_at(&tile->across, which);

        if (row > 0 && row < tile->down.count)
            draw_joint(pages, (struct page_point){MARGIN, y}, (struct page_point){right, y},
                       row - 1);
        if (column > 0 && column < tile->across.count)
            draw_joint(pages, (struct page_point){x, top}, (struct page_point){x, bottom},
                       tile->down.count - 1 + column - 1);
    }
}

static int number_of(const struct tile *tile, int column, int row)
{
    return row * tile->across.count + column + 1;
}

/* A joint with a tile before this one: above it, or to its left. */
struct join {
    int letter, page;
};

static int find_joins(const struct tile *tile, struct join join[2])
{
    int count = 0;

    if (tile->row > 0)
        join[count++] = (struct join){tile->row - 1, number_of(tile, tile->column, tile->row - 1)};
    if (tile->column > 0)
        join[count++] = (struct join){tile->down.count - 1 + tile->column - 1,
                                      number_of(tile, tile->column - 1, tile->row)};
    return count;
}

/* "Cut along A and C; glue A to A of page 2, C to C of page 3, crosses on crosses." */
static void add_joining(const struct tile *tile, struct strbuf *out)
{
    struct join join[2];
    const int joins = find_joins(tile, join);

    for (int i = 0; i < joins; i++) {
        strbuf_add(out, i == 0 ? "Cut along " : " and ");
        add_letter(out, join[i].letter);
    }
    for (int i = 0; i < joins; i++) {
        strbuf_add(out, i == 0 ? "; glue " : ", ");
        add_letter(out, join[i].letter);
        strbuf_add(out, " to ");
        add_letter(out, join[i].letter);
        strbuf_addf(out, " of page %d", join[i].page);
    }
    strbuf_add(out, joins > 0 ? ", crosses on crosses."
                              : "This page stays whole; the next ones are glued onto it.");
}

static void say_place(struct page_list *pages, const struct tile *tile)
{
    char memory[200];
    struct strbuf text = STRBUF(memory);
    const int total = tile->across.count * tile->down.count;
    const double right = page_list_size(pages).width_mm - MARGIN;

    strbuf_addf(&text, "page %d of %d", number_of(tile, tile->column, tile->row), total);
    template_say(pages, right, MARGIN + 4, PAGE_RIGHT, &template_strong, memory);
    if (total == 1)
        return;
    strbuf_clear(&text);
    strbuf_addf(&text, "column %d, row %d", tile->column + 1, tile->row + 1);
    template_say(pages, right, MARGIN + 9, PAGE_RIGHT, &template_plain, memory);
    strbuf_clear(&text);
    add_joining(tile, &text);
    template_say(pages, MARGIN, MARGIN + 14, PAGE_LEFT, &template_strong, memory);
}

/* --- pages --- */

static void draw_tile(struct page_list *pages, const struct tile *tile)
{
    const struct page_size size = page_list_size(pages);
    const struct page_point corner = {MARGIN, MARGIN + HEAD};
    const double spare_mm = tile->area.width_mm - page_list_size(tile->sheet->drawing).width_mm;
    const double centred_mm = spare_mm > 0 ? spare_mm / 2 : 0;
    const struct page_point at = {corner.x_mm + centred_mm - tile->column * tile->across.step_mm,
                                  corner.y_mm - tile->row * tile->down.step_mm};

    page_begin(pages);
    draw_head(pages, tile->sheet, MARGIN, MARGIN);
    say_place(pages, tile);
    page_begin_clip(pages, corner, tile->area.width_mm, tile->area.height_mm);
    page_place(pages, at, tile->sheet->drawing);
    page_end_clip(pages);
    draw_joints(pages, tile);
    draw_bar_along(pages, size.width_mm - MARGIN, MARGIN + HEAD + OVERLAP);
    draw_foot(pages, tile->sheet, MARGIN, size.height_mm - MARGIN - FOOT);
}

static struct page_size area_of(const struct page_list *pages)
{
    const struct page_size paper = page_list_size(pages);

    return (struct page_size){paper.width_mm - 2 * MARGIN - SIDE,
                              paper.height_mm - 2 * MARGIN - HEAD - FOOT};
}

static enum status add_tiles(struct page_list *pages, const struct template_sheet *sheet)
{
    const struct page_size size = page_list_size(sheet->drawing);
    struct tile tile = {.sheet = sheet, .area = area_of(pages)};

    if (template_cut_tiles(size.width_mm, tile.area.width_mm, OVERLAP, &tile.across) != STATUS_OK ||
        template_cut_tiles(size.height_mm, tile.area.height_mm, OVERLAP, &tile.down) != STATUS_OK)
        return STATUS_DOMAIN;
    for (tile.row = 0; tile.row < tile.down.count; tile.row++)
        for (tile.column = 0; tile.column < tile.across.count; tile.column++)
            draw_tile(pages, &tile);
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

        draw_head(pages, &sheets[i], MARGIN, y);
        template_say(pages, MARGIN, y + 14, PAGE_LEFT, &template_plain, sheets[i].caution);
        page_place(pages,
                   (struct page_point){MARGIN + (area.width_mm - size.width_mm) / 2, y + HEAD},
                   sheets[i].drawing);
        y += HEAD + size.height_mm + APART;
    }
    draw_bar_along(pages, paper.width_mm - MARGIN, MARGIN + HEAD + OVERLAP);
    draw_foot(pages, &all, MARGIN, paper.height_mm - MARGIN - FOOT);
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
        draw_head(page, &sheets[i], MARGIN, y);
        page_place(page, (struct page_point){MARGIN, y + HEAD}, sheets[i].drawing);
        y += HEAD + page_list_size(sheets[i].drawing).height_mm;
        draw_foot(page, &sheets[i], MARGIN, y);
        y += FOOT + MARGIN;
    }
    return template_finish(page, ret_page);
}
