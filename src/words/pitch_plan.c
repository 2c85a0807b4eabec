/* SPDX-License-Identifier: MIT */
#include "words/pitch_plan.h"

#include <math.h>
#include <stdlib.h>

#include "model/derive/derive_saddle_fit.h"
#include "model/pitch/intonation_reading.h"
#include "model/reading/work_reach.h"
#include "model/setup/uncertainty.h"

/* The reading that the saddle is set by: of the octave, as is usual in the trade. */
static const struct fret_cents *leading_reading(const struct cents_read *read, int octave)
{
    const struct fret_cents *best = &read->at[0];

    for (int i = 1; i < read->count; i++)
        if (abs(read->at[i].fret - octave) < abs(best->fret - octave))
            best = &read->at[i];
    return best;
}

/* The change, with its uncertainty by a central difference, as in derive_cents_read for a string
 * with one reading. */
static bool find_change(const struct board *board, int string, const struct fret_cents *reading,
                        double step, struct pitch_move *move)
{
    const double open_mm = board->contact_mm[string];
    const double fret_mm = board->station_mm[string][reading->fret];
    const double delta = step > 0 ? step / 64 : 1.0 / 64;
    double change, low, high;

    if (intonation_setback_change(open_mm, fret_mm, reading->cents, &change) != STATUS_OK ||
        intonation_setback_change(open_mm, fret_mm, reading->cents - delta, &low) != STATUS_OK ||
        intonation_setback_change(open_mm, fret_mm, reading->cents + delta, &high) != STATUS_OK)
        return false;
    move->change_mm = change;
    move->change_u_mm = 2 * uncertainty_of_step(step) * fabs(high - low) / (2 * delta);
    return true;
}

static void find_fit(const struct figures *figures, int string, struct pitch_move *move)
{
    const struct maybe setback_mm = figures_get(figures, FIGURE_SETBACK_FIT, string);
    const struct maybe nut_mm = figures_get(figures, FIGURE_NUT_ADVANCE_FIT, string);
    const struct maybe cents = figures_get(figures, FIGURE_CENTS_LEFT_RMS, string);

    move->has_fit = setback_mm.given && nut_mm.given && cents.given;
    move->fit_setback_mm = setback_mm.value;
    move->fit_nut_mm = nut_mm.value;
    move->fit_cents = cents.value;
    move->fit_setback_u_mm = figures->at[FIGURE_SETBACK_FIT][string].u;
    move->fit_nut_u_mm = figures->at[FIGURE_NUT_ADVANCE_FIT][string].u;
}

/* Without its setback a string's saddle is taken to stand at the scale length. That is near enough
 * to reckon a change from, but no place to mark. */
static struct maybe contact_of(const struct setup *setup, int string)
{
    return setup->setback[string].mm.given ? maybe_given(setup->board.contact_mm[string])
                                           : (struct maybe){.given = false};
}

static void find_move(const struct derived *derived, int string, const struct cents_read *read,
                      double step, double tolerance, struct pitch_move *move)
{
    const struct board *board = &derived->setup.board;

    *move = (struct pitch_move){.state = PITCH_UNREAD,
                                .count = read->count,
                                .octave = outfit_octave_fret(&derived->setup.outfit, string)};
    if (read->count == 0)
        return;
    const struct fret_cents *leading = leading_reading(read, move->octave);
    move->fret = leading->fret;
    move->cents = leading->cents;
    move->has_change = find_change(board, string, leading, step, move);
    find_fit(&derived->figures, string, move);
    if (move->has_change && derived->setup.intonation_thread_mm.given)
        move->turns = maybe_finite(move->change_mm / derived->setup.intonation_thread_mm.value);
    if (fabs(move->cents) <= tolerance)
        move->state = PITCH_IN_TUNE;
    else if (move->has_change && fabs(move->change_mm) <= move->change_u_mm)
        move->state = PITCH_WITHIN;
    else
        move->state = PITCH_DUE;
}

