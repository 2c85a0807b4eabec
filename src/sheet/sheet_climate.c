/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "model/derive/derive_climate.h"
#include "model/survey/survey_movement.h"
#include "sheet/sheet_parts.h"
#include "sheet/sheet_say.h"
#include "model/survey/survey_season.h"

/* The shop's air, and what it does to the wood. */

static struct maybe visit_value(const struct sheet_maker *maker, enum field_id field)
{
    return record_entered(maker->record, reading_key_visit(field, maker->visit));
}

static void say_air(const struct sheet_maker *maker, struct strbuf *out)
{
    const struct maybe humidity = visit_value(maker, FIELD_HUMIDITY);
    const struct maybe temperature = visit_value(maker, FIELD_TEMPERATURE);

    strbuf_add(out, "In the shop: ");
    if (humidity.given) {
        sheet_say_pct(out, humidity.value, 0);
        strbuf_add(out, " humidity");
    }
    if (temperature.given) {
        strbuf_add(out, humidity.given ? " at " : "");
        sheet_say_temperature(out, temperature.value, &maker->ask->units);
    }
    strbuf_add_char(out, '.');
}

static const char *visit_date(const struct sheet_maker *maker, int visit)
{
    return sheet_text_of(maker, reading_key_visit(FIELD_VISIT_DATE, visit));
}

static void say_visit(const struct sheet_maker *maker, int visit, struct strbuf *out)
{
    const char *date = visit_date(maker, visit);

    if (date)
        sheet_say_date(out, date);
    else
        strbuf_addf(out, "visit %d", visit);
}

/* How much the board moved at its widest known place, as a range from one cut of the wood to the
 * other; false if that is not known. */
static bool find_board(const struct sheet_maker *maker, struct survey_movement *movement,
                       const struct maybe **ret_mm)
{
    *movement = (struct survey_movement){.visit = 0};
    while (movement->visit < maker->visit && survey_movement_next(maker->record, movement))
        continue;
    if (movement->visit != maker->visit || movement->since == 0)
        return false;
    for (int place = MOVEMENT_PLACES_ - 1; place >= 0; place--) {
        *ret_mm = movement->mm[MOVEMENT_BOARD][place];
        if ((*ret_mm)[WOOD_RADIAL].given && (*ret_mm)[WOOD_TANGENTIAL].given)
            return true;
    }
    return false;
}

static void say_board(const struct sheet_maker *maker, struct strbuf *out)
{
    const struct maybe *mm;
    struct survey_movement movement;

    if (!find_board(maker, &movement, &mm))
        return;
    const double least = fmin(fabs(mm[WOOD_RADIAL].value), fabs(mm[WOOD_TANGENTIAL].value));
    const double most = fmax(fabs(mm[WOOD_RADIAL].value), fabs(mm[WOOD_TANGENTIAL].value));
    const bool dried = movement.emc_change_pct < 0;

    if (most < 0.05)
        return;
    strbuf_add(out, " Left in such air, the fretboard in the end gets ");
    sheet_say_range(out, least, most, &maker->ask->units, MEASURE_FEELER);
    strbuf_add(out, dried ? " narrower: fret ends may be felt."
                          : " wider; fret ends may be felt when it dries again.");
}

static void say_relief(const struct sheet_maker *maker, double change_mm, struct strbuf *out)
{
    if (fabs(change_mm) < 0.013) {
        strbuf_add(out, "The relief has stayed as it was.");
        return;
    }
    strbuf_add(out, change_mm > 0 ? "The relief has grown by " : "The relief has shrunk by ");
    sheet_say_length(out, fabs(change_mm), &maker->ask->units, MEASURE_FEELER);
    strbuf_add_char(out, '.');
}

/* What the wood comes to in this air, from what it was at the visit before where that is known. */
static void say_wood(const struct sheet_maker *maker, struct strbuf *out)
{
    const struct maybe emc = derive_emc(maker->record, maker->visit);
    struct survey_season season;

    survey_season_find(maker->record, maker->visit, &season);
    if (season.pairs == 0 || season.after != maker->visit) {
        if (!emc.given)
            return;
        strbuf_add(out, " Kept in such air for weeks, wood comes to ");
        sheet_say_pct(out, emc.value, 1);
        strbuf_add(out, " moisture (EMC).");
        return;
    }
    strbuf_add(out, " Since ");
    say_visit(maker, season.before, out);
    strbuf_add(out, season.emc_change_pct < 0
                        ? " the air has become drier: kept in it for weeks, wood goes from "
                        : " the air has become damper: kept in it for weeks, wood goes from ");
    sheet_say_pct(out, season.emc_pct.value - season.emc_change_pct, 1);
    strbuf_add(out, " to ");
    sheet_say_pct(out, season.emc_pct.value, 1);
    strbuf_add(out, " moisture (EMC). ");
    say_relief(maker, season.relief_change_mm, out);
    say_board(maker, out);
}

void sheet_make_climate(struct sheet_maker *maker)
{
    char memory[640];
    struct strbuf text = STRBUF(memory);

    if (!visit_value(maker, FIELD_HUMIDITY).given && !visit_value(maker, FIELD_TEMPERATURE).given)
        return;
    sheet_add_heading(maker->sheet, "Climate");
    say_air(maker, &text);
    say_wood(maker, &text);
    sheet_add_text(maker->sheet, SHEET_PARAGRAPH, memory);
}
