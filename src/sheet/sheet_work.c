/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "words/amount.h"
#include "words/caution.h"
#include "words/move_words.h"
#include "model/reading/work_line.h"
#include "model/reading/work_since.h"
#include "base/num.h"
#include "model/reading/work_mark.h"
#include "model/setup/survey_rod.h"
#include "sheet/sheet_parts.h"
#include "sheet/sheet_say.h"

/* The note for the owner, what is left to do, and cautions for the owner. */

/* An amount that is printed as nothing is none. */
#define SEEN_MM 0.013

static const char *const move_names[MOVE_COUNT_] = {
#define MOVE(id, own_, name_, owner_name_, ...) [MOVE_##id] = owner_name_,
#include "model/reading/move_table.h"
#undef MOVE
};

const char *sheet_move_name(const struct outfit *outfit, enum move_kind kind)
{
    const char *name = outfit_move_name(outfit, kind);

    if (kind == MOVE_SLOTS && outfit->zero_fret)
        return "zero fret";
    return strcmp(name, work_mark_name(kind)) == 0 ? move_names[kind] : name;
}

void sheet_make_notes(struct sheet_maker *maker)
{
    const char *words =
        sheet_text_of(maker, reading_key_visit(FIELD_VISIT_FOR_OWNER, maker->visit));

    if (!words)
        return;
    sheet_add_heading(maker->sheet, "Notes");
    sheet_add_text(maker->sheet, SHEET_PARAGRAPH, words);
}

/* The least and the most that a move asks for in one direction, over the strings where it is
 * due, as Work says it; false if it asks for nothing in that direction. */
static bool find_range(const struct move *move, bool raise, enum unit unit, double *ret_least,
                       double *ret_most)
{
    bool any = false;

    for (int s = 1; s <= STRINGS_MAX; s++) {
        const double change = amount_of_work(move->string[s].value, unit);

        if (!move->string[s].due || (raise ? change : -change) < SEEN_MM)
            continue;
        *ret_least = any ? fmin(*ret_least, fabs(change)) : fabs(change);
        *ret_most = any ? fmax(*ret_most, fabs(change)) : fabs(change);
        any = true;
    }
    return any;
}

/* Why a height is changed, and what is done to it, down and up. */
struct change_words {
    const char *high, *down, *low, *up;
};

/* "the strings stand high: lower by .025 to .040 in (0.64 to 1.02 mm)". Readings that are said to
 * be good give no cause for strong words. */
static void say_change(const struct sheet_maker *maker, enum move_kind kind,
                       const struct change_words *words, struct strbuf *out)
{
    const enum unit unit = move_words_change_unit(&maker->ask->units);
    const bool is_good = maker->says_good & MOVE_BIT(kind);
    const char *const why[] = {is_good ? "a touch high" : words->high,
                               is_good ? "a touch low" : words->low};
    double least, most;

    for (int raise = 0; raise <= 1; raise++) {
        if (!find_range(&maker->left.moves.move[kind], raise, unit, &least, &most))
            continue;
        strbuf_addf(out, "%s%s: %s by ", out->length > 0 ? "; " : "", why[raise],
                    raise ? words->up : words->down);
        sheet_say_range(out, least, most, &maker->ask->units, MEASURE_FEELER);
    }
}

static bool is_rod_spent(const struct sheet_maker *maker)
{
    struct findings findings = {.count = 0};
    struct survey_rod rod;

    survey_rod(place_of(maker->record, maker->visit, maker->last), &rod, &findings);
    return survey_rod_is_spent(&rod);
}

static const char *what_of_rod(const struct sheet_maker *maker, bool bows)
{
    if (!bows)
        return "the neck is too straight: slacken";
    return is_rod_spent(maker)
               ? "the neck bows too far, and the rod has nothing left: straighten it"
               : "the neck bows too far: tighten";
}

static void say_rod(const struct sheet_maker *maker, struct strbuf *out)
{
    const struct setup *setup = &maker->left.setup;
    const struct maybe relief = figures_get(&maker->left.figures, FIGURE_RELIEF, 0);

    if (!relief.given)
        return;
    strbuf_add(out, what_of_rod(maker, relief.value > setup->relief_target_mm.value));
    strbuf_add(out, " until the relief is ");
    sheet_say_length(out, setup->relief_target_mm.value, &maker->ask->units, MEASURE_FEELER);
}

static bool is_saddle_low(const struct setup *setup)
{
    return maybe_or(setup->exposure_bass_mm, (double)INFINITY) < setup->exposure_low_mm ||
           maybe_or(setup->exposure_treble_mm, (double)INFINITY) < setup->exposure_low_mm;
}

