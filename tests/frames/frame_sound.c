/* SPDX-License-Identifier: MIT */
#include "frame_sound.h"

#include "near.h"
#include "sound.h"
#include "screen/ui.h"

void frame_sound_check(const struct app *app, const struct frame *frame, bool utf8)
{
    const char *fault = sound_frame(frame, utf8);

    if (fault)
        fail_msg("%dx%d: %s", frame->columns, frame->rows, fault);
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
