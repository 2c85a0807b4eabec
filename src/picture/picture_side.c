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

/* 0 for none that stands out. */
static int highest_crown(const struct derived *derived, int string)
{
    const struct setup *setup = &derived->setup;
    int rocked = 0, hump = 0;

    for (int n = 1; n <= setup->board.frets; n++) {
        if (setup->spot_mm[n].given &&
            setup->spot_mm[n].value > (rocked ? setup->spot_mm[rocked].value : 0))
            rocked = n;
        if (n < setup->board.end_high &&
            crown_mm(derived, string, n) >
                (hump ? crown_mm(derived, string, hump) : setup->feeler_step_mm / 2))
            hump = n;
    }
    return rocked ? rocked : hump;
}

static void name_crown(struct picture *picture, const struct derived *derived, int string)
{
    const int fret = highest_crown(derived, string);

    if (fret == 0)
        return;
    picture_add_label(picture,
                      &(struct picture_label){.at = {along_mm(&derived->setup.board, string, fret),
                                                     crown_mm(derived, string, fret)},
                                              .role = PICTURE_CROWN,
                                              .word = "A"});
    picture->ticks[fret - 1].word = "high";
}

/* A word at its end, and a mark between each two of its parts. */
static void name_line(struct picture *picture, enum picture_role role, const char *word, int parts)
{
    for (int i = 0; i < picture->line_count; i++) {
        const struct picture_line *line = &picture->lines[i];
        const struct picture_point *from = &picture->points[line->first], *to = from + 1;

        if (line->role != role || line->count != 2)
            continue;
        for (int part = 1; part < parts; part++) {
            const double share = (double)part / parts;

            picture_add_label(picture,
                              &(struct picture_label){.at = {from->x + share * (to->x - from->x),
                                                             from->y + share * (to->y - from->y)},
                                                      .role = role,
                                                      .word = "x"});
        }
        picture_add_label(picture, &(struct picture_label){.at = *to, .role = role, .word = word});
    }
}

void picture_side_name(struct picture *picture, const struct derived *derived, int string,
                       const char *now, const char *other)
{
    enum { PARTS = 6 };

    name_line(picture, PICTURE_OTHER, other, PARTS);
    name_line(picture, PICTURE_MAIN, now, 1);
    name_crown(picture, derived, string);
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
