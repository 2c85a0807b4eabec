/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "words/pitch_plan.h"
#include "base/num.h"
#include "model/reading/note_name.h"
#include "model/reading/work_since.h"
#include "sheet/sheet_parts.h"
#include "sheet/sheet_say.h"

/* How well it plays in tune, and how hard it can be plucked. */

enum { FRETS_SHOWN = 6 };

/* The columns of the table of cents: one fret as found, then frets as left. */
struct intonation {
    const struct sheet_maker *maker;
    bool both;     /* read in the first pass and in a later one */
    int pass;      /* the pass of the cents as left, or as found if there are no others */
    int main_fret; /* the one by which the saddle is set */
    int frets[FRETS_SHOWN];
    int count;
    int held[STRINGS_MAX + 1]; /* by string: the pass whose cents hold as left, `pass` or one before
                                * it that nothing was done since */
    struct pitch_plan plan;
};

static struct maybe read_at(const struct sheet_maker *maker, int pass, int string, int fret)
{
    return record_entered(maker->record,
                          reading_key_pass_at(FIELD_CENTS, maker->visit, pass, string, fret));
}

static bool any_at(const struct sheet_maker *maker, int pass, int fret)
{
    for (int s = 1; s <= maker->left.setup.board.strings; s++)
        if (read_at(maker, pass, s, fret).given)
            return true;
    return false;
}

static bool any_cents(const struct sheet_maker *maker, int pass)
{
    for (int fret = 1; pass > 0 && fret <= maker->left.setup.board.frets; fret++)
        if (any_at(maker, pass, fret))
            return true;
    return false;
}

/* The latest pass of the visit with cents; 0 if there is none. */
static int find_pass(const struct sheet_maker *maker)
{
    for (int pass = maker->last; pass > 0; pass--)
        if (any_cents(maker, pass))
            return pass;
    return 0;
}

/* What changes a string's cents: where it stands, and how it is bent down to its frets. */
#define CENTS_MOVES (SHEET_HEIGHT_MOVES | MOVE_BIT(MOVE_PITCH))

static int find_held(const struct intonation *intonation, int string)
{
    const struct sheet_maker *maker = intonation->maker;
    const struct place last = place_of(maker->record, maker->visit, maker->last);
    int pass = intonation->pass;

    while (pass > maker->first && !read_at(maker, pass, string, intonation->main_fret).given)
        pass--;
    if (pass <= maker->first ||
        work_since(place_of(maker->record, maker->visit, pass), last, CENTS_MOVES, string))
        return intonation->pass;
    return pass;
}

static void find_main_fret(struct intonation *intonation)
{
    for (int s = 1; s <= intonation->plan.strings && intonation->main_fret == 0; s++)
        intonation->main_fret = intonation->plan.string[s].fret;
}

static bool find_columns(const struct sheet_maker *maker, struct intonation *intonation)
{
    const struct board *board = &maker->left.setup.board;

    intonation->maker = maker;
    intonation->pass = find_pass(maker);
    if (intonation->pass == 0)
        return false;
    pitch_plan_make(place_of(maker->record, maker->visit, intonation->pass),
                    intonation->pass == maker->first ? &maker->found : &maker->left, 0,
                    &intonation->plan);
    find_main_fret(intonation);
    intonation->both =
        intonation->pass != maker->first && any_at(maker, maker->first, intonation->main_fret);
    intonation->frets[intonation->count++] = intonation->main_fret;
    for (int fret = 1; fret <= board->frets && intonation->count < FRETS_SHOWN; fret++)
        if (fret != intonation->main_fret && any_at(maker, intonation->pass, fret))
            intonation->frets[intonation->count++] = fret;
    for (int s = 1; s <= intonation->plan.strings; s++)
        intonation->held[s] = find_held(intonation, s);
    return true;
}

static void add_cents(const struct sheet_maker *maker, int pass, int string, int fret)
{
    char memory[32];
    struct strbuf text = STRBUF(memory);
    const struct maybe cents = read_at(maker, pass, string, fret);

    if (cents.given) {
        if (cents.value > 0)
            strbuf_add_char(&text, '+');
        num_format_fixed(cents.value, cents.value == (double)(int)cents.value ? 0 : 1, false,
                         &text);
    }
    sheet_add_cell(maker->sheet, memory);
}

