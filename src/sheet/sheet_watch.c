/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "model/figure/bench_row.h"
#include "sheet/sheet_parts.h"
#include "sheet/sheet_say.h"
#include "words/next_check_words.h"

/* What to watch, and when to come back. */

/* What is left of the saddle before the neck has to be reset. */
static void add_saddle(struct sheet_maker *maker)
{
    const struct setup *setup = &maker->left.setup;
    const struct maybe *bass = &setup->exposure_bass_mm, *treble = &setup->exposure_treble_mm;
    char memory[256];
    struct strbuf text = STRBUF(memory);

    if (setup->bridge != BRIDGE_BLANK || (!bass->given && !treble->given))
        return;
    const double least = !treble->given ? bass->value
                         : !bass->given ? treble->value
                                        : fmin(bass->value, treble->value);
    const double spare = least - setup->exposure_min_mm;

    strbuf_add(&text, "Saddle: ");
    sheet_say_length(&text, least, &maker->ask->units, MEASURE_DEPTH);
    strbuf_add(&text, " stands over the bridge. ");
    if (move_is_open(&maker->left.moves.move[MOVE_RESET])) {
        strbuf_add(&text, "The neck's angle is the next step.");
    } else if (spare > 0) {
        strbuf_add(&text, "There is ");
        sheet_say_length(&text, spare, &maker->ask->units, MEASURE_DEPTH);
        strbuf_add(&text,
                   " left to lower it in the years to come; after that the neck's angle is the "
                   "next step.");
    } else {
        strbuf_add(&text, "It should not go lower; the neck's angle is the next step.");
    }
    sheet_add_text(maker->sheet, SHEET_ITEM, memory);
}

/* The string between the outer two with less travel left than both; 0 for none. */
static int find_lowest(const struct setup *setup)
{
    double least = fmin(maybe_or(setup->exposure_bass_mm, (double)INFINITY),
                        maybe_or(setup->exposure_treble_mm, (double)INFINITY));
    int lowest = 0;

    for (int s = 2; s < setup->board.strings; s++)
        if (setup->exposure_mm[s].given && setup->exposure_mm[s].value < least) {
            least = setup->exposure_mm[s].value;
            lowest = s;
        }
    return lowest;
}

/* The table has the outer saddles; one between them is the owner's affair where it is the lowest.
 */
static void add_travel(struct sheet_maker *maker)
{
    const struct setup *setup = &maker->left.setup;
    const int lowest = find_lowest(setup);
    char memory[160];
    struct strbuf text = STRBUF(memory);

    if (lowest == 0)
        return;
    strbuf_addf(&text, "Saddles: that of string %d stands lowest, with ", lowest);
    sheet_say_length(&text, setup->exposure_mm[lowest].value, &maker->ask->units, MEASURE_DEPTH);
    strbuf_add(&text, setup->exposure_mm[lowest].value < setup->exposure_low_mm
                          ? " of travel left: it should not go lower."
                          : " of travel left.");
    sheet_add_text(maker->sheet, SHEET_ITEM, memory);
}

/* Where it buzzes first; how many notes would, only where the ear has said how hard it is played.
 */
static void add_notes(struct sheet_maker *maker)
{
    const struct frets_plan *frets = &maker->sheet->frets;
    const int buzzing = frets_count(frets, HEADROOM_BUZZES);
    char memory[240];
    struct strbuf text = STRBUF(memory);

    if (!frets->touch.by_ear || frets->tight.count == 0)
        return;
    if (buzzing > 0) {
        strbuf_add_count(&text, (size_t)buzzing, "note", "notes");
        strbuf_add(&text, " would buzz as hard as it was played here: ");
    } else {
        strbuf_add(&text, frets_count(frets, HEADROOM_MAY) > 0
                              ? "As hard as it was played here, these notes may buzz first: "
                              : "Played harder than here, these notes buzz first: ");
    }
    for (int i = 0; i < frets->tight.count; i++) {
        const struct tight_note *note = &frets->tight.note[i];

        strbuf_addf(&text, "%s%s %d ",
                    i > 0         ? ", "
                    : buzzing > 0 ? "first "
                                  : "",
                    outfit_noun(&frets->outfit, note->string),
                    outfit_number(&frets->outfit, note->string));
        frets_add_note_name(&frets->outfit, note->string, note->note, "at fret ", &text);
    }
    strbuf_add(&text, "; worked out, so believe the ear first.");
    sheet_add_text(maker->sheet, SHEET_ITEM, memory);
}

/* As it is known, else as is usual. */
static struct maybe find_day(const struct sheet_maker *maker, const struct next_check *check)
{
    const struct maybe home = next_check_home_day(maker->record, maker->visit);

    if (check->known || !home.given)
        return check->day_number;
    return maybe_given(home.value + NEXT_CHECK_USUAL_DAYS);
}

