/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "model/note_name.h"
#include "sheet/sheet_parts.h"
#include "sheet/sheet_say.h"

/* What the drawings are made from. */

static void find_line(const struct derived *derived, int string, struct sheet_point ret_line[2])
{
    const struct board *board = &derived->setup.board;
    const struct string_line *line = &derived->lines.now[string];
    const double last_mm = board->station_mm[string][board->frets];

    ret_line[0] = (struct sheet_point){.x_mm = 0, .y_mm = line->nut_mm};
    ret_line[1] = (struct sheet_point){
        .x_mm = last_mm, .y_mm = string_line_height_mm(line, board->contact_mm[string], last_mm)};
}

static void find_crowns(const struct derived *derived, int string, struct sheet_side_view *view)
{
    const struct board *board = &derived->setup.board;

    for (int n = 0; n <= board->frets; n++)
        view->crown[n] = (struct sheet_point){
            .x_mm = board->station_mm[string][n],
            .y_mm = neck_curve_height_mm(&derived->lines.curve_now, board, string, n)};
}

static bool has_line(const struct derived *derived, int string)
{
    return derived->setup.has_board && derived->setup.board.frets > 0 && derived->lines.has_now &&
           string >= 1 && string <= derived->setup.board.strings &&
           derived->lines.now[string].known;
}

static void add_side_view(const struct sheet_maker *maker, int string)
{
    char memory[64];
    struct strbuf text = STRBUF(memory);

    strbuf_add(&text, "Side view under string ");
    note_name_add_string(&text, maker->record, string);
    sheet_add_drawing(maker->sheet, SHEET_SIDE_VIEW, memory,
                      maker->sheet->side.has_found ? "string as left, dashed as found" : NULL);
}

void sheet_make_side_view(struct sheet_maker *maker)
{
    struct sheet_side_view *view = &maker->sheet->side;
    const int string = maker->left.setup.board.strings;

    if (!has_line(&maker->left, string))
        return;
    view->known = true;
    view->frets = maker->left.setup.board.frets;
    view->join_fret = maker->left.setup.board.join_fret;
    find_crowns(&maker->left, string, view);
    find_line(&maker->left, string, view->left);
    view->has_found = sheet_has_both(maker) && has_line(&maker->found, string);
    if (view->has_found)
        find_line(&maker->found, string, view->found);
    add_side_view(maker, string);
}

static bool find_predicted(const struct derived *derived, int string,
                           struct sheet_cents_string *outer)
{
    const struct fret_pitch *pitch = &derived->pitch[string];
    bool any = false;

    outer->string = string;
    for (int n = 1; n <= derived->setup.board.frets; n++) {
        outer->predicted[n] = pitch->known[n];
        outer->cents[n] = pitch->cents[n];
        any = any || pitch->known[n];
    }
    return any;
}

static void find_readings(const struct sheet_maker *maker, int pass,
                          struct sheet_cents_curve *curve)
{
    const struct board *board = &maker->left.setup.board;

    for (int s = 1; s <= board->strings; s++) {
        const struct cents_read read =
            derive_read_cents(maker->record, board, maker->visit, pass, s);

        for (int i = 0; i < read.count; i++)
            curve->readings[curve->count++] = (struct sheet_cents_reading){
                .string = s, .fret = read.at[i].fret, .cents = read.at[i].cents};
    }
}

static void say_outer(const struct sheet_cents_curve *curve, struct strbuf *out)
{
    strbuf_add(out, "o as read");
    if (curve->outer[0].string > 0)
        strbuf_addf(out, "; worked out: solid string %d", curve->outer[0].string);
    if (curve->outer[1].string > 0)
        strbuf_addf(out, ", dashed string %d", curve->outer[1].string);
}

void sheet_make_cents_curve(struct sheet_maker *maker)
{
    struct sheet_cents_curve *curve = &maker->sheet->cents;
    const struct board *board = &maker->left.setup.board;
    char memory[96];
    struct strbuf key = STRBUF(memory);

    find_readings(maker, maker->last, curve);
    if (curve->count == 0 || board->frets < 1)
        return;
    curve->known = true;
    curve->frets = board->frets;
    curve->tolerance_cents = record_or_fallback(maker->record, FIELD_CENTS_TOLERANCE);
    if (!find_predicted(&maker->left, board->strings, &curve->outer[0]))
        curve->outer[0].string = 0;
    if (curve->outer[0].string == 0 || board->strings < 2 ||
        !find_predicted(&maker->left, 1, &curve->outer[1]))
        curve->outer[1].string = 0;
    say_outer(curve, &key);
    sheet_add_drawing(maker->sheet, SHEET_CENTS_CURVE, "Cents along the board", memory);
}

static bool find_marks(const struct sheet_maker *maker, int string, struct sheet_headroom_map *map)
{
    struct strbuf label = STRBUF(map->label[string]);
    bool any = false;

    note_name_add_string(&label, maker->record, string);
    for (int n = 0; n < map->notes; n++) {
        const enum headroom headroom = maker->frets.headroom[string][n];

        map->mark[string][n] = frets_mark(headroom);
        any = any || headroom != HEADROOM_UNKNOWN;
    }
    return any;
}

static const char *touch_word(const struct sheet_maker *maker)
{
    static const char *const words[] = {"soft", "medium", "hard"};
    const int touch = record_choice_or(maker->record, reading_key_one(FIELD_TOUCH), 1);

    return words[touch < 0 || touch > 2 ? 1 : touch];
}

void sheet_make_headroom(struct sheet_maker *maker)
{
    struct sheet_headroom_map *map = &maker->sheet->headroom;
    char memory[96];
    struct strbuf text = STRBUF(memory);

    if (maker->last == 0 || maker->frets.strings == 0)
        return;
    map->strings = maker->frets.strings;
    map->notes = maker->frets.frets;
    for (int s = 1; s <= map->strings; s++)
        map->known = find_marks(maker, s, map) || map->known;
    if (!map->known)
        return;
    sheet_add_heading(maker->sheet, "Room for the strings to swing");
    strbuf_addf(&text, "Each note at a %s touch", touch_word(maker));
    sheet_add_drawing(maker->sheet, SHEET_HEADROOM_MAP, memory,
                      ". plenty   o tight: buzzes played harder   # would buzz");
}
