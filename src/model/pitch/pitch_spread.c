/* SPDX-License-Identifier: MIT */
#include "model/pitch/pitch_spread.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "model/common/least_squares.h"

enum { OCTAVE_FRET = 12 };

static void clear(struct pitch_outcomes *outcomes)
{
    for (int i = 0; i < OUTCOME_COUNT_; i++)
        outcomes->at[i] = (double)NAN;
}

/* All at once, which is quicker; one by one where one of them is impossible. */
static void find_cents(const struct pitch_case *string, struct pitch_outcomes *outcomes)
{
    const struct intonation_setup *now = &string->now;
    double *cents = &outcomes->at[OUTCOME_OPEN];
    struct intonation_note note;

    if (!string->has_now || now->frets < 1)
        return;
    const enum status status = intonation_find_cents(now, &string->ends, cents);
    /* Without its mass, say, none is known. */
    if (status == STATUS_OK || status == STATUS_ABSENT)
        return;
    for (int n = 1; n <= now->frets; n++)
        if (intonation_find_note(now, &string->ends, n, &note, NULL) == STATUS_OK)
            cents[n] = note.cents;
}

void pitch_predict(const struct pitch_case *string, struct pitch_outcomes *ret_outcomes)
{
    struct intonation_best best;
    double setback_mm;

    clear(ret_outcomes);
    find_cents(string, ret_outcomes);
    if (!string->has_target)
        return;
    if (intonation_find_setback(&string->target, OCTAVE_FRET, &setback_mm) == STATUS_OK)
        ret_outcomes->at[OUTCOME_SETBACK] = setback_mm;
    if (intonation_find_best(&string->target, 1, OCTAVE_FRET, &best) != STATUS_OK)
        return;
    ret_outcomes->at[OUTCOME_SETBACK_BEST] = best.ends.setback_mm;
    ret_outcomes->at[OUTCOME_NUT_BEST] = best.ends.nut_advance_mm;
}

static void step_setback(const struct intonation_setup *target, double centre_mm,
                         double *ret_setback_mm)
{
    const struct intonation_ends ends = {centre_mm, 0};
    struct intonation_note note;
    struct intonation_slope slope;

    if (isfinite(centre_mm) &&
        intonation_find_note(target, &ends, OCTAVE_FRET, &note, &slope) == STATUS_OK)
        *ret_setback_mm = centre_mm - note.cents / slope.setback;
}

static void step_best(const struct intonation_setup *target, const struct intonation_ends *centre,
                      struct pitch_outcomes *outcomes)
{
    struct intonation_note notes[OCTAVE_FRET];
    struct intonation_slope slopes[OCTAVE_FRET];
    struct least_squares sum = {0};
    struct intonation_ends step;

    if (!isfinite(centre->setback_mm + centre->nut_advance_mm) ||
        intonation_find_notes(target, centre, 1, OCTAVE_FRET, notes, slopes) != STATUS_OK)
        return;
    for (int i = 0; i < OCTAVE_FRET; i++)
        least_squares_add(&sum, slopes[i].setback, slopes[i].nut_advance, notes[i].cents);
    if (least_squares_solve(&sum, &step.setback_mm, &step.nut_advance_mm) != STATUS_OK)
        return;
    outcomes->at[OUTCOME_SETBACK_BEST] = centre->setback_mm + step.setback_mm;
    outcomes->at[OUTCOME_NUT_BEST] = centre->nut_advance_mm + step.nut_advance_mm;
}

static void step_all(const struct pitch_case *string, const struct pitch_outcomes *centre,
                     struct pitch_outcomes *outcomes)
{
    const struct intonation_ends best = {centre->at[OUTCOME_SETBACK_BEST],
                                         centre->at[OUTCOME_NUT_BEST]};

    if (!string->has_target)
        return;
    step_setback(&string->target, centre->at[OUTCOME_SETBACK], &outcomes->at[OUTCOME_SETBACK]);
    step_best(&string->target, &best, outcomes);
}

void pitch_predict_near(const struct pitch_case *string, const struct pitch_outcomes *centre,
                        struct pitch_outcomes *ret_outcomes)
{
    clear(ret_outcomes);
    find_cents(string, ret_outcomes);
    step_all(string, centre, ret_outcomes);
}

static bool same_conditions(const struct intonation_conditions *a,
                            const struct intonation_conditions *b)
{
    return a->press_distance_mm == b->press_distance_mm && a->press_depth_mm == b->press_depth_mm &&
           a->free_length_mm == b->free_length_mm && a->clamped_ends == b->clamped_ends;
}

static bool same_material(const struct intonation_setup *a, const struct intonation_setup *b)
{
    return a->mass_kg_per_m == b->mass_kg_per_m && a->hz == b->hz &&
           a->core.diameter_mm == b->core.diameter_mm && a->core.area_mm2 == b->core.area_mm2 &&
           a->core.second_moment_mm4 == b->core.second_moment_mm4 &&
           a->modulus_mpa == b->modulus_mpa;
}

/* The frets stand where they are in either. */
static bool same_heights(const struct intonation_setup *a, const struct intonation_setup *b)
{
    return a->nut_height_mm == b->nut_height_mm && a->saddle_height_mm == b->saddle_height_mm &&
           memcmp(a->crown_mm, b->crown_mm, ((size_t)a->frets + 1) * sizeof a->crown_mm[0]) == 0;
}

static bool same_setup(const struct intonation_setup *a, const struct intonation_setup *b)
{
    return same_heights(a, b) && same_material(a, b) &&
           same_conditions(&a->conditions, &b->conditions);
}