/* "about July 2026"; false, nothing appended, where no day of the visit is known. */
static bool add_month(const struct sheet_maker *maker, const struct next_check *check,
                      struct strbuf *out)
{
    const struct maybe number = find_day(maker, check);

    if (!number.given)
        return false;
    const struct day day = day_of_number((int)number.value);

    strbuf_add(out, "about ");
    sheet_say_month(out, day.year, day.month);
    return true;
}

/* Where the owner's air is not known, the season is all there is to go by. */
static void say_when(const struct sheet_maker *maker, const struct next_check *check,
                     struct strbuf *out)
{
    strbuf_add(out, "Next check: ");
    if (!check->known) {
        strbuf_add(out, "in half a year, ");
        strbuf_add(out, add_month(maker, check, out) ? ", " : "");
        strbuf_add(out, "as is usual, when the air has turned");
        strbuf_add(out, check->reason == NEXT_CHECK_HOME_UNKNOWN
                            ? ". Tell us how dry and how damp it gets where it lives, and we can "
                              "say it better."
                            : ".");
        return;
    }
    next_check_words_when(check, out);
    strbuf_add(out, ", ");
    (void)add_month(maker, check, out);
    strbuf_add(out, ": ");
    next_check_words_why(check, out);
    strbuf_add_char(out, '.');
}

/* Nearer to straight than that is not told from it. */
static const double least_told_mm = 0.025;

/* What the relief would do there, if the visits have shown it. */
static void say_prediction(const struct sheet_maker *maker, const struct next_check *check,
                           struct strbuf *out)
{
    const struct maybe relief = figures_get(&maker->left.figures, FIGURE_RELIEF, 0);
    const double change_mm = maybe_or(check->relief_change_mm, 0);
    const bool dry = check->far_pct.value < check->shop_pct.value;

    /* Less than a leaf is not worth a word. */
    if (!relief.given || fabs(change_mm) < maker->left.setup.feeler_step_mm ||
        fabs(check->far_pct.value - check->shop_pct.value) < SURVEY_SEASON_LEAST_PCT)
        return;
    strbuf_addf(out,
                " By what it did between its visits, the relief would %s in the %s air %s, from ",
                change_mm > 0 ? "grow" : "shrink", dry ? "driest" : "dampest",
                check->by_home ? "there" : "it has seen here");
    const double then_mm = relief.value + change_mm;
    if (change_mm < 0 && then_mm < least_told_mm) {
        sheet_say_length(out, relief.value, &maker->ask->units, MEASURE_FEELER);
        strbuf_add(out, then_mm < -least_told_mm ? " to a back-bow, which buzzes."
                                                 : " to a straight neck, which may buzz.");
        return;
    }
    sheet_say_range(out, relief.value, then_mm, &maker->ask->units, MEASURE_FEELER);
    strbuf_add_char(out, '.');
}

static void add_next_check(struct sheet_maker *maker)
{
    struct next_check check;
    char memory[640];
    struct strbuf text = STRBUF(memory);

    next_check_find(maker->record, maker->visit, &check);
    say_when(maker, &check, &text);
    say_prediction(maker, &check, &text);
    sheet_add_text(maker->sheet, SHEET_ITEM, memory);
}

bool sheet_say_check(const struct sheet_maker *maker, struct strbuf *out)
{
    struct next_check check;

    next_check_find(maker->record, maker->visit, &check);
    if (maker->last == 0 || !find_day(maker, &check).given)
        return false;
    strbuf_add(out, "Next check: ");
    return add_month(maker, &check, out);
}

/* A change is worth coming for that would turn a good state into another. */
static void add_air(struct sheet_maker *maker)
{
    const struct setup *setup = &maker->left.setup;
    const struct bench_row *row = bench_row_in(&setup->outfit, ROW_ACTION);
    const double seen_mm = record_or_fallback(maker->record, row->tolerance) + setup->rule_step_mm;
    char memory[256];
    struct strbuf text = STRBUF(memory);

    strbuf_add(&text, "Air: most instruments do best at 40 to 60\xC2\xA0% humidity (common "
                      "practice). Come sooner when the ");
    strbuf_add(&text, setup->outfit.lap ? "height of the strings" : "action");
    strbuf_add(&text, " changes by ");
    sheet_say_length(&text, seen_mm, &maker->ask->units, MEASURE_RULE);
    strbuf_add(&text, " or more, a string buzzes or a crack shows.");
    sheet_add_text(maker->sheet, SHEET_ITEM, memory);
}

void sheet_make_watch(struct sheet_maker *maker)
{
    if (maker->last == 0)
        return;
    sheet_add_heading(maker->sheet, "What to watch");
    add_saddle(maker);
    add_travel(maker);
    add_notes(maker);
    sheet_add_findings(maker, WEIGHT_CAUTION);
    add_air(maker);
    sheet_add_settling(maker);
    add_next_check(maker);
}
