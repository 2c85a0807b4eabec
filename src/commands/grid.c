/* SPDX-License-Identifier: MIT */
#include "commands/grid.h"

#include <stdio.h>

#include "base/utf8.h"
#include "commands/csv.h"

/* A longer text is printed whole, but does not widen its column. */
enum { WIDTH_MAX = 32 };

static void add_text(const struct grid *grid, size_t row, int column, struct strbuf *out)
{
    char memory[GRID_TEXT_MAX];
    struct strbuf text = STRBUF(memory);

    grid->add(grid->of, row, column, &text);
    csv_add_safe(memory, out);
}

static void print_csv(const struct grid *grid)
{
    struct csv csv = {.out = stdout};

    for (int column = 0; column < grid->columns; column++)
        csv_text(&csv, grid->heading(grid->of, column));
    csv_end_record(&csv);
    for (size_t row = 0; row < grid->rows; row++) {
        for (int column = 0; column < grid->columns; column++) {
            char memory[GRID_TEXT_MAX];
            struct strbuf text = STRBUF(memory);

            grid->add(grid->of, row, column, &text);
            csv_text(&csv, memory);
        }
        csv_end_record(&csv);
    }
}

/* Measures the columns; 0 for an empty one. */
static void measure(const struct grid *grid, int widths[GRID_COLUMNS_MAX])
{
    for (int column = 0; column < grid->columns; column++) {
        widths[column] = 0;
        for (size_t row = 0; row < grid->rows; row++) {
            char memory[GRID_TEXT_MAX];
            struct strbuf text = STRBUF(memory);

            add_text(grid, row, column, &text);
            const int width = utf8_columns(memory);
            if (width > widths[column])
                widths[column] = width < WIDTH_MAX ? width : WIDTH_MAX;
        }
        const int heading = utf8_columns(grid->heading(grid->of, column));
        if (widths[column] > 0 && widths[column] < heading)
            widths[column] = heading;
    }
}

/* Prints no blanks after the last text of a line: `*gap` counts those not yet printed. */
static void print_cell(const char *text, int width, int *gap)
{
    const int columns = utf8_columns(text);

    if (text[0]) {
        for (; *gap > 0; --*gap)
            putchar(' ');
        fputs(text, stdout);
    }
    *gap += (columns < width ? width - columns : 0) + 2;
}

static void print_aligned(const struct grid *grid)
{
    int widths[GRID_COLUMNS_MAX], gap = 0;

    measure(grid, widths);
    for (int column = 0; column < grid->columns; column++)
        if (widths[column] > 0)
            print_cell(grid->heading(grid->of, column), widths[column], &gap);
    putchar('\n');
    for (size_t row = 0; row < grid->rows; row++) {
        gap = 0;
        for (int column = 0; column < grid->columns; column++) {
            char memory[GRID_TEXT_MAX];
            struct strbuf text = STRBUF(memory);

            add_text(grid, row, column, &text);
            if (widths[column] > 0)
                print_cell(memory, widths[column], &gap);
        }
        putchar('\n');
    }
}

void grid_print(const struct grid *grid, bool csv)
{
    if (csv)
        print_csv(grid);
    else
        print_aligned(grid);
}
