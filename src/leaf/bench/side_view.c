/* SPDX-License-Identifier: MIT */
#include "leaf/bench/side_view.h"

#include <math.h>

#include "picture/pictures.h"
#include "base/num.h"
#include "model/figure/bench_row.h"
#include "model/reading/note_name.h"
#include "draw/picture_view.h"

enum { LEFT = 1 }; /* the column of the nut */

/* A reading taken once a pass is the gap under the straightedge; any other is under a string. */
static void mark_reading(struct picture *picture, const struct derived *derived,
                         const struct route_cell *cell)
{
    const struct bench_row *row = bench_row_in(&derived->setup.outfit, cell->row);
    const struct board *board = &derived->setup.board;

    picture_side_mark(picture, derived, cell->string,
                      row->move == MOVE_SLOTS ? board_gap_fret(board, cell->string)
                                              : bench_row_fret(row, board),
                      !bench_row_by_string(row));
}

/* Its line has a mark of its own. */
static int draw_after_key(const struct pen *pen, int row, int column)
{
    static const char words[] = "after the moves ";
    const int used = picture_view_key(pen, row, column, words, PICTURE_OTHER, 3);

    frame_put_rune(pen->frame, row, column + (int)sizeof words, ROLE_AFTER, 'x');
    return used;
}

static bool has_highest(const struct picture *picture)
{
    for (int i = 0; i < picture->label_count; i++)
        if (picture->labels[i].role == PICTURE_CROWN)
            return true;
    return false;
}

static void draw_heading(const struct pen *pen, const struct app *app, int string,
                         const struct picture *picture, const struct picture_area *area)
{
    const int row = area->row - 1;
    char memory[64];
    struct strbuf text = STRBUF(memory);
    const struct outfit *outfit = &app->now.setup.outfit;

    strbuf_addf(&text, "%s ", outfit_noun(outfit, string));
    note_name_add_read(&text, &app->record, outfit, string);
    strbuf_add(&text, "  heights \xC3\x97");
    num_format_fixed(round(picture_view_times(picture, area)), 0, false, &text);
    int column = LEFT + pen_put(pen, row, LEFT, 40, ROLE_LABEL, memory) + 3;

    if (picture_has(picture, PICTURE_MAIN))
        column += picture_view_key(pen, row, column, "now ", PICTURE_MAIN, 3);
    if (picture_has(picture, PICTURE_OTHER))
        column += draw_after_key(pen, row, column);
    column += picture_view_key(pen, row, column, outfit->fretless ? "board " : "crowns ",
                               PICTURE_CROWN, 3);
    if (has_highest(picture))
        pen_put(pen, row, column, 6, ROLE_FRET, "A high");
}

static const char *nothing_to_draw(const struct derived *derived)
{
    if (derived->setup.outfit.lap)
        return "Played with a bar: there is no neck curve to draw.";
    if (!derived->setup.has_board || !derived->setup.board.has_curve)
        return "No picture yet: scale, strings, frets and join fret, on Intake, make it.";
    return "No picture yet: relief makes the neck, a nut gap and an action its string.";
}

/* Where nothing is to be done, the string stays where it is. */
static const struct string_line *find_after(const struct derived *derived, int string)
{
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        if (derived->moves.move[kind].state == MOVE_DUE ||
            derived->moves.move[kind].state == MOVE_WAITS)
            return &derived->lines.after[string];
    return NULL;
}

void side_view_draw(const struct pen *pen, const struct app *app, int row, int rows)
{
    const struct derived *derived = app_shown(app);
    const struct route_cell *cell = app_cell(app);
    const int string = app_string(app);
    const struct picture_area area = {.row = row + 1,
                                      .rows = rows - 2,
                                      .column = LEFT,
                                      .columns = pen->frame->columns - 2 * LEFT};
    struct picture picture;

    if (!picture_side(&picture, derived, string, find_after(derived, string))) {
        pen_put(pen, row + rows / 2, 2, pen->frame->columns - 2, ROLE_DIM,
                nothing_to_draw(derived));
        return;
    }
    picture_side_name(&picture, derived, string, "now", "after");
    if (cell)
        mark_reading(&picture, derived, cell);
    draw_heading(pen, app, string, &picture, &area);
    picture_view_draw(pen, &picture, &area);
    picture_view_ticks(pen, &picture, &area,
                       LEFT + pen_put(pen, row + rows - 1, 0, 4, ROLE_DIM, "nut") + 1);
}
