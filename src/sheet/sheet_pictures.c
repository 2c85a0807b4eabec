/* SPDX-License-Identifier: MIT */
#include "picture/pictures.h"
#include "model/reading/note_name.h"
#include "sheet/sheet_parts.h"
#include "sheet/sheet_say.h"

/* The drawings, their captions and their data. */

void sheet_make_side_view(struct sheet_maker *maker)
{
    struct picture *picture = &maker->sheet->picture[SHEET_SIDE_VIEW];
    const struct outfit *outfit = &maker->left.setup.outfit;
    const int string = outfit->read_as[outfit->strings];
    char memory[64];
    struct strbuf text = STRBUF(memory);

    if (!picture_side(picture, &maker->left, string,
                      sheet_has_both(maker) ? &maker->found.lines.now[string] : NULL) ||
        !picture_has(picture, PICTURE_MAIN))
        return;
    picture_side_name(picture, &maker->left, string, sheet_has_both(maker) ? "as left" : "as found",
                      "as found");
    strbuf_addf(&text, "Side view under %s ", outfit_noun(outfit, string));
    note_name_add_read(&text, maker->record, outfit, string);
    sheet_add_drawing(
        maker->sheet, SHEET_SIDE_VIEW, memory,
        picture_has(picture, PICTURE_OTHER) ? "string as left; dashed, with x, as found" : NULL);
}

/* Without its setback entered, where the saddle stands would be a guess, and so the curve. */
static bool add_predicted(struct sheet_maker *maker, int string, enum picture_role role)
{
    const struct fret_pitch *pitch = &maker->left.pitch[string];

    return maker->left.setup.setback[string].mm.given &&
           picture_cents_curve(&maker->sheet->picture[SHEET_CENTS_CURVE], role, pitch->cents);
}

/* Whether the curves rest on where the saddle should stand, not on where it was read. */
static bool is_expected(const struct sheet_maker *maker)
{
    const struct setup *setup = &maker->left.setup;

    return setup->setback[setup->board.strings].is_expected || setup->setback[1].is_expected;
}

void sheet_make_cents_curve(struct sheet_maker *maker)
{
    struct picture *picture = &maker->sheet->picture[SHEET_CENTS_CURVE];
    const struct board *board = &maker->left.setup.board;
    char memory[160];
    struct strbuf key = STRBUF(memory);

    picture_cents_begin(picture, board->frets,
                        record_or_fallback(maker->record, FIELD_CENTS_TOLERANCE));
    for (int s = 1; s <= board->strings; s++) {
        const struct cents_read read =
            derive_read_cents(place_of(maker->record, maker->visit, maker->last), board, s);

        picture_cents_read(picture, s, &read, 0);
    }
    if (picture->spot_count == 0)
        return;
    strbuf_add(&key, "o as read");
    if (add_predicted(maker, board->strings, PICTURE_MAIN)) {
        strbuf_addf(&key, "; worked out: solid string %d", board->strings);
        if (board->strings > 1 && add_predicted(maker, 1, PICTURE_OTHER))
            strbuf_add(&key, ", dashed string 1");
        if (is_expected(maker))
            strbuf_add(&key, "; not measured since the saddle was moved");
    }
    picture_cents_end(picture, 0);
    sheet_add_drawing(maker->sheet, SHEET_CENTS_CURVE, "Cents along the board", memory);
}

/* Only where the ear has said how hard it is played: else the marks would be a guess. */
void sheet_make_headroom(struct sheet_maker *maker)
{
    const struct frets_plan *plan = &maker->sheet->frets;

    if (maker->last == 0 || !plan->touch.by_ear)
        return;
    for (int s = 1; s <= plan->strings; s++) {
        struct strbuf label = STRBUF(maker->sheet->label[s]);

        note_name_add_string(&label, maker->record, s);
    }
    sheet_add_heading(maker->sheet, "Room for the strings to swing");
    sheet_add_drawing(maker->sheet, SHEET_HEADROOM_MAP, "Each note as hard as it was played here",
                      ". plenty   o tight: buzzes played harder   # would buzz");
}
