/* SPDX-License-Identifier: MIT */
#include "model/derive/buzz_cause.h"

#include <math.h>

#include "model/setup/rocker.h"

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

static int count_notes(uint64_t notes)
{
    int count = 0;

    for (; notes; notes &= notes - 1)
        count++;
    return count;
}

/* The fret found high that explains `notes` no worse than the best guess does, or, without a guess,
 * more of them than speak against it; 0 if none. */
static int find_rocked(struct place place, const struct derived *derived, int string,
                       const struct heard_notes *notes)
{
    const struct setup *setup = &derived->setup;
    const struct fret_clearance *clearance = &derived->clearance[string];
    const double u_mm = rocker_u_mm(&place.record);
    const int most = clearance->has_high ? clearance->high.buzz_left + clearance->high.clean_against
                                         : count_notes(notes->buzzing) - 1;
    enum clearance_heard heard[FRETS_MAX + 1];
    struct string_clearance arrays;
    struct clearance_string line;

    derive_heard(notes, heard);
    if (!derive_string_clearance(&place.record, setup, &derived->string[string], &derived->lines,
                                 &derived->pitch[string], string, &arrays, &line) ||
        !arrays.all_known)
        return 0;
    for (int n = line.open_note + 1; n <= setup->board.frets; n++) {
        if (!rocker_is_high(setup->spot_mm[n], u_mm))
            continue;
        const int misfit = find_misfit(&line, derived->touch.mm[string], heard, n);
        if (misfit >= 0 && misfit <= most)
            return n;
    }
    return 0;
}

static enum buzz_cause judge_high(const struct setup *setup, const struct clearance_high_fret *high,
                                  double u_mm)
{
    const int fret = high->fret;
    const bool beside =
        rocker_is_high(setup->spot_mm[fret - 1], u_mm) ||
        (fret < setup->board.frets && rocker_is_high(setup->spot_mm[fret + 1], u_mm));

    if (setup->spot_mm[fret].given || (high->least_mm < MOVE_CROWN_MM && !high->bounded))
        return BUZZ_AS_READ;
    if (beside || (high->least_mm > BUZZ_HIGH_MOST_MM && setup_is_rocked(setup)))
        return BUZZ_UNFIT;
    if (high->least_mm > BUZZ_HIGH_MOST_MM || high->clean_against > 0 ||
        (high->bounded && high->most_mm - high->least_mm > high->least_mm - MOVE_CROWN_MM))
        return BUZZ_UNSURE;
    return BUZZ_HIGH;
}

/* Of the frets where notes are stopped, those that were not rocked: a string's own nut is none. */
static uint64_t find_unrocked(const struct setup *setup, int start, uint64_t notes)
{
    uint64_t unrocked = 0;

    for (int n = start + 1; n <= setup->board.frets; n++)
        if (notes >> n & 1 && !setup->spot_mm[n].given)
            unrocked |= UINT64_C(1) << n;
    return unrocked;
}

/* Of these, those that lie beside frets found low: wear does not end at once. */
static uint64_t find_beside(uint64_t low, uint64_t unrocked)
{
    uint64_t found = 0;

    for (int n = 1; n <= FRETS_MAX; n++)
        if (((low | found) << 1 | low >> 1) & unrocked & UINT64_C(1) << n)
            found |= UINT64_C(1) << n;
    return found;
}

/* Whether the fret ahead of the last of the notes was rocked, and does not stand high. */
static bool is_level_ahead(const struct setup *setup, uint64_t notes, double u_mm)
{
    int last = 0;

    while (last < FRETS_MAX && notes >> (last + 1) != 0)
        last++;
    return last < setup->board.frets && setup->spot_mm[last + 1].given &&
           !rocker_is_high(setup->spot_mm[last + 1], u_mm);
}

static void guess(const struct derived *derived, int string, uint64_t buzzing, double u_mm,
                  struct buzz *buzz)
{
    const struct setup *setup = &derived->setup;
    const struct fret_clearance *clearance = &derived->clearance[string];
    const uint64_t unrocked = find_unrocked(setup, setup->board.start_fret[string], buzzing);

    buzz->cause = BUZZ_UNEXPLAINED;
    if (clearance->has_high) {
        buzz->cause = judge_high(setup, &clearance->high, u_mm);
        buzz->fret = clearance->high.fret;
    }
    if (buzz->cause != BUZZ_HIGH && buzz->cause != BUZZ_AS_READ && unrocked != 0 &&
        is_level_ahead(setup, buzzing, u_mm))
        *buzz = (struct buzz){.cause = BUZZ_WORN, .rock = unrocked};
}

void buzz_find(struct place place, const struct derived *derived, int string,
               const struct heard_notes *notes, struct buzz *ret_buzz)
{
    const struct setup *setup = &derived->setup;
    const double u_mm = rocker_u_mm(&place.record);
    struct buzz buzz = {.low = rocker_find_low(setup->spot_mm, notes->buzzing, u_mm)};
    struct heard_notes left = *notes;

    left.buzzing &= ~buzz.low;
    if (left.buzzing != 0)
        buzz.fret = find_rocked(place, derived, string, &left);
    if (notes->buzzing == 0) {
        buzz.cause = BUZZ_NONE;
    } else if (buzz.fret > 0) {
        buzz.cause = BUZZ_ROCKED;
    } else if (buzz.low != 0) {
        buzz.cause = BUZZ_LOW;
        buzz.rock = find_beside(
            buzz.low, find_unrocked(setup, setup->board.start_fret[string], left.buzzing));
    } else {
        guess(derived, string, notes->buzzing, u_mm, &buzz);
    }
    *ret_buzz = buzz;
}
