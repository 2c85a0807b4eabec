/* SPDX-License-Identifier: MIT */
#include "model/pitch/intonation_calibrate.h"

#include <math.h>
#include <stdbool.h>

#include "model/common/least_squares.h"

enum { STEPS_MAX = 100, HALVINGS_MAX = 40 };

/* A step this small (mm, ends) is the last one. */
#define LAST_STEP 1e-8

/* Where rounding hides what a step gains, a step below this counts as an arrival. */
#define ARRIVED_STEP 1e-5

struct guess {
    double depth, ends;
};

/* The box in which both numbers are possible. */
static const struct guess lowest = {0, 0};
static const struct guess highest = {CALIBRATE_PRESS_DEPTH_MAX_MM, CALIBRATE_CLAMPED_ENDS_MAX};

static double clip(double value, double low, double high)
{
    /* Written so that NaN, from a column of zeros, becomes no move at all. */
    if (!(value > low))
        return isnan(value) ? clip(0, low, high) : low;
    return value < high ? value : high;
}

/* Predicted less measured, with slopes, for every reading. */
static enum status gather(const struct intonation_reading *readings, int count, struct guess guess,
                          struct least_squares *ret_sum)
{
    struct least_squares sum = {0};

    for (int i = 0; i < count; i++) {
        struct intonation_setup setup = *readings[i].setup;
        struct intonation_note note;
        struct intonation_slope slope;

        if (readings[i].fret < 1 || !isfinite(readings[i].cents))
            return STATUS_DOMAIN;
        setup.conditions.press_depth_mm = guess.depth;
        setup.conditions.clamped_ends = guess.ends;

        enum status status =
            intonation_find_note(&setup, &readings[i].ends, readings[i].fret, &note, &slope);

        if (status != STATUS_OK)
            return status;
        least_squares_add(&sum, slope.press_depth, slope.clamped_ends,
                          note.cents - readings[i].cents);
    }
    if (!isfinite(sum.rr + sum.aa + sum.bb))
        return STATUS_DOMAIN;
    *ret_sum = sum;
    return STATUS_OK;
}

/* What the linearised sum of squares would be after a step. */
static double foreseen(const struct least_squares *sum, struct guess step)
{
    return sum->rr + 2 * (sum->ar * step.depth + sum->br * step.ends) +
           sum->aa * step.depth * step.depth + 2 * sum->ab * step.depth * step.ends +
           sum->bb * step.ends * step.ends;
}

static bool inside(struct guess step, struct guess low, struct guess high)
{
    return step.depth >= low.depth && step.depth <= high.depth && step.ends >= low.ends &&
           step.ends <= high.ends;
}

/* The step within a box that lowers the linearised sum most: the free one where it lies
 * inside, else the best point of the four edges. */
static struct guess step_in_box(const struct least_squares *sum, struct guess low,
                                struct guess high)
{
    struct guess best;

    if (least_squares_solve(sum, &best.depth, &best.ends) == STATUS_OK && inside(best, low, high))
        return best;

    const double depths[] = {low.depth, high.depth};
    const double ends[] = {low.ends, high.ends};

    best = (struct guess){clip(0, low.depth, high.depth), clip(0, low.ends, high.ends)};
    for (int i = 0; i < 2; i++) {
        const struct guess edges[] = {
            {depths[i], clip(-(sum->br + sum->ab * depths[i]) / sum->bb, low.ends, high.ends)},
            {clip(-(sum->ar + sum->ab * ends[i]) / sum->aa, low.depth, high.depth), ends[i]},
        };

        for (int k = 0; k < 2; k++) {
            if (foreseen(sum, edges[k]) < foreseen(sum, best))
                best = edges[k];
        }
    }
    return best;
}

/* Goes along a step, halved until it gains something; false when it never does. */
static bool take_step(const struct intonation_reading *readings, int count, struct guess step,
                      struct guess *guess, struct least_squares *sum)
{
    double share = 1;