static void say_reset(const struct sheet_maker *maker, struct strbuf *out)
{
    const struct maybe angle = figures_get(&maker->left.figures, FIGURE_ANGLE, 0);
    const struct maybe *lean = &maker->left.moves.move[MOVE_RESET].lean;

    if (!angle.given)
        return;
    const double degrees = angle.value * figure_info(FIGURE_ANGLE)->factor;
    strbuf_add(out, "set the neck back by about ");
    num_format_fixed(fmax(degrees, 0.1), 1, false, out);
    strbuf_add(out, is_saddle_low(&maker->left.setup)
                        ? " degrees: too little saddle is left"
                        : " degrees: the saddle cannot be lowered enough to bring the action down");
    if (!lean->given)
        return;
    strbuf_add(out, "; it also leans, by ");
    sheet_say_length(out, fabs(lean->value), &maker->ask->units, MEASURE_SMALL);
    strbuf_addf(out, " over the bridge's width, low on the %s side",
                lean->value < 0 ? "bass" : "treble");
}

static void say_slots(const struct sheet_maker *maker, struct strbuf *out)
{
    static const struct change_words slots = {"hard to press at the first frets", "file deeper",
                                              "open strings may buzz", "raise"};
    static const struct change_words lap = {"the strings stand high at the nut", "lower",
                                            "the strings stand low at the nut", "raise"};
    static const struct change_words zero_fret = {"hard to press at the first frets", "lower",
                                                  "open strings may buzz", "a higher one,"};
    const struct outfit *outfit = &maker->left.setup.outfit;

    say_change(maker, MOVE_SLOTS,
               outfit->zero_fret ? &zero_fret
               : outfit->lap     ? &lap
                                 : &slots,
               out);
}

static void say_saddle(const struct sheet_maker *maker, struct strbuf *out)
{
    static const struct change_words words = {"the strings stand high", "lower",
                                              "the strings lie low", "raise"};

    say_change(maker, MOVE_SADDLE, &words, out);
}

/* The numbers of the amounts that are due, "fret 8", "frets 8, 9". */
static void say_numbers(const struct move_amount *amounts, int last, const char *one,
                        const char *many, struct strbuf *out)
{
    int due = 0, said = 0;

    for (int n = 1; n <= last; n++)
        due += amounts[n].due;
    strbuf_add(out, due == 1 ? one : many);
    for (int n = 1; n <= last; n++)
        if (amounts[n].due)
            strbuf_addf(out, said++ ? ", %d" : " %d", n);
}

static void say_frets(const struct sheet_maker *maker, struct strbuf *out)
{
    const bool fretless = maker->left.setup.outfit.fretless;
    const struct fret_work *work = &maker->left.moves.frets;
    bool levels = false;

    for (int n = 1; n <= maker->left.setup.board.frets; n++)
        levels = levels || work->fret[n].due;
    if (!levels) {
        strbuf_add(out, fretless ? "plane the board where worn" : "level or replace worn frets");
        return;
    }
    strbuf_add(out, fretless ? "sand the board where high: " : "level where high: ");
    say_numbers(work->fret, maker->left.setup.board.frets, fretless ? "mark" : "fret",
                fretless ? "marks" : "frets", out);
}

static void say_pitch(const struct sheet_maker *maker, struct strbuf *out)
{
    if (maker->left.moves.move[MOVE_PITCH].whole) {
        strbuf_add(out, "move the bridge so that it plays in tune");
        return;
    }
    strbuf_add(out, "move the saddle so that it plays in tune: ");
    say_numbers(maker->left.moves.move[MOVE_PITCH].string, maker->left.setup.board.strings,
                "string", "strings", out);
}

void sheet_say_due(const struct sheet_maker *maker, enum move_kind kind, struct strbuf *out)
{
    static void (*const say[MOVE_COUNT_])(const struct sheet_maker *, struct strbuf *) = {
#define MOVE(id, own_, ...) [MOVE_##id] = say_##own_,
#include "model/reading/move_table.h"
#undef MOVE
    };

    say[kind](maker, out);
}

/* A row of its own, begun with the move's name. */
static void begin_move(struct sheet_maker *maker, enum move_kind kind)
{
    char memory[80];
    struct strbuf name = STRBUF(memory);

    sheet_say_sentence(&name, sheet_move_name(&maker->left.setup.outfit, kind));
    sheet_begin_row(maker->sheet, SHEET_ROW_PLAIN);
    sheet_add_cell(maker->sheet, memory);
}

static void add_due(struct sheet_maker *maker, enum move_kind kind)
{
    char memory[256];
    struct strbuf text = STRBUF(memory);

    begin_move(maker, kind);
    sheet_say_due(maker, kind, &text);
    sheet_add_cell(maker->sheet, memory);
}

