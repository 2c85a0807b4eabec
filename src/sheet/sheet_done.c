/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "base/num.h"
#include "model/reading/work_amount.h"
#include "model/reading/place.h"
#include "model/reading/work_line.h"
#include "model/reading/work_mark.h"
#include "sheet/sheet_done_heights.h"
#include "sheet/sheet_parts.h"
#include "sheet/sheet_say.h"
#include "words/amount.h"
#include "words/plan_text.h"

/* What was done, as an owner reads it: a tech's own words as they are; of a move that was marked
 * done as planned, what was done and what the readings show, not the plan. */

static enum move_kind move_of_line(const struct sheet_maker *maker, int line)
{
    return work_mark_named(sheet_text_of_line(maker, WORK_KIND, line));
}

/* The pass whose readings a line's work followed; pass 0 where its time does not tell. */
static struct place find_place(const struct sheet_maker *maker, int line)
{
    struct place place = place_of(maker->record, maker->visit, 0), found = place;

    while (place_next(&place) && place.visit == maker->visit && place.pass <= maker->last)
        if (work_mark_is_since(place, line))
            found = place;
    return found;
}

/* --- the rod --- */

/* The turns logged with a rod's line; the last of the lines between two passes has them. */
static struct maybe find_turns(struct place before, int line)
{
    const struct place after = place_of(&before.record, before.visit, before.pass + 1);

    if (before.pass == 0 || work_mark_line(before, MOVE_ROD) != line)
        return (struct maybe){.given = false};
    return place_read(after, FIELD_ROD_TURN);
}

/* In sixteenths, where it was so many. */
static void say_turns(double turns, struct strbuf *out)
{
    enum { PARTS = 16 };
    const double parts = fabs(turns) * PARTS;

    if (turns == 0) {
        strbuf_add(out, "not turned");
        return;
    }
    strbuf_add(out, turns > 0 ? "tightened " : "slackened ");
    if (fabs(parts - round(parts)) < 1e-6)
        num_format_fraction(fabs(turns), PARTS, out);
    else
        num_format_fixed(fabs(turns), 2, false, out);
    strbuf_add(out, fabs(turns) > 1 ? " turns" : " turn");
}

/* "relief .012 to .006 in (0.30 to 0.15 mm)", as it was read before and after. */
static void say_relief(const struct sheet_maker *maker, struct place before, int line,
                       struct strbuf *out)
{
    struct place after = before;

    if (before.pass == 0 || work_mark_line(before, MOVE_ROD) != line || !place_next(&after) ||
        after.visit != maker->visit)
        return;
    const struct maybe first = place_read(before, FIELD_RELIEF);
    const struct maybe last = place_read(after, FIELD_RELIEF);
    if (!first.given || !last.given)
        return;
    if (fabs(first.value - last.value) < 0.005) {
        strbuf_add(out, ", relief still ");
        sheet_say_length(out, last.value, &maker->ask->units, MEASURE_FEELER);
        return;
    }
    strbuf_add(out, ", relief ");
    sheet_say_range(out, first.value, last.value, &maker->ask->units, MEASURE_FEELER);
}

/* A number of turns alone, or nothing. */
static bool is_bare(const char *amount)
{
    amount += strspn(amount, "+-.0123456789/ ");
    return strcmp(amount, "turns") == 0 || strcmp(amount, "turn") == 0 || *amount == '\0';
}

static void say_rod(const struct sheet_maker *maker, int line, const char *plan, struct strbuf *out)
{
    const struct place before = find_place(maker, line);
    const struct maybe turns = find_turns(before, line);

    if (*plan == 'n')
        strbuf_add(out, "none that turns; the neck was worked on");
    else if (turns.given)
        say_turns(turns.value, out);
    else
        strbuf_add(out, *plan == 's' ? "slackened" : "tightened");
    say_relief(maker, before, line, out);
}

/* Whether a line tells of the rod, in whatever words. */
static bool any_rod_line(const struct sheet_maker *maker)
{
    for (int line = record_last_work(maker->record, maker->visit); line > 0; line--)
        if (strstr(sheet_text_of_line(maker, WORK_KIND, line), "rod") ||
            strstr(sheet_text_of_line(maker, WORK_AMOUNT, line), "rod"))
            return true;
    return false;
}

/* On to the next turn that was logged on the bench alone; false past the last. */
static bool next_turn(const struct sheet_maker *maker, struct place *before)
{
    while (place_next(before) && before->visit == maker->visit && before->pass <= maker->last) {
        const struct maybe turns = find_turns(*before, 0);

        if (turns.given && turns.value != 0)
            return true;
    }
    return false;
}

