/* SPDX-License-Identifier: MIT */
#include "template/template_around.h"

#include <math.h>

#include "base/strbuf.h"
#include "template/template_inside.h"

enum { CROSS = 3 }; /* mm */

static const struct page_font heading = {.size_mm = 5, .weight = PAGE_BOLD};
static const struct page_stroke bar = {.width_mm = 0.2};
static const struct page_stroke joint = {.width_mm = 0.15, .line = PAGE_LINE_DASHED, .grey = 0.35};

/* --- what every page says --- */

void template_draw_head(struct page_list *pages, const struct template_sheet *sheet, double x,
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
void template_draw_bar_along(struct page_list *pages, double x, double y, bool turned)
{
    enum { LENGTH = 100, PARTS = 10 };
    const double quarter = acos(-1) / 2;

    page_draw_line(pages, (struct page_point){x, y}, (struct page_point){x, y + LENGTH}, &bar);
    for (int i = 0; i <= PARTS; i++) {
        const double at = y + (double)LENGTH * i / PARTS, out = i % PARTS == 0 ? 3 : 1.5;

        page_draw_line(pages, (struct page_point){x - out, at}, (struct page_point){x, at}, &bar);
    }
    page_draw_text(pages, (struct page_point){x, y + LENGTH + 3}, turned ? PAGE_LEFT : PAGE_RIGHT,
                   turned ? -quarter : quarter, &template_strong, "100 mm");
}

void template_draw_foot(struct page_list *pages, const struct template_sheet *sheet, double x,
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

void template_draw_joints(struct page_list *pages, const struct tile *tile)
{
    const double left = tile->corner.x_mm, right = left + tile->area.width_mm;
    const double top = tile->corner.y_mm, bottom = top + tile->area.height_mm;

    for (int which = -1; which <= 1; which += 2) {
        const int row = tile->row + (which > 0), column = tile->column + (which > 0);
        const double y = top + joint_at(&tile->down, which);
        const double x = left + joint_at(&tile->across, which);

        if (row > 0 && row < tile->down.count)
            draw_joint(pages, (struct page_point){left, y}, (struct page_point){right, y}, row - 1);
        if (column > 0 && column < tile->across.count)
            draw_joint(pages, (struct page_point){x, top}, (struct page_point){x, bottom},
                       tile->down.count - 1 + column - 1);
    }
}

int template_count_tiles(const struct tile *tile)
{
    return tile->across.count * tile->down.count;
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
    const int total = template_count_tiles(tile);
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

void template_draw_around(struct page_list *page, const struct tile *tile)
{
    const struct page_size size = page_list_size(page);

    template_draw_head(page, tile->sheet, MARGIN, MARGIN);
    say_place(page, tile);
    template_draw_bar_along(page, size.width_mm - MARGIN, MARGIN + HEAD + OVERLAP, tile->turned);
    template_draw_foot(page, tile->sheet, MARGIN, size.height_mm - MARGIN - FOOT);
}