/* Judged by the readings alone: work done since then has not been measured. */
bool sheet_is_on_target(const struct sheet_maker *maker)
{
    if (maker->last == 0 || move_set_is_questioned(&maker->left.moves))
        return false;
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        if (maker->left.moves.move[kind].state == MOVE_DUE ||
            move_is_left(&maker->left.moves.move[kind]) ||
            move_is_missed(&maker->left.moves.move[kind]))
            return false;
    return true;
}

/* Whether the same was said of another string or fret before. */
static bool is_said(const struct findings *findings, int at)
{
    for (int i = 0; i < at; i++)
        if (findings->list[i].id == findings->list[at].id)
            return true;
    return false;
}

/* A finding's sentence, and the other strings or frets for which it holds. */
static void say_finding(const struct findings *findings, int at, struct strbuf *out)
{
    char memory[240];
    struct strbuf words = STRBUF(memory);
    int others = 0;

    finding_words(&findings->list[at], &words);
    sheet_say_sentence(out, memory);
    strbuf_add_char(out, '.');
    for (int i = at + 1; i < findings->count; i++)
        if (findings->list[i].id == findings->list[at].id)
            strbuf_addf(out, "%s %d", others++ > 0 ? "," : " The same of",
                        findings->list[i].number);
    if (others > 0)
        strbuf_add_char(out, '.');
}

/* The moves say the rest, or it is for whoever does the work. */
static bool is_for_owner(enum finding_id id)
{
    static const enum finding_id told[] = {FINDING_CROWN_LOW,         FINDING_ROD_SILENT,
                                           FINDING_TOTAL_FAR_ABOVE,   FINDING_TOTAL_UNUSUAL,
                                           FINDING_STRING_NEAR_BREAK, FINDING_WOOD_THIN};

    for (size_t i = 0; i < sizeof told / sizeof told[0]; i++)
        if (told[i] == id)
            return true;
    return false;
}

void sheet_add_findings(struct sheet_maker *maker, enum finding_weight weight)
{
    const struct findings *findings = &maker->left.findings;

    for (int i = 0; i < findings->count; i++) {
        char memory[400];
        struct strbuf text = STRBUF(memory);

        if (finding_weight(findings->list[i].id) != weight || !is_for_owner(findings->list[i].id) ||
            is_said(findings, i))
            continue;
        say_finding(findings, i, &text);
        sheet_add_text(maker->sheet, SHEET_ITEM, memory);
    }
}

/* Off target, and put off until what was done has been measured. */
static bool is_put_off(const struct move *move)
{
    return move->state == MOVE_WAITS && move_is_off(move) && !move_is_done(move) &&
           !move_is_left(move);
}

static void add_put_off(struct sheet_maker *maker, enum move_kind kind)
{
    begin_move(maker, kind);
    sheet_add_cell(maker->sheet, "off its target as last measured, and not done yet");
}

void sheet_make_due(struct sheet_maker *maker)
{
    const struct move_set *moves = &maker->left.moves;
    const bool unproved = move_set_count(moves, move_is_done) > 0;

    if (maker->last == 0 || (move_set_count(moves, move_is_open) == 0 &&
                             !(unproved && move_set_count(moves, is_put_off) > 0)))
        return;
    sheet_add_heading(maker->sheet, "Still to do");
    sheet_begin_table(maker->sheet, "ll");
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        if (move_is_open(&moves->move[kind]))
            add_due(maker, (enum move_kind)kind);
        else if (unproved && is_put_off(&moves->move[kind]))
            add_put_off(maker, (enum move_kind)kind);
    sheet_add_findings(maker, WEIGHT_ADVICE);
}

/* The owner's version of caution `k`, if the visit's work and the woods call for it; else NULL. */
static const char *find_caution(const struct sheet_maker *maker, int k)
{
    static const enum field_id woods[] = {FIELD_BOARD_WOOD, FIELD_NECK_WOOD};
    const char *found = NULL;

    for (int line = record_last_work(maker->record, maker->visit); line > 0 && !found; line--)
        for (int column = WORK_KIND; column <= WORK_NOTE && !found; column++)
            found = caution_for_owner(k, sheet_text_of_line(maker, (enum work_column)column, line));
    for (size_t i = 0; i < sizeof woods / sizeof woods[0] && !found; i++) {
        const char *wood = sheet_text_of(maker, reading_key_one(woods[i]));

        if (wood)
            found = caution_for_owner(k, wood);
    }
    return found;
}

void sheet_make_cautions(struct sheet_maker *maker)
{
    bool begun = false;

    for (int k = 0; k < caution_count(); k++) {
        const char *words = find_caution(maker, k);

        if (!words)
            continue;
        if (!begun)
            sheet_add_heading(maker->sheet, "Please mind");
        begun = true;
        sheet_add_text(maker->sheet, SHEET_ITEM, words);
    }
}
