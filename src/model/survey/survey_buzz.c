/* SPDX-License-Identifier: MIT */
#include "model/survey/survey_buzz.h"

static bool find_margins(const struct clearance_string *string, struct survey_buzz *buzz)
{
    for (int n = string->open_note; n < buzz->high.fret; n++)
        if (clearance_find_margin(string, n, buzz->high.fret, buzz->touch_mm,
                                  &buzz->margin_mm[n]) != STATUS_OK)
            return false;
    return true;
}

/* The notes that speak against the fret. What it must stand higher by is no less than 0, but
 * a clean note is weighed against the bare margin of the buzzing one. */
static void find_misfits(struct survey_buzz *buzz)
{
    const uint64_t below = (UINT64_C(1) << buzz->high.fret) - 1;
    const double least_mm = buzz->margin_mm[buzz->high.least_note];

    buzz->misfit = buzz->high.buzz_left + buzz->high.clean_against;
    buzz->unexplained = buzz->buzzing & ~below;
    for (int n = 0; n < buzz->high.fret; n++)
        if (buzz->clean >> n & 1 && buzz->margin_mm[n] < least_mm)
            buzz->against |= UINT64_C(1) << n;
}

void survey_buzz(struct place place, const struct derived *derived, int string,
                 struct survey_buzz *ret_buzz)
{
    struct survey_buzz buzz = {.touch_mm = derived->touch.mm[string]};
    struct string_clearance arrays;
    struct clearance_string line;

    const struct heard_notes notes = heard_at(
        place, string, derived->setup.board.start_fret[string], derived->setup.board.frets);
    buzz_find(place, derived, string, &notes, &buzz.found);
    buzz.buzzing = notes.buzzing;
    buzz.clean = notes.clean;
    buzz.heard = buzz.buzzing != 0;
    buzz.rocker_mm = maybe_or(derived->setup.spot_mm[buzz.found.fret], 0);
    buzz.explained =
        buzz.heard && derived->clearance[string].has_high &&
        derive_string_clearance(&place.record, &derived->setup, &derived->string[string],
                                &derived->lines, &derived->pitch[string], string, &arrays, &line);
    if (buzz.explained) {
        buzz.high = derived->clearance[string].high;
        buzz.explained = find_margins(&line, &buzz);
        find_misfits(&buzz);
    }
    *ret_buzz = buzz;
}