static void add_turns_alone(struct sheet_maker *maker)
{
    struct place before = place_of(maker->record, maker->visit, 0);
    char memory[160];
    struct strbuf text = STRBUF(memory);

    while (!any_rod_line(maker) && next_turn(maker, &before)) {
        strbuf_clear(&text);
        sheet_say_sentence(&text, sheet_move_name(&maker->left.setup.outfit, MOVE_ROD));
        sheet_begin_row(maker->sheet, SHEET_ROW_PLAIN);
        sheet_add_cell(maker->sheet, memory);
        strbuf_clear(&text);
        say_turns(find_turns(before, 0).value, &text);
        say_relief(maker, before, 0, &text);
        sheet_add_cell(maker->sheet, memory);
    }
}

/* --- slots and saddle --- */

static void say_slots(const struct sheet_maker *maker, int line, const char *plan,
                      struct strbuf *out)
{
    (void)line;
    sheet_say_slots_done(maker, plan, out);
}

static void say_saddle(const struct sheet_maker *maker, int line, const char *plan,
                       struct strbuf *out)
{
    (void)line;
    sheet_say_saddle_done(maker, plan, out);
}

/* What was put on: names of sets are written with hyphens in files only. */
static void say_strings_on(const char *amount, struct strbuf *out)
{
    strbuf_add(out, *amount ? "new, " : "new");
    for (const char *at = amount; *at; at++) {
        const bool joins = *at == '-' && at > amount && at[-1] >= 'a' && at[-1] <= 'z' &&
                           at[1] >= 'a' && at[1] <= 'z';
        strbuf_add_char(out, joins ? ' ' : *at);
    }
}

/* --- the others --- */

static void say_reset(const struct sheet_maker *maker, int line, const char *plan,
                      struct strbuf *out)
{
    const char *degrees = plan + strcspn(plan, "0123456789");
    const char *shim = strstr(plan, WORK_SHIM);

    (void)maker;
    (void)line;
    strbuf_add(out, "set back by about ");
    strbuf_add_bytes(out, degrees, strspn(degrees, ".0123456789"));
    strbuf_add(out, " degrees");
    strbuf_add(out, shim ? ", " : "");
    strbuf_add(out, shim ? shim : "");
}

/* The numbers that stand behind one word or another: "fret 8: .004, fret 9: .003". */
static uint64_t find_numbers(const char *text, const char *first, const char *next)
{
    uint64_t set = 0;

    for (const char *at = strstr(text, first); at; at = strstr(at, next)) {
        const size_t length = strcspn(at, "0123456789");
        int number = 0;

        at += length;
        if (num_count(at, strspn(at, "0123456789"), FRETS_MAX, &number) == STATUS_OK)
            set |= UINT64_C(1) << number;
    }
    return set;
}

/* A plan names the first few: "... and 2 more +-.001 in". */
static void say_more(const char *plan, struct strbuf *out)
{
    const char *more = strstr(plan, " and ");

    if (!more || !strstr(more, " more"))
        return;
    strbuf_add_bytes(out, more, strlen(more) - strlen(strstr(more, " more")));
    strbuf_add(out, " more");
}

/* "levelled where high: frets 8 and 9; rocked, not high: fret 6". A plan logged before this was
 * told apart leaves open what was found of a fret that was to be rocked. */
static void say_levelled(const char *plan, bool fretless, struct strbuf *out)
{
    const char *noun = fretless ? "mark" : "fret", *nouns = fretless ? "marks" : "frets";
    const char *rocked = strstr(plan, fretless ? WORK_TRIED : WORK_ROCKED);
    const uint64_t without = rocked ? find_numbers(rocked, noun, noun) : 0;
    const uint64_t levelled = find_numbers(plan, noun, noun) & ~without;
    const bool open = strstr(plan, "if it is high") != NULL;

    if (levelled != 0) {
        strbuf_add(out, fretless
                            ? open ? "tried, and sanded if high: " : "board sanded where high: "
                        : open ? "rocked, and levelled if high: "
                               : "levelled where high: ");
        sheet_say_numbers(out, levelled, false, noun, nouns);
    }
    if (without == 0)
        return;
    strbuf_add(out, levelled != 0 ? "; " : "");
    strbuf_add(out, fretless ? "tried, not high: " : "rocked, not high: ");
    sheet_say_numbers(out, without, false, noun, nouns);
}

