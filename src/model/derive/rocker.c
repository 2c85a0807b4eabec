/* SPDX-License-Identifier: MIT */
#include "model/derive/rocker.h"

#include <math.h>

#include "model/derive/derive_heard_moves.h"

bool rocker_is_high(struct maybe spot_mm)
{
    return spot_mm.given && spot_mm.value >= MOVE_CROWN_MM;
}

/* How many notes speak against a fret, as clearance_find_high_fret counts them; -1 where no note
 * buzzes below it. */
static int find_misfit(const struct clearance_string *string, double touch_mm,
                       const enum clearance_heard *heard, int fret)
{
    double margin_mm[FRETS_MAX + 1] = {0};
    double most_mm = -(double)INFINITY;
    int misfit = 0;

    for (int n = string->open_note; n < fret; n++)
        if (clearance_find_margin(string, n, fret, touch_mm, &margin_mm[n]) != STATUS_OK)
            return -1;
    for (int n = string->open_note; n < fret; n++)
        if (heard[n] == CLEARANCE_BUZZES)
            most_mm = fmax(most_mm, margin_mm[n]);
    if (!isfinite(most_mm))
        return -1;
    for (int n = string->open_note; n <= string->last_fret; n++)
        misfit += n < fret ? heard[n] == CLEARANCE_CLEAN && margin_mm[n] < most_mm
                           : heard[n] == CLEARANCE_BUZZES;
    return misfit;
}

int rocker_find(struct place place, const struct derived *derived, int string,
                const enum clearance_heard *heard)
{
    const struct setup *setup = &derived->setup;
    const struct clearance_high_fret *high = &derived->clearance[string].high;
    struct string_clearance arrays;
    struct clearance_string line;

    if (!derived->clearance[string].has_high ||
        !derive_string_clearance(&place.record, setup, &derived->string[string], &derived->lines,
                                 &derived->pitch[string], string, &arrays, &line))
        return 0;
    for (int n = 1; n <= setup->board.frets; n++) {
        if (!rocker_is_high(setup->spot_mm[n]))
            continue;
        const int misfit = find_misfit(&line, derived->touch.mm[string], heard, n);
        if (misfit >= 0 && misfit <= high->buzz_left + high->clean_against)
            return n;
    }
    return 0;
}