static const char *state_of(const struct pitch_move *move)
{
    switch (move->state) {
    case PITCH_IN_TUNE:
        return "in tune";
    case PITCH_WITHIN:
        return "within measuring error";
    case PITCH_DUE:
    case PITCH_MOVED:
        return move->cents > 0 ? "sharp" : "flat";
    case PITCH_UNREAD:
        break;
    }
    return "";
}

/* The cents as left, and what is said of them. Those of an earlier pass have no move of this one.
 */
static const char *state_as_left(const struct intonation *intonation, int string)
{
    const struct maybe cents =
        read_at(intonation->maker, intonation->held[string], string, intonation->main_fret);

    if (intonation->held[string] == intonation->pass || !cents.given)
        return state_of(&intonation->plan.string[string]);
    if (fabs(cents.value) <= intonation->plan.tolerance_cents)
        return "in tune";
    return cents.value > 0 ? "sharp" : "flat";
}

static bool any_of_string(const struct intonation *intonation, int string)
{
    const struct sheet_maker *maker = intonation->maker;

    return intonation->plan.string[string].state != PITCH_UNREAD ||
           intonation->held[string] != intonation->pass ||
           (intonation->both && read_at(maker, maker->first, string, intonation->main_fret).given);
}

static void add_string(const struct intonation *intonation, int string)
{
    const struct sheet_maker *maker = intonation->maker;
    char memory[32];
    struct strbuf name = STRBUF(memory);

    note_name_add_string(&name, maker->record, string);
    sheet_begin_row(maker->sheet, SHEET_ROW_PLAIN);
    sheet_add_cell(maker->sheet, memory);
    if (intonation->both)
        add_cents(maker, maker->first, string, intonation->main_fret);
    for (int i = 0; i < intonation->count; i++)
        add_cents(maker, intonation->held[string], string, intonation->frets[i]);
    sheet_add_cell(maker->sheet, state_as_left(intonation, string));
}

static void add_fret(struct sheet_maker *maker, const char *what, int fret)
{
    char memory[48];
    struct strbuf text = STRBUF(memory);

    strbuf_addf(&text, "%sfret %d", what, fret);
    sheet_add_cell(maker->sheet, memory);
}

static void add_table(struct sheet_maker *maker, const struct intonation *intonation)
{
    const int columns = intonation->both + intonation->count;
    char align[SHEET_COLUMNS_MAX + 1] = "l";
    const bool found = intonation->pass == maker->first;

    memset(align + 1, 'r', (size_t)columns);
    align[columns + 1] = 'l';
    sheet_begin_table(maker->sheet, align);
    sheet_begin_row(maker->sheet, SHEET_ROW_HEAD);
    sheet_add_cell(maker->sheet, "string");
    if (intonation->both)
        add_fret(maker, "as found, ", intonation->main_fret);
    for (int i = 0; i < intonation->count; i++)
        add_fret(maker, i > 0 ? "" : found ? "as found, " : "as left, ", intonation->frets[i]);
    sheet_add_cell(maker->sheet, "state");
    for (int s = intonation->plan.strings; s >= 1; s--)
        if (any_of_string(intonation, s))
            add_string(intonation, s);
}

void sheet_make_intonation(struct sheet_maker *maker)
{
    struct intonation intonation = {.pass = 0};
    char memory[128];
    struct strbuf text = STRBUF(memory);

    if (!find_columns(maker, &intonation))
        return;
    sheet_add_heading(maker->sheet, "Intonation");
    add_table(maker, &intonation);
    sheet_make_cents_curve(maker);
    strbuf_add(&text, "Cents above the note wanted (a hundredth of a semitone); in tune within \xC2"
                      "\xB1");
    num_format(intonation.plan.tolerance_cents, &text);
    strbuf_add_char(&text, '.');
    sheet_add_text(maker->sheet, SHEET_SMALL, memory);
}
