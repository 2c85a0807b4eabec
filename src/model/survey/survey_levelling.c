/* SPDX-License-Identifier: MIT */
#include "model/survey/survey_levelling.h"

#include <math.h>

#include "model/reading/record_access.h"
#include "model/reading/work_mark.h"
#include "model/setup/rocker.h"
#include "model/setup/uncertainty.h"

/* An offset smaller than this is what rounding left of a curve through its readings. */
#define OFFSET_ROUNDING_MM 1e-9

static void find_offsets(const struct setup *setup, const struct string_lines *lines,
                         double offset_mm[FRETS_MAX + 1])
{
    for (int n = 0; n <= setup->board.frets; n++) {
        const double offset =
            lines->has_now ? lines->curve_now.offset_mm[n] : maybe_or(setup->spot_mm[n], 0);

        offset_mm[n] = fabs(offset) < OFFSET_ROUNDING_MM ? 0 : offset;
    }
}

/* The crown that was read last, else the usual one, less what came off it since: by work lines that
 * mark the frets level, the last spot that was rocked before them. */
static struct maybe crown_left(struct place place, int fret, struct maybe usual)
{
    const double u_mm = rocker_u_mm(&place.record);
    struct maybe crown = place_read_at(place, FIELD_CROWN, 0, fret);
    double taken_mm = 0;
    int dressed = 0; /* the visit in which a line marks it so, its spot still to be found */

    while (!crown.given && place_before(&place)) {
        const struct maybe spot = place_read_at(place, FIELD_SPOT, 0, fret);

        if (work_mark_line(place, MOVE_FRETS) > 0)
            dressed = place.visit;
        if (dressed == place.visit && spot.given) {
            taken_mm += rocker_is_high(spot, u_mm) ? spot.value : 0;
            dressed = 0;
        }
        crown = place_read_at(place, FIELD_CROWN, 0, fret);
    }
    if (!crown.given)
        crown = usual;
    crown.value -= taken_mm;
    return crown;
}

/* None on a board without frets. */
static void find_crowns(struct place place, const struct setup *setup,
                        struct maybe crown_mm[FRETS_MAX + 1])
{
    const struct maybe usual = record_entered_one(&place.record, FIELD_CROWN_HEIGHT);
    const bool has_crowns = outfit_asks(&setup->outfit, FIELD_CROWN, 0);

    for (int n = 0; n <= setup->board.frets; n++)
        crown_mm[n] = maybe_absent();
    for (int n = 0; n <= setup->board.frets && has_crowns; n++)
        crown_mm[n] = crown_left(place, n, usual);
}

/* To the level of the lowest, two readings make the amount. */
static double take_u(const struct setup *setup, enum levelling_plan plan)
{
    const double one = 2 * uncertainty_of_step(setup_step_mm(setup, FIELD_SPOT));

    return plan == LEVELLING_FULL ? one * sqrt(2) : one;
}

void survey_levelling(struct place place, const struct setup *setup,
                      const struct string_lines *lines, struct survey_levelling *ret_levelling,
                      struct findings *findings)
{
    struct survey_levelling survey = {.frets = setup->board.frets,
                                      .least_crown_mm = LEVELLING_LEAST_CROWN_MM};
    const bool curve_tells = lines->has_now && setup->relief_count > 1;
    double offset_mm[FRETS_MAX + 1];
    struct maybe crown_mm[FRETS_MAX + 1];

    *ret_levelling = (struct survey_levelling){.known = false};
    if (!setup->has_board || !(curve_tells || setup_is_rocked(setup)))
        return;
    find_offsets(setup, lines, offset_mm);
    find_crowns(place, setup, crown_mm);
    for (int plan = 0; plan < LEVELLING_PLANS; plan++) {
        if (levelling_make_plan((enum levelling_plan)plan, survey.frets, offset_mm, crown_mm,
                                survey.least_crown_mm, survey.fret[plan],
                                &survey.summary[plan]) != STATUS_OK)
            return;
        if (!curve_tells)
            survey.take_u_mm[plan] = take_u(setup, (enum levelling_plan)plan);
    }
    survey.known = true;
    *ret_levelling = survey;
    if (survey.summary[LEVELLING_SPOTS].too_low_count > 0)
        findings_add(findings, FINDING_CROWN_LOW, survey.summary[LEVELLING_SPOTS].least_left_fret);
}
