/* SPDX-License-Identifier: MIT */
#include "sheet/sheet_page.h"

#include <math.h>

#include "base/num.h"
#include "page/page_write.h"
#include "sheet/sheet_draw.h"
#include "sheet/sheet_set.h"

enum {
    LINE_BYTES = 512,
    LEAST_LINES = 6, /* on the last page of several */
};

static const struct set_style title = {{6.2, PAGE_BOLD, 0.05}, 8.0};
static const struct set_style aside = {{3.4, PAGE_PLAIN, 0.25}, 8.0};
static const struct set_style heading = {{3.4, PAGE_BOLD, 0.05}, 4.8};
static const struct set_style item = {{3.1, PAGE_PLAIN, 0.1}, 4.4};
static const struct page_stroke title_rule = {0.4, PAGE_LINE_SOLID, 0.2};

#define CLOSEST 1.4 /* pages that the closest setting can bring on one, and some more */

static const double part_mm = 2.2;           /* between blocks */
static const double before_heading_mm = 4.4; /* above a heading */
static const double after_heading_mm = 0.8;
static const double item_indent_mm = 4;
static const double beside_gap_mm = 10, beside_least_mm = 62;

static void set_paragraph(struct setter *setter, const struct set_style *style, double indent_mm,
                          const char *text)
{
    const char *at = text ? text : "";
    char memory[LINE_BYTES];
    struct strbuf line = STRBUF(memory);

    while (
        set_next_line(setter->ruler, &style->font, &at, set_width_mm(setter) - indent_mm, &line)) {
        set_need(setter, style->line_mm);
        set_text(setter, SET_MARGIN_MM + indent_mm, setter->y_mm, PAGE_LEFT, style, memory);
        setter->y_mm += style->line_mm;
    }
}

/* The name, in as many lines as it needs beside the text at the right. */
static void set_title(struct setter *setter, const struct sheet_block *block)
{
    const char *right = block->aside ? block->aside : "", *at = block->text ? block->text : "";
    const double right_mm = page_ruler_width_mm(setter->ruler, &aside.font, right);
    char memory[LINE_BYTES];
    struct strbuf line = STRBUF(memory);

    set_text(setter, setter->size.width_mm - SET_MARGIN_MM, setter->y_mm + 0.85, PAGE_RIGHT, &aside,
             right);
    while (set_next_line(setter->ruler, &title.font, &at, set_width_mm(setter) - right_mm - 4,
                         &line)) {
        set_text(setter, SET_MARGIN_MM, setter->y_mm, PAGE_LEFT, &title, memory);
        setter->y_mm += title.line_mm;
    }
    setter->y_mm += 1.2;
    if (setter->list)
        page_draw_line(setter->list, (struct page_point){SET_MARGIN_MM, setter->y_mm},
                       (struct page_point){setter->size.width_mm - SET_MARGIN_MM, setter->y_mm},
                       &title_rule);
    setter->y_mm += 0.6;
}

static void set_item(struct setter *setter, const char *text)
{
    set_need(setter, item.line_mm);
    /* The middle dot of a list, left of its first line. */
    set_text(setter, SET_MARGIN_MM + 1, setter->y_mm, PAGE_LEFT, &item, "\xC2\xB7");
    set_paragraph(setter, &item, item_indent_mm, text);
}

static void draw(struct setter *setter, enum sheet_drawing drawing, const struct sheet_area *area)
{
    if (!setter->list)
        return;
    if (drawing == SHEET_HEADROOM_MAP)
        sheet_draw_headroom_map(setter->list, setter->sheet, area);
    else
        sheet_draw_picture(setter->list, setter->sheet, drawing, area);
}

/* A drawing's caption and key; the map draws its own key. */
static void say_caption(const struct sheet_block *block, const struct sheet *sheet,
                        const struct sheet_area *area, struct strbuf *out)
{
    if (block->text)
        strbuf_add(out, block->text);
    if (block->drawing == SHEET_SIDE_VIEW) {
        strbuf_add(out, ", heights \xC3\x97");
        num_format_fixed(sheet_side_view_times(&sheet->picture[SHEET_SIDE_VIEW], area), 0, false,
                         out);
        strbuf_add(out, " as large as lengths");
    }
    if (block->aside && block->drawing != SHEET_HEADROOM_MAP)
        strbuf_addf(out, "; %s", block->aside);
}

