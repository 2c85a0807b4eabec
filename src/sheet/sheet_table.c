/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "page/page_write.h"
#include "sheet/sheet_set.h"

/* Tables on paper: columns as wide as they need, with text wrapped if that is too wide. */

enum { LINE_BYTES = 512 };

static const double gap_least_mm = 4, gap_most_mm = 8, column_least_mm = 20;
static const struct page_stroke rule = {0.15, PAGE_LINE_SOLID, 0.6};

struct grid {
    const struct sheet_table *table;
    double width_mm[SHEET_COLUMNS_MAX];
    double least_mm[SHEET_COLUMNS_MAX]; /* how far a column may shrink */
    double gap_mm;
};

static const char *text_of(const struct sheet_table *table, int row, int column)
{
    const char *text = sheet_cell(table, row, column)->text;

    return text ? text : "";
}

static const struct set_style *style_of(const struct sheet_table *table, int row)
{
    return table->row[row] == SHEET_ROW_HEAD ? &set_head : &set_cell;
}

static double span_mm(const struct grid *grid, int column, int span)
{
    double width_mm = 0;

    for (int i = 0; i < span; i++)
        width_mm += grid->width_mm[column + i] + (i > 0 ? grid->gap_mm : 0);
    return width_mm;
}

static double all_mm(const struct grid *grid)
{
    return span_mm(grid, 0, grid->table->columns);
}

static int widest(const struct grid *grid)
{
    int best = -1;

    for (int i = 0; i < grid->table->columns; i++)
        if (grid->width_mm[i] > grid->least_mm[i] &&
            (best < 0 || grid->width_mm[i] > grid->width_mm[best]))
            best = i;
    return best;
}

static void widen_for_spans(const struct setter *setter, struct grid *grid)
{
    const struct sheet_table *table = grid->table;

    for (int row = 0; row < table->rows; row++)
        for (int i = 0; i < table->columns; i++) {
            const int span = sheet_cell(table, row, i)->span;

            if (span < 2)
                continue;
            const double need_mm = page_ruler_width_mm(setter->ruler, &style_of(table, row)->font,
                                                       text_of(table, row, i));
            const double lack_mm = need_mm - span_mm(grid, i, span);
            if (lack_mm > 0)
                for (int k = 0; k < span; k++)
                    grid->width_mm[i + k] += lack_mm / span;
        }
}

/* The widest word of a heading, which is broken at its blanks. */
static double word_mm(const struct setter *setter, const char *text)
{
    double widest_mm = 0;

    while (*text) {
        const size_t length = strcspn(text, " ");
        char memory[64];
        struct strbuf word = STRBUF(memory);

        strbuf_add_bytes(&word, text, length);
        widest_mm = fmax(widest_mm, page_ruler_width_mm(setter->ruler, &set_head.font, memory));
        text += length + (text[length] == ' ');
    }
    return widest_mm;
}

static void measure_cell(const struct setter *setter, struct grid *grid, int row, int column)
{
    const struct sheet_table *table = grid->table;
    const char *text = text_of(table, row, column);
    const double width_mm = page_ruler_width_mm(setter->ruler, &style_of(table, row)->font, text);
    const bool breaks = table->row[row] == SHEET_ROW_HEAD;
    const double least_mm = breaks ? word_mm(setter, text) : width_mm;

    grid->width_mm[column] = fmax(grid->width_mm[column], width_mm);
    grid->least_mm[column] = fmax(grid->least_mm[column], least_mm);
}

/* As wide as each column needs to be, with the least gap between them. Where there is no room for
 * that, words are broken over lines, and so are headings over numbers. */
static void measure_widths(const struct setter *setter, struct grid *grid)
{
    const struct sheet_table *table = grid->table;

    for (int row = 0; row < table->rows; row++)
        for (int i = 0; i < table->columns; i++)
            if (sheet_cell(table, row, i)->span <= 1)
                measure_cell(setter, grid, row, i);
    for (int i = 0; i < table->columns; i++)
        if (table->align[i] == SHEET_LEFT)
            grid->least_mm[i] = fmin(grid->least_mm[i], column_least_mm);
    grid->gap_mm = gap_least_mm;
    widen_for_spans(setter, grid);
}

static void shrink_to(struct grid *grid, double room_mm)
{
    for (int i; all_mm(grid) > room_mm && (i = widest(grid)) >= 0;)
        grid->width_mm[i] -= 1;
}

static void find_widths(const struct setter *setter, struct grid *grid, double room_mm)
{
    const int gaps = grid->table->columns - 1;

    measure_widths(setter, grid);
    shrink_to(grid, room_mm);
    if (gaps > 0)
        grid->gap_mm += fmax(0, fmin((room_mm - all_mm(grid)) / gaps, gap_most_mm - gap_least_mm));
}

bool set_table_fits(const struct setter *setter, const struct sheet_table *table, double width_mm)
{
    const double pinched = 1.35; /* times the width, and many words are broken over lines */
    struct grid grid = {.table = table};

    measure_widths(setter, &grid);
    if (all_mm(&grid) > pinched * width_mm)
        return false;
    shrink_to(&grid, width_mm);
    return all_mm(&grid) <= width_mm;
}

