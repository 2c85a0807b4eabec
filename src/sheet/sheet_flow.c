/* SPDX-License-Identifier: MIT */
#include "sheet/sheet_flow.h"

#include <math.h>

#include "sheet/sheet_block.h"

static const double before_heading_mm = 4.4, after_heading_mm = 0.8, between_items_mm = 0.6;
static const double column_gap_mm = 10;

enum { SECTIONS_MAX = 10 }; /* beside each other */

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

/* Narrow sections one after the other. */
struct run {
    size_t at[SECTIONS_MAX + 1]; /* where each begins, and where the last one ends */
    int count;
    unsigned right; /* a bit for each section in the right column; 0: no columns */
};

static void find_run(const struct setter *setter, size_t from, struct run *ret_run)
{
    ret_run->count = 0;
    ret_run->right = 0;
    ret_run->at[0] = from;
    while (ret_run->count < SECTIONS_MAX && from < setter->sheet->count &&
           is_section_narrow(setter, from)) {
        from = section_end(setter->sheet, from);
        ret_run->at[++ret_run->count] = from;
    }
}

/* How high a section stands in a column of that width. */
static double height_mm(const struct setter *setter, double width_mm, const struct run *run, int at)
{
    struct setter measure = *setter;

    measure.list = NULL;
    measure.width_mm = width_mm;
    set_blocks(&measure, run->at[at], run->at[at + 1], 0);
    return measure.y_mm - setter->y_mm;
}

/* The height of the higher column; a little more for each section that is read out of its order. */
static double cost_of(const struct setter *setter, const struct run *run,
                      const double heights_mm[SECTIONS_MAX], unsigned right)
{
    const double out_of_order_mm = 3, between_mm = setter->spacing * before_heading_mm;
    double sum_mm[2] = {-between_mm, -between_mm}, cost_mm = 0;

    for (int i = 0; i < run->count; i++) {
        const int side = right >> i & 1;

        sum_mm[side] += heights_mm[i] + between_mm;
        cost_mm += side == 0 && (right & ((1U << i) - 1)) != 0 ? out_of_order_mm : 0;
    }
    return cost_mm + fmax(sum_mm[0], sum_mm[1]);
}

/* Tries every way to divide them; the first one stays at the left. None may be worth it. */
static void divide(const struct setter *setter, struct run *run)
{
    double heights_mm[SECTIONS_MAX], least_mm = -least_won_mm;

    for (int i = 0; i < run->count; i++) {
        least_mm += height_mm(setter, setter->width_mm, run, i) +
                    (i > 0 ? setter->spacing * before_heading_mm : 0);
        heights_mm[i] = height_mm(setter, half_mm(setter), run, i);
    }
    for (unsigned right = 2; run->count > 1 && right < 1U << run->count; right += 2) {
        const double cost_mm = cost_of(setter, run, heights_mm, right);

        if (cost_mm < least_mm) {
            least_mm = cost_mm;
            run->right = right;
        }
    }
}

static void set_columns(struct setter *setter, const struct run *run)
{
    const struct setter whole = *setter;
    const double top_mm = setter->y_mm + space_mm(setter, run->at[0]);
    double bottom_mm[2] = {top_mm, top_mm};

    setter->width_mm = half_mm(&whole);
    for (int i = 0; i < run->count; i++) {
        const int side = run->right >> i & 1;
        const bool first = bottom_mm[side] == top_mm;

        setter->left_mm = whole.left_mm + side * (setter->width_mm + column_gap_mm);
        setter->y_mm = bottom_mm[side];
        set_blocks(setter, run->at[i], run->at[i + 1],
                   first ? 0 : setter->spacing * before_heading_mm);
        bottom_mm[side] = setter->y_mm;
    }
    setter->y_mm = fmax(bottom_mm[0], bottom_mm[1]);
    setter->left_mm = whole.left_mm;
    setter->width_mm = whole.width_mm;
}

void flow_set(struct setter *setter)
{
    const struct sheet *sheet = setter->sheet;
    struct run run = {.count = 0};

    set_begin_page(setter);
    for (size_t from = 0, to; from < sheet->count; from = to) {
        if (setter->columns) {
            find_run(setter, from, &run);
            divide(setter, &run);
        }
        to = run.count > 0 ? run.at[run.count] : section_end(sheet, from);
        if (run.right)
            set_columns(setter, &run);
        else
            set_blocks(setter, from, to, space_mm(setter, from));
    }
}