/* The cents of the string after the moves, with nut and saddle at their best. */
static void find_best(const struct record *record, const struct derived *derived, int string,
                      struct maybe cents[FRETS_MAX + 1])
{
    const struct string_lines *lines = &derived->lines;
    const struct board *board = &derived->setup.board;
    struct intonation_setup setup;
    const struct maybe setback_mm = figures_get(&derived->figures, FIGURE_SETBACK_BEST, string);
    const struct maybe nut_mm = figures_get(&derived->figures, FIGURE_NUT_ADVANCE_BEST, string);
    const struct intonation_ends ends = {setback_mm.value, nut_mm.value};
    double crown_mm[FRETS_MAX + 1], best[FRETS_MAX + 1];

    if (!lines->after[string].known || !setback_mm.given || !nut_mm.given ||
        !derive_intonation_setup(record, &derived->setup, &derived->string[string], lines, string,
                                 crown_mm, &setup))
        return;
    for (int n = 0; n <= board->frets; n++)
        crown_mm[n] = neck_curve_height_mm(&lines->curve_after, board, string, n);
    setup.nut_height_mm = lines->after[string].nut_mm;
    setup.saddle_height_mm = lines->after[string].saddle_mm;
    if (intonation_find_cents(&setup, &ends, best) != STATUS_OK)
        return;
    for (int n = 0; n <= setup.frets; n++)
        cents[board->start_fret[string] + n] = maybe_given(best[n]);
}

/* Nothing unless every string's setback is predicted. */
static struct saddle_fit fit_predicted(const struct record *record, const struct derived *derived)
{
    struct maybe predicted_mm[STRINGS_MAX + 1] = {{.given = false}};

    for (int s = 1; s <= derived->setup.board.strings; s++) {
        predicted_mm[s] = figures_get(&derived->figures, FIGURE_SETBACK_PREDICTED, s);
        if (!predicted_mm[s].given)
            return (struct saddle_fit){.known = false};
    }
    return derive_saddle_fit(record, derived, predicted_mm);
}

static void find_saddle(const struct record *record, const struct derived *derived,
                        struct pitch_plan *plan)
{
    plan->saddle = derived->moves.move[MOVE_PITCH].saddle;
    if (plan->saddle.known)
        return;
    plan->saddle = fit_predicted(record, derived);
    plan->saddle_is_predicted = plan->saddle.known;
}

/* What the work since has changed of it. */
static void find_done(struct place place, const struct move *pitch, struct pitch_plan *plan)
{
    plan->waits = pitch->state == MOVE_WAITS ? pitch->waits : WAIT_NOTHING;
    for (int s = 1; s <= plan->strings && pitch->done_by > 0; s++)
        if (plan->string[s].state == PITCH_DUE && work_reaches(place, pitch->done_by, s))
            plan->string[s].state = PITCH_MOVED;
}

void pitch_plan_make(struct place place, const struct derived *derived, int string,
                     struct pitch_plan *ret_plan)
{
    const struct record *record = &place.record;
    const struct board *board = &derived->setup.board;
    const double step = record_or_fallback(record, FIELD_TUNER_STEP);

    *ret_plan =
        (struct pitch_plan){.outfit = derived->setup.outfit,
                            .tolerance_cents = record_or_fallback(record, FIELD_CENTS_TOLERANCE)};
    if (!derived->setup.has_board)
        return;
    ret_plan->strings = board->strings;
    for (int s = 1; s <= board->strings; s++) {
        const struct cents_read read = derive_read_cents(place, board, s);

        find_move(derived, s, &read, step, ret_plan->tolerance_cents, &ret_plan->string[s]);
        ret_plan->string[s].contact_mm = contact_of(&derived->setup, s);
        ret_plan->string[s].contact_is_expected = derived->setup.setback[s].is_expected;
        if (s == string)
            ret_plan->curve = (struct pitch_curve){.string = s, .read = read};
    }
    find_done(place, &derived->moves.move[MOVE_PITCH], ret_plan);
    find_saddle(record, derived, ret_plan);
    if (ret_plan->curve.string > 0)
        find_best(record, derived, string, ret_plan->curve.best_cents);
}