static double aligned_x_mm(double x_mm, double width_mm, enum page_align align)
{
    return align == PAGE_RIGHT    ? x_mm + width_mm
           : align == PAGE_CENTRE ? x_mm + width_mm / 2
                                  : x_mm;
}

static enum page_align align_of(const struct grid *grid, int row, int column)
{
    static const enum page_align aligns[] = {
        [SHEET_LEFT] = PAGE_LEFT, [SHEET_RIGHT] = PAGE_RIGHT, [SHEET_CENTRE] = PAGE_CENTRE};

    if (sheet_cell(grid->table, row, column)->span > 1)
        return PAGE_CENTRE;
    return aligns[grid->table->align[column]];
}

/* Sets one cell, its lines below each other; returns their number. */
static int set_cell_lines(struct setter *setter, const struct grid *grid, int row, int column,
                          double x_mm)
{
    const struct set_style *style = style_of(grid->table, row);
    const int span = sheet_cell(grid->table, row, column)->span;
    const double width_mm = span_mm(grid, column, span > 1 ? span : 1);
    const enum page_align align = align_of(grid, row, column);
    const char *at = text_of(grid->table, row, column);
    char memory[LINE_BYTES];
    struct strbuf line = STRBUF(memory);
    int lines = 0;

    /* A text that was measured to fit must not be broken by rounding. */
    while (set_next_line(setter->ruler, &style->font, &at, width_mm + 0.1, &line)) {
        set_text(setter, aligned_x_mm(x_mm, width_mm, align), setter->y_mm + lines * style->line_mm,
                 align, style, memory);
        lines++;
    }
    return lines;
}

static int set_row_lines(struct setter *setter, const struct grid *grid, int row)
{
    double x_mm = setter->left_mm;
    int most = 1;

    for (int i = 0; i < grid->table->columns; i++) {
        const int lines = set_cell_lines(setter, grid, row, i, x_mm);

        most = lines > most ? lines : most;
        x_mm += grid->width_mm[i] + grid->gap_mm;
    }
    return most;
}

static void set_rule(struct setter *setter, const struct grid *grid)
{
    if (setter->list)
        page_draw_line(setter->list, (struct page_point){setter->left_mm, setter->y_mm},
                       (struct page_point){setter->left_mm + all_mm(grid), setter->y_mm}, &rule);
}

static void set_row(struct setter *setter, const struct grid *grid, int row)
{
    const struct sheet_table *table = grid->table;
    struct setter measure = *setter;

    measure.list = NULL;
    const double height_mm = style_of(table, row)->line_mm * set_row_lines(&measure, grid, row);
    set_need(setter, height_mm);
    if (table->row[row] == SHEET_ROW_LAST) {
        setter->y_mm += 0.5;
        set_rule(setter, grid);
        setter->y_mm += 0.3;
    }
    set_row_lines(setter, grid, row);
    setter->y_mm += height_mm;
    if (table->row[row] == SHEET_ROW_HEAD &&
        (row + 1 == table->rows || table->row[row + 1] != SHEET_ROW_HEAD)) {
        setter->y_mm += 0.3;
        set_rule(setter, grid);
        setter->y_mm += 0.6;
    }
}

void set_table(struct setter *setter, const struct sheet_table *table)
{
    struct grid grid = {.table = table};

    find_widths(setter, &grid, setter->width_mm);
    setter->table_top_mm = setter->y_mm;
    setter->table_width_mm = all_mm(&grid);
    for (int row = 0; row < table->rows; row++)
        set_row(setter, &grid, row);
}

/* Sets names and values in two columns of the page, one after the other. */
void set_pairs(struct setter *setter, const struct sheet_table *table)
{
    const int rows = (table->rows + 1) / 2;
    const double half_mm = setter->width_mm / 2, top_mm = setter->y_mm;
    double name_mm = 0, bottom_mm = top_mm;
    char memory[LINE_BYTES];
    struct strbuf line = STRBUF(memory);

    for (int row = 0; row < table->rows; row++) {
        const double width_mm =
            page_ruler_width_mm(setter->ruler, &set_head.font, text_of(table, row, 0));

        name_mm = width_mm > name_mm ? width_mm : name_mm;
    }
    name_mm += gap_least_mm;
    for (int row = 0; row < table->rows; row++) {
        const double x_mm = setter->left_mm + (row < rows ? 0 : half_mm);
        const char *at = text_of(table, row, 1);

        if (row == rows)
            setter->y_mm = top_mm;
        set_text(setter, x_mm, setter->y_mm + (set_cell.line_mm - set_head.line_mm) / 2, PAGE_LEFT,
                 &set_head, text_of(table, row, 0));
        while (set_next_line(setter->ruler, &set_cell.font, &at, half_mm - name_mm - gap_least_mm,
                             &line)) {
            set_text(setter, x_mm + name_mm, setter->y_mm, PAGE_LEFT, &set_cell, memory);
            setter->y_mm += set_cell.line_mm;
        }
        bottom_mm = setter->y_mm > bottom_mm ? setter->y_mm : bottom_mm;
    }
    setter->y_mm = bottom_mm;
}