static void say_frets(const struct sheet_maker *maker, int line, const char *plan,
                      struct strbuf *out)
{
    (void)line;
    if (strstr(plan, " worn low, ") == plan + strcspn(plan, " ")) {
        strbuf_add(out, "put right where worn low");
    } else {
        say_levelled(plan, maker->left.setup.outfit.fretless, out);
    }
    say_more(plan, out);
}

static void say_pitch(const struct sheet_maker *maker, int line, const char *plan,
                      struct strbuf *out)
{
    (void)maker;
    (void)line;
    if (*plan == 'b') {
        strbuf_add(out, "bridge moved so that it plays in tune");
        return;
    }
    const bool by_string = strstr(plan, "saddle: string ") == plan;
    const uint64_t strings =
        by_string ? find_numbers(plan, "string ", ", ") : find_numbers(plan, " on string ", " on ");

    strbuf_add(out, "saddle moved so that it plays in tune: ");
    sheet_say_numbers(out, strings, true, "string", "strings");
    say_more(plan, out);
}

/* --- all --- */

static void say_done(const struct sheet_maker *maker, int line, struct strbuf *out)
{
    static void (*const say[MOVE_COUNT_])(const struct sheet_maker *, int, const char *,
                                          struct strbuf *) = {
#define MOVE(id, own_, ...) [MOVE_##id] = say_##own_,
#include "model/reading/move_table.h"
#undef MOVE
    };
    const char *amount = sheet_text_of_line(maker, WORK_AMOUNT, line);
    const enum move_kind kind = move_of_line(maker, line);
    const bool is_plan = kind != MOVE_COUNT_ && plan_text_is(kind, amount);

    if (is_plan ||
        (kind == MOVE_ROD && is_bare(amount) && find_turns(find_place(maker, line), line).given))
        say[kind](maker, line, amount, out);
    else if (strcmp(sheet_text_of_line(maker, WORK_KIND, line), WORK_RESTRUNG) == 0)
        say_strings_on(amount, out);
    else if (kind != MOVE_COUNT_ && work_amount_is_bare(amount))
        strbuf_add(out, "done");
    else if (!sheet_say_numbers_done(maker, kind, find_place(maker, line), line, amount, out)) {
        strbuf_add(out, amount);
        if (kind == MOVE_ROD && amount[0] && !strstr(amount, "relief"))
            say_relief(maker, find_place(maker, line), line, out);
    }
}

/* What a line's work was on. */
static const char *name_of_line(const struct sheet_maker *maker, int line)
{
    const enum move_kind kind = move_of_line(maker, line);
    const char *own = sheet_text_of_line(maker, WORK_KIND, line);

    if (kind != MOVE_COUNT_)
        return sheet_move_name(&maker->left.setup.outfit, kind);
    return strcmp(own, WORK_RESTRUNG) == 0 ? "strings" : own;
}

static void add_line(struct sheet_maker *maker, int line)
{
    char memory[FIELD_TEXT_MAX + 1];
    struct strbuf text = STRBUF(memory);

    if (!work_line_exists(maker->record, maker->visit, line))
        return;
    sheet_say_sentence(&text, name_of_line(maker, line));
    sheet_begin_row(maker->sheet, SHEET_ROW_PLAIN);
    sheet_add_cell(maker->sheet, memory);
    strbuf_clear(&text);
    say_done(maker, line, &text);
    sheet_add_cell(maker->sheet, memory);
}

/* Whether any work was not followed by new readings. */
static bool any_unproved(const struct sheet_maker *maker)
{
    for (int line = record_last_work(maker->record, maker->visit); line > 0; line--)
        if (work_mark_is_since(place_of(maker->record, maker->visit, maker->last), line))
            return true;
    return false;
}

void sheet_make_done(struct sheet_maker *maker)
{
    const int lines = record_last_work(maker->record, maker->visit);
    struct place turned = place_of(maker->record, maker->visit, 0);

    if (lines == 0 && !next_turn(maker, &turned))
        return;
    sheet_add_heading(maker->sheet, "What was done");
    sheet_begin_table(maker->sheet, "ll");
    add_turns_alone(maker);
    for (int line = 1; line <= lines; line++)
        add_line(maker, line);
    if (maker->last > 0 && any_unproved(maker))
        sheet_add_text(maker->sheet, SHEET_SMALL,
                       "Not everything was measured again after the last of this.");
}
