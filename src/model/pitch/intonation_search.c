/* SPDX-License-Identifier: MIT */
#include "model/pitch/intonation.h"

#include <math.h>
#include <stdbool.h>
#include <stddef.h>

#include "model/common/least_squares.h"

/* Far more steps than any search here needs; they only keep odd input from going on. */
enum { STEPS_MAX = 60, HALVINGS_MAX = 40 };

/* A step this small, mm, is the last one. Newton's steps shrink so fast that what is left
 * after it is smaller by orders. */
#define LAST_STEP_MM 1e-6

enum status intonation_find_setback(const struct intonation_setup *setup, int fret,
                                    double *ret_setback_mm)
{
    double low = -setup->scale_mm / 4, high = setup->scale_mm / 4;
    struct intonation_ends ends = {0, 0};

    if (fret == 0)
        return STATUS_DOMAIN;
    for (int step = 0; step < STEPS_MAX; step++) {
        struct intonation_note note;
        struct intonation_slope slope;
        enum status status = intonation_find_note(setup, &ends, fret, &note, &slope);

        if (status != STATUS_OK)
            return status;
        /* A longer string is a flatter note, so the sign says on which side the root is. */
        if (note.cents > 0)
            low = ends.setback_mm;
        else
            high = ends.setback_mm;

        double next = ends.setback_mm - note.cents / slope.setback;

        if (fabs(next - ends.setback_mm) <= LAST_STEP_MM) {
            *ret_setback_mm = next;
            return STATUS_OK;
        }
        ends.setback_mm = next > low && next < high ? next : (low + high) / 2;
    }
    return STATUS_NOT_CONVERGED;
}

/* The residuals over a span of frets, ready to be solved for a step in (s, v). */
static enum status gather(const struct intonation_setup *setup, const struct intonation_ends *ends,
                          int first, int last, struct least_squares *ret_sum)
{
    struct intonation_note notes[INTONATION_FRETS_MAX + 1];
    struct intonation_slope slopes[INTONATION_FRETS_MAX + 1];
    struct least_squares sum = {0};
    enum status status = intonation_find_notes(setup, ends, first, last, notes, slopes);

    if (status != STATUS_OK)
        return status;
    for (int i = 0; i <= last - first; i++)
        least_squares_add(&sum, slopes[i].setback, slopes[i].nut_advance, notes[i].cents);
    *ret_sum = sum;
    return STATUS_OK;
}

/* Goes along a step, halved until it gains something; false when it never does. */
static bool take_step(const struct intonation_setup *setup, int first, int last,
                      struct intonation_ends step, struct intonation_ends *ends,
                      struct least_squares *sum)
{
    double share = 1;

    for (int k = 0; k < HALVINGS_MAX; k++, share /= 2) {
        struct intonation_ends next = {ends->setback_mm + share * step.setback_mm,
                                       ends->nut_advance_mm + share * step.nut_advance_mm};
        struct least_squares there;

        if (gather(setup, &next, first, last, &there) == STATUS_OK && there.rr <= sum->rr) {
            *ends = next;
            *sum = there;
            return true;
        }
    }
    return false;
}

enum status intonation_find_best(const struct intonation_setup *setup, int first, int last,
                                 struct intonation_best *ret_best)
{
    struct intonation_ends ends = {0, 0};
    struct least_squares sum;

    if (first < 1 || last <= first)
        return STATUS_DOMAIN;

    enum status status = gather(setup, &ends, first, last, &sum);

    for (int k = 0; status == STATUS_OK && k < STEPS_MAX; k++) {
        struct intonation_ends step;

        if (least_squares_solve(&sum, &step.setback_mm, &step.nut_advance_mm) != STATUS_OK)
            break;
        if (fmax(fabs(step.setback_mm), fabs(step.nut_advance_mm)) <= LAST_STEP_MM) {
            /* So near the bottom the step no longer changes what is left. */
            ends.setback_mm += step.setback_mm;
            ends.nut_advance_mm += step.nut_advance_mm;
            *ret_best = (struct intonation_best){ends, least_squares_rms(&sum)};
            return STATUS_OK;
        }
        if (!take_step(setup, first, last, step, &ends, &sum))
            break;
    }
    return status == STATUS_OK ? STATUS_NOT_CONVERGED : status;
}
