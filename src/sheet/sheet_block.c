/* SPDX-License-Identifier: MIT */
#include "sheet/sheet_block.h"

#include <math.h>

#include "base/num.h"
#include "page/page_write.h"
#include "sheet/sheet_draw.h"

enum { LINE_BYTES = 512 };

static const struct set_style title = {{6.2, PAGE_BOLD, 0.05}, 8.0};
static const struct set_style aside = {{3.4, PAGE_PLAIN, 0.25}, 8.0};
static const struct set_style heading = {{3.4, PAGE_BOLD, 0.05}, 4.8};
static const struct set_style item = {{3.1, PAGE_PLAIN, 0.1}, 4.4};
static const struct page_stroke title_rule = {0.4, PAGE_LINE_SOLID, 0.2};

static const double item_indent_mm = 4;
static const double beside_gap_mm = 10, beside_least_mm = 62;

static void set_paragraph(struct setter *setter, const struct set_style *style, double indent_mm,
                          const char *text)
{
    const char *at = text ? text : "";
    char memory[LINE_BYTES];
    struct strbuf line = STRBUF(memory);

    while (set_next_line(setter->ruler, &style->font, &at, setter->width_mm - indent_mm, &line)) {
        set_need(setter, style->line_mm);
        set_text(setter, setter->left_mm + indent_mm, setter->y_mm, PAGE_LEFT, style, memory);
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

    set_text(setter, setter->left_mm + setter->width_mm, setter->y_mm + 0.85, PAGE_RIGHT, &aside,
             right);
    while (set_next_line(setter->ruler, &title.font, &at, setter->width_mm - right_mm - 4, &line)) {
        set_text(setter, setter->left_mm, setter->y_mm, PAGE_LEFT, &title, memory);
        setter->y_mm += title.line_mm;
    }
    setter->y_mm += 1.2;
    if (setter->list)
        page_draw_line(setter->list, (struct page_point){setter->left_mm, setter->y_mm},
                       (struct page_point){setter->left_mm + setter->width_mm, setter->y_mm},
                       &title_rule);
    setter->y_mm += 0.6;
}

static void set_item(struct setter *setter, const char *text)
{
    set_need(setter, item.line_mm);
    /* The middle dot of a list, left of its first line. */
    set_text(setter, setter->left_mm + 1, setter->y_mm, PAGE_LEFT, &item, "\xC2\xB7");
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

bool block_is_beside(const struct setter *setter, const struct sheet_block *block)
{
    return block->kind == SHEET_DRAWING && block->drawing == SHEET_CENTS_CURVE &&
           block > setter->sheet->blocks && block[-1].kind == SHEET_TABLE &&
           setter->width_mm - setter->table_width_mm - beside_gap_mm >= beside_least_mm;
}

static void set_beside(struct setter *setter, const struct sheet_block *block)
{
    const double indent_mm = setter->table_width_mm + beside_gap_mm;
    struct sheet_area area = {.corner = {setter->left_mm + indent_mm, 0},
                              .width_mm = setter->width_mm - indent_mm};
    const double bottom_mm = setter->y_mm;
    char memory[256];
    struct strbuf caption = STRBUF(memory);

    area.height_mm = sheet_draw_height_mm(setter->sheet, block->drawing, area.width_mm);
    say_caption(block, setter->sheet, &area, &caption);
    setter->y_mm = setter->table_top_mm;
    set_paragraph(setter, &set_small, indent_mm, memory);
    area.corner.y_mm = setter->y_mm + 0.5;
    draw(setter, block->drawing, &area);
    setter->y_mm = fmax(bottom_mm, area.corner.y_mm + area.height_mm);
}

static void set_drawing(struct setter *setter, const struct sheet_block *block)
{
    if (block_is_beside(setter, block)) {
        set_beside(setter, block);
        return;
    }

    struct sheet_area area = {.corner = {setter->left_mm, 0}, .width_mm = setter->width_mm};
    char memory[256];
    struct strbuf caption = STRBUF(memory);

    area.height_mm = sheet_draw_height_mm(setter->sheet, block->drawing, area.width_mm);
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

void block_set(struct setter *setter, const struct sheet_block *block)
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

double block_height_mm(const struct setter *setter, const struct sheet_block *block)
{
    const struct sheet *sheet = setter->sheet;
    struct setter measure = *setter;

    measure.list = NULL;
    block_set(&measure, block);
    if (block + 1 < sheet->blocks + sheet->count && block_is_beside(&measure, block + 1))
        block_set(&measure, block + 1);
    return measure.y_mm - setter->y_mm;
}
