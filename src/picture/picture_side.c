/* SPDX-License-Identifier: MIT */
#include "picture/pictures.h"

/* A flat neck without strings would have no height to draw. */
static const double least_height_mm = 0.5;

static double crown_mm(const struct derived *derived, int string, int fret)
{
    return neck_curve_height_mm(&derived->lines.curve_now, &derived->setup.board, string, fret);
}

static double line_mm(const struct board *board, const struct string_line *line, int string,
                      double x_mm)
{
    return string_line_height_mm(line, board->contact_mm[string], x_mm);
}

/* Along the board from its nut, wherever the string starts. */
static double along_mm(const struct board *board, int string, int fret)
{
    return board->start_mm[string] + board->station_mm[string][fret];
}

static void add_neck(struct picture *picture, const struct derived *derived, int string)
{
    const struct board *board = &derived->setup.board;

    picture_begin_line(picture, PICTURE_CROWN);
    for (int n = 0; n <= board->frets; n++)
        picture_to(picture, along_mm(board, string, n), crown_mm(derived, string, n));
    for (int n = 1; n <= board->frets; n++)
        picture->ticks[picture->tick_count++] =
            (struct picture_tick){.x = along_mm(board, string, n),
                                  .number = n,
                                  .word = n == board->join_fret ? "join" : NULL};
}

static void add_string(struct picture *picture, const struct board *board, int string,
                       const struct string_line *line, enum picture_role role)
{
    const double last_mm = board->station_mm[string][board->frets];

    if (!line || !line->known)
        return;
    picture_segment(picture, role, (struct picture_point){board->start_mm[string], line->nut_mm},
                    (struct picture_point){board->start_mm[string] + last_mm,
                                           line_mm(board, line, string, last_mm)});
}

bool picture_side(struct picture *ret_picture, const struct derived *derived, int string,
                  const struct string_line *other)
{
    const struct board *board = &derived->setup.board;
    const struct string_line *now = &derived->lines.now[string];

    if (!derived->setup.has_board || !derived->lines.has_now || board->frets < 1 || string < 1 ||
        string > board->strings)
        return false;
    picture_begin(ret_picture, (struct picture_point){0, 0}, (struct picture_point){0, 0});
    add_neck(ret_picture, derived, string);
    if (now->known)
        picture_segment(ret_picture, PICTURE_NUT,
                        (struct picture_point){0, crown_mm(derived, string, 0)},
                        (struct picture_point){0, now->nut_mm});
    add_string(ret_picture, board, string, other, PICTURE_OTHER);
    add_string(ret_picture, board, string, now, PICTURE_MAIN);
    if (ret_picture->high.y - ret_picture->low.y < least_height_mm)
        ret_picture->high.y = ret_picture->low.y + least_height_mm;
    return true;
}

void picture_side_mark(struct picture *picture, const struct derived *derived, int string, int fret,
                       bool to_chord)
{
    const struct board *board = &derived->setup.board;
    const struct string_line *line = &derived->lines.now[string];

    if (fret < 1 || fret > board->frets)
        return;
    const double x_mm = along_mm(board, string, fret), own_mm = board->station_mm[string][fret];

    picture->ticks[fret - 1].in_hand = true;
    picture_segment(picture, PICTURE_MARK,
                    (struct picture_point){
                        x_mm, line->known && !to_chord ? line_mm(board, line, string, own_mm) : 0},
                    (struct picture_point){x_mm, crown_mm(derived, string, fret)});
}
