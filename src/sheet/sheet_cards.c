/* SPDX-License-Identifier: MIT */
#include "sheet/sheet_cards.h"

#include <math.h>

#include "model/reading/note_name.h"
#include "sheet/sheet_parts.h"
#include "sheet/sheet_say.h"
#include "words/amount.h"

enum { TEXT_MAX = 96 };

/* A slot is filed this much wider than its string at most, so that the string neither binds nor
 * rattles (common practice, no published source). */
static const double slot_wider_mm = 0.08;

/* A rocker's edge clears the crown behind it by this much, and reaches as far over the outer two.
 */
static const double rocker_spare_mm = 1.0; /* common practice, no published source */

static const char to_fill_in[] = "........";

static enum unit unit_of(const struct sheet_maker *maker, enum field_measure measure)
{
    return maker->ask->units.bare[measure];
}

static void add_length(struct sheet_maker *maker, struct maybe mm, enum field_measure measure)
{
    char memory[TEXT_MAX];
    struct strbuf text = STRBUF(memory);

    if (mm.given)
        amount_add_even(&text, mm.value, unit_of(maker, measure));
    sheet_add_cell(maker->sheet, memory);
}

/* --- nut slots --- */

static void add_head_cell(struct sheet_maker *maker, const char *name, enum field_measure measure)
{
    char memory[TEXT_MAX];
    struct strbuf text = STRBUF(memory);

    strbuf_addf(&text, "%s, %s", name, amount_unit(unit_of(maker, measure)));
    sheet_add_cell(maker->sheet, memory);
}

static void add_slot_head(struct sheet_maker *maker)
{
    sheet_begin_table(maker->sheet, "lrrrrrl");
    sheet_begin_row(maker->sheet, SHEET_ROW_HEAD);
    sheet_add_cell(maker->sheet, "string");
    add_head_cell(maker, "gauge", MEASURE_GAUGE);
    sheet_add_cell(maker->sheet, "file up to");
    add_head_cell(maker, "gap now", MEASURE_FEELER);
    sheet_add_cell(maker->sheet, "take off");
    sheet_add_cell(maker->sheet, "then reads");
    sheet_add_cell(maker->sheet, "read");
}

/* How deep to go, to less wood taken off; "raise" where the slot is too low. */
static void say_cut(const struct sheet_maker *maker, const struct move_amount *amount,
                    struct strbuf *out)
{
    if (!amount->due)
        strbuf_add(out, "-");
    else if (amount->value > 0)
        strbuf_add(out, "raise it");
    else
        amount_add(out, fabs(amount_of_work(amount->value, unit_of(maker, MEASURE_FEELER))),
                   unit_of(maker, MEASURE_FEELER), false);
}

static void add_slot(struct sheet_maker *maker, int string)
{
    const struct move *slots = &maker->left.moves.move[MOVE_SLOTS];
    const struct maybe gauge = record_entered_string(maker->record, FIELD_GAUGE, string);
    const struct maybe file =
        gauge.given ? maybe_given(gauge.value + slot_wider_mm) : maybe_absent();
    char memory[TEXT_MAX];
    struct strbuf text = STRBUF(memory);

    sheet_begin_row(maker->sheet, SHEET_ROW_PLAIN);
    note_name_add_string(&text, maker->record, string);
    sheet_add_cell(maker->sheet, memory);
    add_length(maker, gauge, MEASURE_GAUGE);
    add_length(maker, file, MEASURE_GAUGE);
    add_length(maker, figures_get(&maker->left.figures, FIGURE_NUT_GAP, string), MEASURE_FEELER);
    strbuf_clear(&text);
    say_cut(maker, &slots->string[string], &text);
    sheet_add_cell(maker->sheet, memory);
    add_length(maker, slots->gap_then[string], MEASURE_FEELER);
    sheet_add_cell(maker->sheet, to_fill_in);
}

static void add_slots(struct sheet_maker *maker)
{
    const enum move_state state = maker->left.moves.move[MOVE_SLOTS].state;
    const struct outfit *outfit = &maker->left.setup.outfit;

    /* Over a zero fret no slot is filed to a depth, and none under a bar. */
    if (maker->last == 0 || outfit->zero_fret || outfit->lap)
        return;
    sheet_add_heading(maker->sheet, "Nut slots");
    if (state == MOVE_WAITS)
        sheet_add_text(maker->sheet, SHEET_PARAGRAPH,
                       "Not yet: what comes first on the Work leaf changes these.");
    add_slot_head(maker);
    for (int s = maker->left.setup.board.strings; s >= 1; s--)
        if (outfit_has_slot(outfit, s))
            add_slot(maker, s);
    sheet_add_text(maker->sheet, SHEET_SMALL,
                   "Gaps are of the open string. Read after every few strokes: what is filed off "
                   "does not come back. Bone and shell dust: wear a respirator.");
}

/* --- fret rocker --- */

static double station(const struct sheet_maker *maker, int fret)
{
    return maker->left.setup.board.station_mm[LANE_MIDDLE][fret];
}

/* The edge rests on the fret and its two neighbours, and on no other. */
static void add_rocked(struct sheet_maker *maker, int fret)
{
    const int frets = maker->left.setup.board.frets,
              above = fret + 2 <= frets ? fret + 2 : fret + 1;
    const double shortest = station(maker, fret + 1) - station(maker, fret - 1) + rocker_spare_mm;
    const double longest = station(maker, above) - station(maker, fret - 1) - rocker_spare_mm;
    char memory[TEXT_MAX];
    struct strbuf text = STRBUF(memory);

    sheet_begin_row(maker->sheet, SHEET_ROW_PLAIN);
    strbuf_addf(&text, "%d", fret);
    sheet_add_cell(maker->sheet, memory);
    add_length(maker, maybe_given(shortest), MEASURE_LONG);
    add_length(maker, fret + 2 <= frets ? maybe_given(longest) : maybe_absent(), MEASURE_LONG);
    for (int column = 0; column < 3; column++)
        sheet_add_cell(maker->sheet, to_fill_in);
}

static void add_frets(struct sheet_maker *maker)
{
    const int frets = maker->left.setup.board.frets;

    if (frets < 3 || !outfit_asks(&maker->left.setup.outfit, FIELD_CROWN, 0))
        return;
    sheet_add_heading(maker->sheet, "Fret rocker");
    sheet_begin_table(maker->sheet, "rrrccc");
    sheet_begin_row(maker->sheet, SHEET_ROW_HEAD);
    sheet_add_cell(maker->sheet, "fret");
    add_head_cell(maker, "edge over", MEASURE_LONG);
    sheet_add_cell(maker->sheet, "edge under");
    sheet_add_cell(maker->sheet, "bass side");
    sheet_add_cell(maker->sheet, "middle");
    sheet_add_cell(maker->sheet, "treble side");
    for (int fret = 2; fret < frets; fret++)
        add_rocked(maker, fret);
    sheet_add_text(maker->sheet, SHEET_SMALL,
                   "The edge rests on the fret and on those beside it, and on no other. Where it "
                   "rocks, write down the thickest leaf that goes under it.");
}

enum status sheet_cards_make(const struct record *record, const struct sheet_ask *ask,
                             struct sheet *ret_sheet)
{
    struct sheet_maker *maker;
    struct sheet sheet;

    sheet_init(&sheet);
    const enum status status = sheet_maker_new(record, ask, &sheet, &maker);
    if (status != STATUS_OK)
        return status;
    sheet_make_head(maker, "Bench card");
    add_slots(maker);
    add_frets(maker);
    return sheet_maker_end(maker, ret_sheet);
}
