/* SPDX-License-Identifier: MIT */
#include "frame_sound.h"

#include "base/utf8.h"
#include "near.h"
#include "ui/ui.h"

static void check_cell(const struct frame *frame, int row, int column, bool utf8)
{
    const struct cell *cell = &frame->cells[row * frame->columns + column];
    const bool wide = cell->rune && utf8_width(cell->rune) == 2;
    const bool half_follows = column + 1 < frame->columns && cell[1].rune == 0;

    if (cell->role >= ROLE_COUNT_ || wide != half_follows ||
        (cell->rune ? utf8_unsafe(cell->rune) : column == 0) ||
        (!utf8 && (cell->rune >= 0x7F || cell->marks[0])))
        fail_msg("%dx%d: U+%04X in row %d, column %d", frame->columns, frame->rows,
                 (unsigned)cell->rune, row, column);
}

void frame_sound_check(const struct app *app, const struct frame *frame, bool utf8)
{
    for (int row = 0; row < frame->rows; row++)
        for (int column = 0; column < frame->columns; column++)
            check_cell(frame, row, column, utf8);
    assert_in_range(frame->cursor_row + 1, 0, frame->rows);
    assert_in_range(frame->cursor_column + 1, 0, frame->columns);
    if (frame->rows >= UI_ROWS_MIN && frame->columns >= UI_COLUMNS_MIN &&
        app->overlay == OVERLAY_NONE)
        assert_true(frame->cursor_row >= 0 && frame->cursor_column >= 0);
}

static bool is_blank(const struct frame *frame, int row)
{
    char text[4 * FRAME_COLUMNS_MAX];

    return frame_row_text(frame, row, text, sizeof text) == 0;
}

void frame_sound_check_leaf(const struct app *app, const struct frame *frame, const char *name)
{
    const int at = frame->cursor_row * frame->columns + frame->cursor_column;

    if (frame->overwritten > 0)
        fail_msg("%s: %d characters over others, the last in row %d", name, frame->overwritten,
                 frame->overwritten_row);
    if (app_cell(app) && app->entry.length == 0 && !app->writing &&
        frame->cells[at].role != ROLE_CELL)
        fail_msg("%s: the cursor is not on the cell in hand but in row %d, column %d", name,
                 frame->cursor_row, frame->cursor_column);
    if (is_blank(frame, frame->rows - 2) || is_blank(frame, frame->rows - 1))
        fail_msg("%s: nothing says what comes next", name);
}