void pitch_predict_beside(const struct pitch_case *string, const struct pitch_outcomes *centre,
                          const struct pitch_case *known, const struct pitch_outcomes *there,
                          struct pitch_outcomes *ret_outcomes)
{
    clear(ret_outcomes);
    if (string->has_now && known->has_now && same_setup(&string->now, &known->now) &&
        string->ends.setback_mm == known->ends.setback_mm &&
        string->ends.nut_advance_mm == known->ends.nut_advance_mm)
        memcpy(&ret_outcomes->at[OUTCOME_OPEN], &there->at[OUTCOME_OPEN],
               (OUTCOME_COUNT_ - OUTCOME_OPEN) * sizeof there->at[0]);
    else
        find_cents(string, ret_outcomes);
    if (string->has_target && known->has_target && same_setup(&string->target, &known->target))
        memcpy(ret_outcomes->at, there->at, OUTCOME_OPEN * sizeof there->at[0]);
    else
        step_all(string, centre, ret_outcomes);
}

void pitch_spread_begin(const struct pitch_outcomes *centre, struct pitch_spread *spread)
{
    *spread = (struct pitch_spread){.centre = *centre};
}

void pitch_spread_shift(struct pitch_spread *spread, const struct pitch_outcomes *there)
{
    for (int i = 0; i < OUTCOME_COUNT_; i++)
        spread->cumulant[i][0] += there->at[i] - spread->centre.at[i];
}

/* By E (a x + b x^2)^k for k of 1 to 4; moment[k - 1] is E x^k. */
static void add_parabola(double a, double b, const double moment[],
                         double cumulant[PITCH_CUMULANTS])
{
    const double a2 = a * a, b2 = b * b;
    const double m1 = a * moment[0] + b * moment[1];
    const double m2 = a2 * moment[1] + 2 * a * b * moment[2] + b2 * moment[3];
    const double m3 =
        a2 * a * moment[2] + 3 * a2 * b * moment[3] + 3 * a * b2 * moment[4] + b2 * b * moment[5];
    const double m4 = a2 * a2 * moment[3] + 4 * a2 * a * b * moment[4] + 6 * a2 * b2 * moment[5] +
                      4 * a * b2 * b * moment[6] + b2 * b2 * moment[7];
    const double variance = m2 - m1 * m1;

    cumulant[0] += m1;
    cumulant[1] += variance;
    cumulant[2] += m3 - 3 * m1 * m2 + 2 * m1 * m1 * m1;
    cumulant[3] +=
        m4 - 4 * m1 * m3 + 6 * m1 * m1 * m2 - 3 * m1 * m1 * m1 * m1 - 3 * variance * variance;
}

void pitch_spread_add(struct pitch_spread *spread, enum pitch_assumption_shape shape,
                      const struct pitch_outcomes *middle,
                      const struct pitch_outcomes tries[PITCH_ASSUMPTION_POINTS])
{
    const struct pitch_assumption_ways *ways = pitch_assumption_ways(shape);
    const double mean = ways->moment[0], x0 = ways->at[0] - mean, x1 = ways->at[1] - mean;

    for (int i = 0; i < OUTCOME_COUNT_; i++) {
        if (isnan(spread->centre.at[i]))
            continue;
        /* Rises per x from the mean, of which b is the difference. */
        const double first = (tries[0].at[i] - middle->at[i]) / x0;
        const double second = (tries[1].at[i] - middle->at[i]) / x1;
        const double b = (second - first) / (x1 - x0), a = first - b * x0;

        /* The same parabola about the centre, where the moments are. */
        spread->cumulant[i][0] += b * mean * mean - a * mean;
        add_parabola(a - 2 * b * mean, b, ways->moment, spread->cumulant[i]);
    }
}

void pitch_spread_add_product(struct pitch_spread *spread, const struct pitch_outcomes *middle,
                              const struct pitch_outcomes *one, const struct pitch_outcomes *other,
                              const struct pitch_outcomes *both, double share)
{
    for (int i = 0; i < OUTCOME_COUNT_; i++) {
        const double product = both->at[i] - one->at[i] - other->at[i] + middle->at[i];

        spread->cumulant[i][1] += share * product * product;
    }
}

/* P(X <= x) of a sum with these cumulants. */
static double share_below(const double cumulant[PITCH_CUMULANTS], double x)
{
    const double deviation = sqrt(cumulant[1]), z = (x - cumulant[0]) / deviation, z2 = z * z;
    const double skew = cumulant[2] / (deviation * cumulant[1]);
    const double excess = cumulant[3] / (cumulant[1] * cumulant[1]);
    const double density = exp(-z2 / 2) / sqrt(2 * M_PI);

    return erfc(-z / sqrt(2)) / 2 - density * (skew / 6 * (z2 - 1) + excess / 24 * z * (z2 - 3) +
                                               skew * skew / 72 * z * (z2 * z2 - 10 * z2 + 15));
}

/* 2 sqrt(mean square): U where all is normal. */
static double size_of(const double cumulant[PITCH_CUMULANTS])
{
    return 2 * sqrt(fmax(cumulant[1] + cumulant[0] * cumulant[0], 0));
}

double pitch_spread_u(const struct pitch_spread *spread, int outcome)
{
    enum { HALVINGS = 16 };
    const double *cumulant = spread->cumulant[outcome];
    const double size = size_of(cumulant), share = 0.9545;
    double low = size / 2, high = 1.5 * size;

    if (isnan(spread->centre.at[outcome]))
        return 0;
    if (!isfinite(size + cumulant[2] + cumulant[3]))
        return (double)INFINITY;
    if (!(cumulant[1] > 0))
        return fabs(cumulant[0]);
    for (int k = 0; k < HALVINGS; k++) {
        const double middle = (low + high) / 2;

        if (share_below(cumulant, middle) - share_below(cumulant, -middle) < share)
            low = middle;
        else
            high = middle;
    }
    return high;
}
