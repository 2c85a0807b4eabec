/* SPDX-License-Identifier: MIT */
#include "shelf/shelf_table_view.h"

#include <stdlib.h>
#include <string.h>

#include "base/utf8.h"

enum { INDENT = 1, ABOVE = 4 };

/* The same kind again is not written again. */
static bool is_repeated(const struct shelf_table *table, int row, int top, int column)
{
    return column == 0 && row > top && strcmp(table->cell[row][0], table->cell[row - 1][0]) == 0;
}

static int width_of(const struct shelf_table *table, int column)
{
    int width = utf8_columns(table->head[column]);

    for (int i = 0; i < table->rows; i++) {
        const int cell = utf8_columns(table->cell[i][column]);

        width = cell > width ? cell : width;
    }
    return width;
}

/* Two blanks between the columns, where they fit. */
static int find_gap(const struct pen *pen, const struct shelf_table *table)
{
    int all = INDENT;

    for (int column = 0; column < table->columns; column++)
        all += width_of(table, column) + 2;
    return all <= pen->frame->columns ? 2 : 1;
}

static void draw_table(const struct pen *pen, const struct shelf_table *table, int row, int rows,
                       int top)
{
    const int gap = find_gap(pen, table);
    int at = INDENT;

    for (int column = 0; column < table->columns; column++) {
        const int width = width_of(table, column);

        pen_put(pen, row, at, width, ROLE_LABEL, table->head[column]);
        for (int i = top; i < table->rows && i - top < rows - 1; i++)
            if (!is_repeated(table, i, top, column))
                pen_put(pen, row + 1 + i - top, at, width, column < 2 ? ROLE_TEXT : ROLE_VALUE,
                        table->cell[i][column]);
        at += width + gap;
    }
    if (top + rows - 1 < table->rows)
        pen_put_right(pen, row + rows, 0, pen->frame->columns - 1, ROLE_KEY, "Down: more");
}

static void draw(const struct pen *pen, const struct shelf_list *list,
                 const struct shelf_table *table, int row, int rows)
{
    const int room = rows - ABOVE, most = table->rows - (room - 1);
    const int top = list->help_top < most ? list->help_top : most > 0 ? most : 0;

    pen_put(pen, row, INDENT, pen->frame->columns - INDENT, ROLE_LABEL, table->title);
    pen->frame->cursor_row = row;
    pen->frame->cursor_column = INDENT;
    pen_wrap(pen, row + 1, INDENT, pen->frame->columns - 2 * INDENT, 2, ROLE_DIM, table->note);
    if (table->rows == 0)
        pen_put(pen, row + ABOVE, INDENT, pen->frame->columns - INDENT, ROLE_TEXT,
                "Nothing on file tells yet.");
    else
        draw_table(pen, table, row + ABOVE, room, top);
}

void shelf_table_view_draw(const struct pen *pen, const struct shelf_list *list, int row, int rows)
{
    struct shelf_table *table = calloc(1, sizeof *table);

    if (table && shelf_table_make(list, (enum shelf_table_id)list->table, table))
        draw(pen, list, table, row, rows);
    else
        pen_put(pen, row, INDENT, pen->frame->columns - INDENT, ROLE_CAUTION, "Out of memory.");
    free(table);
}