/* Whether a drawing goes beside the table before it: a small one does, if there is room. */
static bool is_beside(const struct setter *setter, const struct sheet_block *block)
{
    return block->kind == SHEET_DRAWING && block->drawing == SHEET_CENTS_CURVE &&
           block > setter->sheet->blocks && block[-1].kind == SHEET_TABLE &&
           set_width_mm(setter) - setter->table_width_mm - beside_gap_mm >= beside_least_mm;
}

static void set_beside(struct setter *setter, const struct sheet_block *block)
{
    const double indent_mm = setter->table_width_mm + beside_gap_mm;
    struct sheet_area area = {.corner = {SET_MARGIN_MM + indent_mm, 0},
                              .width_mm = set_width_mm(setter) - indent_mm,
                              .height_mm = sheet_draw_height_mm(setter->sheet, block->drawing)};
    const double bottom_mm = setter->y_mm;
    char memory[256];
    struct strbuf caption = STRBUF(memory);

    say_caption(block, setter->sheet, &area, &caption);
    setter->y_mm = setter->table_top_mm;
    set_paragraph(setter, &set_small, indent_mm, memory);
    area.corner.y_mm = setter->y_mm + 0.5;
    draw(setter, block->drawing, &area);
    setter->y_mm = fmax(bottom_mm, area.corner.y_mm + area.height_mm);
}

static void set_drawing(struct setter *setter, const struct sheet_block *block)
{
    if (is_beside(setter, block)) {
        set_beside(setter, block);
        return;
    }

    struct sheet_area area = {.corner = {SET_MARGIN_MM, 0},
                              .width_mm = set_width_mm(setter),
                              .height_mm = sheet_draw_height_mm(setter->sheet, block->drawing)};
    char memory[256];
    struct strbuf caption = STRBUF(memory);

    set_need(setter, area.height_mm + set_small.line_mm + 1);
    say_caption(block, setter->sheet, &area, &caption);
    set_paragraph(setter, &set_small, 0, memory);
    area.corner.y_mm = setter->y_mm + 1;
    draw(setter, block->drawing, &area);
    setter->y_mm += area.height_mm + 1;
}

/* From edge to edge. */
static void set_cut(struct setter *setter)
{
    static const struct page_stroke stroke = {0.2, PAGE_LINE_DASHED, 0.4};
    const double y_mm = setter->y_mm + 1.5;

    if (setter->list)
        page_draw_line(setter->list, (struct page_point){0, y_mm},
                       (struct page_point){setter->size.width_mm, y_mm}, &stroke);
    setter->y_mm += 2;
}

static void set_block(struct setter *setter, const struct sheet_block *block)
{
    switch (block->kind) {
    case SHEET_TITLE:
        set_title(setter, block);
        return;
    case SHEET_HEADING:
        set_paragraph(setter, &heading, 0, block->text);
        return;
    case SHEET_PARAGRAPH:
        set_paragraph(setter, &set_body, 0, block->text);
        return;
    case SHEET_ITEM:
        set_item(setter, block->text);
        return;
    case SHEET_SMALL:
        set_paragraph(setter, &set_small, 0, block->text);
        return;
    case SHEET_CUT:
        set_paragraph(setter, &set_small, 0, block->text);
        set_cut(setter);
        return;
    case SHEET_TABLE:
        if (block->table->pairs)
            set_pairs(setter, block->table);
        else
            set_table(setter, block->table);
        return;
    case SHEET_DRAWING:
        set_drawing(setter, block);
        return;
    }
}

/* The height of a block; for a table, including the drawing beside it. */
static double height_of(const struct setter *setter, const struct sheet_block *block)
{
    const struct sheet *sheet = setter->sheet;
    struct setter measure = *setter;

    measure.list = NULL;
    set_block(&measure, block);
    if (block + 1 < sheet->blocks + sheet->count && is_beside(&measure, block + 1))
        set_block(&measure, block + 1);
    return measure.y_mm - setter->y_mm;
}

