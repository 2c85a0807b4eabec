/* SPDX-License-Identifier: MIT */
#include "sheet/sheet_flow.h"

#include <math.h>

#include "sheet/sheet_block.h"

static const double before_heading_mm = 4.4, after_heading_mm = 0.8, between_items_mm = 0.6;
static const double column_gap_mm = 10;

/* Columns have to be lower than one below the other by this much, or they are not worth it. */
static const double least_won_mm = 4;

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
    return kind == SHEET_ITEM && before == SHEET_ITEM ? between_items_mm : FLOW_PART_MM;
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
    double height_mm = block_height_mm(setter, &sheet->blocks[at]);

    for (; keeps_next(sheet, at); at++)
        height_mm += space_mm(setter, at + 1) + block_height_mm(setter, &sheet->blocks[at + 1]);
    return height_mm;
}

/* From one block up to another, the first with `first_mm` above it. */
static void set_blocks(struct setter *setter, size_t from, size_t to, double first_mm)
{
    const struct sheet *sheet = setter->sheet;
    const double page_mm = setter->size.height_mm - SET_TOP_MM - SET_BOTTOM_MM;

    for (size_t i = from; i < to; i++) {
        const bool beside = block_is_beside(setter, &sheet->blocks[i]);
        const double need_mm = beside ? 0 : kept_height_mm(setter, i);

        setter->y_mm += beside ? 0 : i == from ? first_mm : space_mm(setter, i);
        if (need_mm < page_mm)
            set_need(setter, need_mm);
        block_set(setter, &sheet->blocks[i]);
    }
}

/* --- columns --- */

static double half_mm(const struct setter *setter)
{
    return (setter->width_mm - column_gap_mm) / 2;
}

/* Where the section ends that begins at a heading. */
static size_t section_end(const struct sheet *sheet, size_t from)
{
    size_t to = from + 1;

    while (to < sheet->count && sheet->blocks[to].kind != SHEET_HEADING)
        to++;
    return to;
}

/* Whether half the width is enough for a block. */
static bool is_narrow(const struct setter *setter, const struct sheet_block *block)
{
    switch (block->kind) {
    case SHEET_HEADING:
    case SHEET_PARAGRAPH:
    case SHEET_ITEM:
    case SHEET_SMALL:
        return true;
    case SHEET_TABLE:
        return !block->table->pairs && set_table_fits(setter, block->table, half_mm(setter));
    case SHEET_DRAWING:
        return block->drawing == SHEET_CENTS_CURVE;
    case SHEET_TITLE:
    case SHEET_CUT:
        break;
    }
    return false;
}

static bool is_section_narrow(const struct setter *setter, size_t from)
{
    const struct sheet *sheet = setter->sheet;
    bool narrow = sheet->blocks[from].kind == SHEET_HEADING;

    for (size_t i = from; narrow && i < section_end(sheet, from); i++)
        narrow = is_narrow(setter, &sheet->blocks[i]);
    return narrow;
}

/* Where the narrow sections end that begin here; `from` itself if there are none. */
static size_t run_end(const struct setter *setter, size_t from)
{
    size_t to = from;

    while (to < setter->sheet->count && is_section_narrow(setter, to))
        to = section_end(setter->sheet, to);
    return to;
}

/* How high they stand in a column of that width. */
static double height_mm(const struct setter *setter, double width_mm, size_t from, size_t to)
{
    struct setter measure = *setter;

    measure.list = NULL;
    measure.width_mm = width_mm;
    set_blocks(&measure, from, to, 0);
    return measure.y_mm - setter->y_mm;
}

/* Where the right column begins, so that the higher of the two is as low as it can be; `to` where
 * columns are not lower than one section below the other. */
static size_t find_split(const struct setter *setter, size_t from, size_t to)
{
    const double width_mm = half_mm(setter);
    double least_mm = height_mm(setter, setter->width_mm, from, to) - least_won_mm;
    size_t split = to;

    for (size_t at = section_end(setter->sheet, from); at < to;
         at = section_end(setter->sheet, at)) {
        const double mm =
            fmax(height_mm(setter, width_mm, from, at), height_mm(setter, width_mm, at, to));

        if (mm < least_mm) {
            least_mm = mm;
            split = at;
        }
    }
    return split;
}

static void set_columns(struct setter *setter, size_t from, size_t split, size_t to)
{
    const double left_mm = setter->left_mm, width_mm = setter->width_mm;
    const double top_mm = setter->y_mm + space_mm(setter, from);

    setter->width_mm = half_mm(setter);
    setter->y_mm = top_mm;
    set_blocks(setter, from, split, 0);
    const double bottom_mm = setter->y_mm;
    setter->left_mm += setter->width_mm + column_gap_mm;
    setter->y_mm = top_mm;
    set_blocks(setter, split, to, 0);
    setter->y_mm = fmax(setter->y_mm, bottom_mm);
    setter->left_mm = left_mm;
    setter->width_mm = width_mm;
}

void flow_set(struct setter *setter)
{
    const struct sheet *sheet = setter->sheet;

    set_begin_page(setter);
    for (size_t from = 0, to; from < sheet->count; from = to) {
        to = setter->columns ? run_end(setter, from) : from;
        const size_t split = to > from ? find_split(setter, from, to) : to;

        if (split < to) {
            set_columns(setter, from, split, to);
        } else {
            to = to > from ? to : section_end(sheet, from);
            set_blocks(setter, from, to, space_mm(setter, from));
        }
    }
}