    for (int k = 0; k < HALVINGS_MAX; k++, share /= 2) {
        struct guess next = {clip(guess->depth + share * step.depth, lowest.depth, highest.depth),
                             clip(guess->ends + share * step.ends, lowest.ends, highest.ends)};
        struct least_squares there;

        if (gather(readings, count, next, &there) == STATUS_OK && there.rr < sum->rr) {
            *guess = next;
            *sum = there;
            return true;
        }
    }
    return false;
}

/* Moves the guess to the least sum of squares; e stays where it is when held. */
static enum status search(const struct intonation_reading *readings, int count, bool hold_ends,
                          struct guess *guess, struct least_squares *sum)
{
    for (int k = 0; k < STEPS_MAX; k++) {
        struct guess low = {lowest.depth - guess->depth, hold_ends ? 0 : lowest.ends - guess->ends};
        struct guess high = {highest.depth - guess->depth,
                             hold_ends ? 0 : highest.ends - guess->ends};
        struct guess step = step_in_box(sum, low, high);
        double size = fmax(fabs(step.depth), fabs(step.ends));

        if (size <= LAST_STEP)
            return STATUS_OK;
        if (!take_step(readings, count, step, guess, sum))
            return size <= ARRIVED_STEP ? STATUS_OK : STATUS_NOT_CONVERGED;
    }
    return STATUS_NOT_CONVERGED;
}

/* One fitted number with its quality; variance is that of the number alone. */
static struct calibrated judge(double value, double low, double high, bool fitted, double variance)
{
    double margin = 1e-6 * (high - low);
    struct calibrated out = {.value = value, .fitted = fitted};

    if (!fitted)
        return out;
    out.at_limit = value - low <= margin || high - value <= margin;
    out.expanded_u = 2 * sqrt(variance);
    out.pinned = !out.at_limit && out.expanded_u < (high - low) / 4;
    return out;
}

/* The ± of both numbers and how they hang together. */
static void judge_both(const struct least_squares *sum, struct guess guess, bool hold_ends,
                       double cents_u, struct intonation_calibration *calibration)
{
    int fitted = hold_ends ? 1 : 2;
    double variance = cents_u * cents_u;
    /* 1 - r^2 of the columns: what is left of each once the other is known. */
    double apart = hold_ends ? 1 : 1 - sum->ab * sum->ab / (sum->aa * sum->bb);

    if (sum->rows > fitted)
        variance = fmax(variance, sum->rr / (sum->rows - fitted));
    calibration->press_depth_mm =
        judge(guess.depth, lowest.depth, highest.depth, true, variance / (sum->aa * apart));
    calibration->clamped_ends =
        judge(guess.ends, lowest.ends, highest.ends, !hold_ends, variance / (sum->bb * apart));
    calibration->correlation = hold_ends ? 0 : -sum->ab / sqrt(sum->aa * sum->bb);
}

enum status intonation_calibrate(const struct intonation_reading *readings, int count,
                                 double start_press_depth_mm, double start_clamped_ends,
                                 double cents_u, struct intonation_calibration *ret_calibration)
{
    struct intonation_calibration out = {.readings = count};
    struct least_squares sum;
    struct guess guess, unused;

    if (count < 1)
        return STATUS_ABSENT;
    if (!isfinite(start_press_depth_mm) || !isfinite(start_clamped_ends) || !(cents_u > 0) ||
        !isfinite(cents_u))
        return STATUS_DOMAIN;
    guess.depth = clip(start_press_depth_mm, lowest.depth, highest.depth);
    guess.ends = clip(start_clamped_ends, lowest.ends, highest.ends);

    enum status status = gather(readings, count, guess, &sum);

    if (status != STATUS_OK)
        return status;
    out.cents_rms_before = least_squares_rms(&sum);

    bool hold_ends = least_squares_solve(&sum, &unused.depth, &unused.ends) != STATUS_OK;

    status = search(readings, count, hold_ends, &guess, &sum);
    if (status != STATUS_OK)
        return status;
    out.cents_rms_after = least_squares_rms(&sum);
    judge_both(&sum, guess, hold_ends, cents_u, &out);
    if (!isfinite(out.press_depth_mm.expanded_u) || !isfinite(out.clamped_ends.expanded_u) ||
        !isfinite(out.correlation))
        return STATUS_ABSENT;
    *ret_calibration = out;
    return STATUS_OK;
}