/* The space between a block and the one before it, as designed. */
static double full_space_mm(const struct sheet *sheet, size_t at)
{
    const enum sheet_block_kind kind = sheet->blocks[at].kind;

    if (at == 0)
        return 0;
    const enum sheet_block_kind before = sheet->blocks[at - 1].kind;
    if (kind == SHEET_HEADING)
        return before_heading_mm;
    if (before == SHEET_HEADING)
        return after_heading_mm;
    return kind == SHEET_ITEM && before == SHEET_ITEM ? 0.6 : part_mm;
}

static double space_mm(const struct setter *setter, size_t at)
{
    return setter->spacing * full_space_mm(setter->sheet, at);
}

/* A heading stays with the block after it, and a table with the lines under it. */
static bool keeps_next(const struct sheet *sheet, size_t at)
{
    if (at + 1 >= sheet->count)
        return false;
    const enum sheet_block_kind kind = sheet->blocks[at].kind;
    const enum sheet_block_kind next = sheet->blocks[at + 1].kind;
    return kind == SHEET_HEADING || kind == SHEET_CUT || next == SHEET_SMALL ||
           (kind == SHEET_TABLE && next == SHEET_PARAGRAPH);
}

/* The height from here that must not be split over two pages, if one page can hold it. */
static double kept_height_mm(const struct setter *setter, size_t at)
{
    const struct sheet *sheet = setter->sheet;
    double height_mm = height_of(setter, &sheet->blocks[at]);

    for (; keeps_next(sheet, at); at++)
        height_mm += space_mm(setter, at + 1) + height_of(setter, &sheet->blocks[at + 1]);
    return height_mm;
}

static void set_blocks(struct setter *setter)
{
    const struct sheet *sheet = setter->sheet;
    const double page_mm = setter->size.height_mm - SET_TOP_MM - SET_BOTTOM_MM;

    set_begin_page(setter);
    for (size_t i = 0; i < sheet->count; i++) {
        const bool beside = is_beside(setter, &sheet->blocks[i]);
        const double need_mm = beside ? 0 : kept_height_mm(setter, i);

        setter->y_mm += beside ? 0 : space_mm(setter, i);
        if (need_mm < page_mm)
            set_need(setter, need_mm);
        set_block(setter, &sheet->blocks[i]);
    }
}

/* How a sheet is laid out. */
struct laid {
    struct page_ruler *ruler;
    double spacing, kept_free_mm;
    double scale;   /* of letters and all, 1 as designed */
    int total;      /* pages to print in the foot; 0 if not known yet */
    double last_mm; /* how much of the last page it fills */
    struct page_list *list;
};

static enum status lay(const struct sheet *sheet, struct page_size size, struct laid *laid)
{
    struct setter setter = {.sheet = sheet,
                            .ruler = laid->ruler,
                            .size = {size.width_mm / laid->scale, size.height_mm / laid->scale},
                            .total = laid->total,
                            .spacing = laid->spacing,
                            .kept_free_mm = laid->kept_free_mm};

    page_list_free(laid->list);
    laid->list = NULL;
    enum status status = page_list_new(setter.size, &setter.list);
    if (status != STATUS_OK)
        return status;
    set_blocks(&setter);
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
    struct setter setter = {.sheet = sheet,
                            .ruler = laid->ruler,
                            .size = {size.width_mm / laid->scale, size.height_mm / laid->scale},
                            .spacing = laid->spacing};

    set_blocks(&setter);
    return setter.y_mm + SET_BOTTOM_MM;
}

/* Sets it closer and a little smaller, as far as one page then holds it; else as designed. */
static void seek_one_page(const struct sheet *sheet, struct page_size size, struct laid *laid)
{
    static const struct {
        double spacing, scale;
    } tries[] = {{1, 1}, {0.75, 1}, {0.6, 0.95}, {0.5, 0.9}, {0.4, 0.87}};

    for (size_t i = 0; i < sizeof tries / sizeof tries[0]; i++) {
        laid->spacing = tries[i].spacing;
        laid->scale = tries[i].scale;
        const double needs = measure_mm(sheet, size, laid) * laid->scale / size.height_mm;
        if (needs <= 1)
            return;
        if (needs > CLOSEST)
            break;
    }
    laid->spacing = laid->scale = 1;
}

/* A page with only a few lines looks like a slip. */
static bool ends_short(const struct laid *laid)
{
    return page_list_pages(laid->list) > 1 &&
           laid->last_mm < LEAST_LINES * (set_body.line_mm + part_mm);
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
