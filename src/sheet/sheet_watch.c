/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "sheet/sheet_parts.h"
#include "sheet/sheet_say.h"
#include "model/survey/survey_season.h"

/* What to watch, and when to come back. */

enum {
    HALF_YEAR = 6, /* months until the season has changed (common practice, no published source) */
    YEAR = 12,
};

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
    if (spare > 0) {
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
        strbuf_add(&text, "Played harder than here, these notes buzz first: ");
    }
    for (int i = 0; i < frets->tight.count; i++) {
        const struct tight_note *note = &frets->tight.note[i];

        strbuf_addf(&text, "%sstring %d ",
                    i > 0         ? ", "
                    : buzzing > 0 ? "first "
                                  : "",
                    note->string);
        if (note->note > 0)
            strbuf_addf(&text, "at fret %d", note->note);
        else
            strbuf_add(&text, "open");
    }
    strbuf_add(&text, "; worked out, so believe the ear first.");
    sheet_add_text(maker->sheet, SHEET_ITEM, memory);
}

/* The moisture on file that is farthest from the present one. */
static double far_end(const struct survey_season *season)
{
    return season->dampest_pct - season->emc_pct.value > season->emc_pct.value - season->driest_pct
               ? season->dampest_pct
               : season->driest_pct;
}

/* The change and the relief to expect at that moisture; false if the record does not tell. */
static bool find_far_relief(const struct sheet_maker *maker, const struct survey_season *season,
                            double *ret_change_mm, double *ret_relief_mm)
{
    const struct maybe relief = figures_get(&maker->left.figures, FIGURE_RELIEF, 0);

    if (season->pairs == 0 || !season->emc_pct.given || !relief.given)
        return false;
    *ret_change_mm = season->relief_per_pct_mm * (far_end(season) - season->emc_pct.value);
    *ret_relief_mm = relief.value + *ret_change_mm;
    return true;
}

static void say_when(const struct sheet_maker *maker, int months, struct strbuf *out)
{
    const char *date = sheet_text_of(maker, reading_key_visit(FIELD_VISIT_DATE, maker->visit));
    int year, month;

    strbuf_add(out, "Next check: ");
    if (date && survey_season_month(date, months, &year, &month)) {
        strbuf_add(out, "about ");
        sheet_say_month(out, year, month);
        strbuf_add(out, ", ");
    }
    strbuf_add(out, months == YEAR ? "in a year" : "in half a year, when the air has turned");
    strbuf_add(out, ". That is an estimate");
}

static void say_prediction(const struct sheet_maker *maker, const struct survey_season *season,
                           double change_mm, double relief_mm, struct strbuf *out)
{
    const bool dry = far_end(season) < season->emc_pct.value;

    strbuf_addf(out, " from %s: in the %s air on file (EMC ",
                season->pairs > 1 ? "what it did between its visits"
                                  : "what it did between two visits",
                dry ? "driest" : "dampest");
    sheet_say_pct(out, far_end(season), 1);
    strbuf_add(out, ") the relief would change by ");
    sheet_say_change(out, change_mm, &maker->ask->units, MEASURE_FEELER);
    strbuf_add(out, ", to about ");
    sheet_say_length(out, relief_mm, &maker->ask->units, MEASURE_FEELER);
    strbuf_add_char(out, '.');
}

/* A year for a neck that stays put in all the air on file. */
static int months_to_check(const struct sheet_maker *maker)
{
    struct survey_season season;
    double change = 0, relief = 0;

    survey_season_find(maker->record, maker->visit, &season);
    const bool predicted = find_far_relief(maker, &season, &change, &relief);
    const bool still = predicted && fabs(change) <= maker->left.setup.relief_tolerance_mm &&
                       season.dampest_pct - season.driest_pct > 2;
    return still ? YEAR : HALF_YEAR;
}

static void add_next_check(struct sheet_maker *maker)
{
    struct survey_season season;
    char memory[640];
    struct strbuf text = STRBUF(memory);
    double change = 0, relief = 0;

    survey_season_find(maker->record, maker->visit, &season);
    const bool predicted = find_far_relief(maker, &season, &change, &relief);

    say_when(maker, months_to_check(maker), &text);
    if (predicted && fabs(far_end(&season) - season.emc_pct.value) >= SURVEY_SEASON_LEAST_PCT)
        say_prediction(maker, &season, change, relief, &text);
    else
        strbuf_add(&text, " by common practice: what is on file does not tell yet how this neck "
                          "follows the seasons.");
    sheet_add_text(maker->sheet, SHEET_ITEM, memory);
}

bool sheet_say_check(const struct sheet_maker *maker, struct strbuf *out)
{
    const char *date = sheet_text_of(maker, reading_key_visit(FIELD_VISIT_DATE, maker->visit));
    int year, month;

    if (maker->last == 0 || !date ||
        !survey_season_month(date, months_to_check(maker), &year, &month))
        return false;
    strbuf_add(out, "Next check: about ");
    sheet_say_month(out, year, month);
    return true;
}

void sheet_make_watch(struct sheet_maker *maker)
{
    if (maker->last == 0)
        return;
    sheet_add_heading(maker->sheet, "What to watch");
    add_saddle(maker);
    add_notes(maker);
    sheet_add_findings(maker, WEIGHT_CAUTION);
    sheet_add_text(
        maker->sheet, SHEET_ITEM,
        "Air: most instruments do best at 40 to 60\xC2\xA0% humidity (common practice). Come "
        "sooner when the action changes, a string buzzes or a crack shows.");
    add_next_check(maker);
}
