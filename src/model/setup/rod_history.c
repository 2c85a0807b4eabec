/* SPDX-License-Identifier: MIT */
#include "model/setup/rod_history.h"

#include <math.h>
#include <stddef.h>

#include "model/common/check.h"

static enum status check_steps(const struct rod_step *steps, int count, double reading_u_mm)
{
    if (!steps || count < 1)
        return STATUS_ABSENT;
    if (count > ROD_STEPS_MAX || !check_is_not_negative(reading_u_mm))
        return STATUS_DOMAIN;
    for (int i = 0; i < count; i++)
        if (!isfinite(steps[i].turns) || steps[i].turns == 0 || !isfinite(steps[i].before_mm) ||
            !isfinite(steps[i].after_mm))
            return STATUS_DOMAIN;
    return STATUS_OK;
}

static double change_mm(const struct rod_step *step)
{
    return step->after_mm - step->before_mm;
}

static double left_over_mm(const struct rod_step *steps, int count, double per_turn_mm)
{
    double squares = 0;
    for (int i = 0; i < count; i++) {
        const double left = change_mm(&steps[i]) - per_turn_mm * steps[i].turns;
        squares += left * left;
    }
    return sqrt(squares / count);
}

/* Of steps that were read one after another only the first and the last reading count. */
static bool is_joined(const struct rod_step *before, const struct rod_step *step)
{
    return fabs(step->before_mm - before->after_mm) < 1e-9;
}

/* The sum of squares of what each reading counts for in sum(turns x change). One that stands
 * between two steps is in both: turned on one way it goes out, turned back it counts twice. */
static double weight_of_readings(const struct rod_step *steps, int count)
{
    double sum = 0, before = 0;

    for (int i = 0; i < count; i++) {
        const double turns = steps[i].turns;
        const bool joined = i > 0 && is_joined(&steps[i - 1], &steps[i]);

        sum += joined ? (before - turns) * (before - turns) - before * before : turns * turns;
        sum += turns * turns;
        before = turns;
    }
    return sum;
}

enum status rod_history_fit(const struct rod_step *steps, int count, double reading_u_mm,
                            struct rod_fit *ret_fit)
{
    double product = 0;
    double squares = 0;
    enum status status = check_steps(steps, count, reading_u_mm);
    if (status)
        return status;
    for (int i = 0; i < count; i++) {
        product += steps[i].turns * change_mm(&steps[i]);
        squares += steps[i].turns * steps[i].turns;
    }
    struct rod_fit fit = {.per_turn_mm = product / squares, .count = count};
    fit.left_mm = left_over_mm(steps, count, fit.per_turn_mm);
    fit.per_turn_u_mm = 2 * reading_u_mm * sqrt(weight_of_readings(steps, count)) / squares;
    if (!isfinite(fit.per_turn_mm) || !isfinite(fit.left_mm) || !isfinite(fit.per_turn_u_mm))
        return STATUS_RANGE;
    *ret_fit = fit;
    return STATUS_OK;
}

bool rod_history_is_sure(const struct rod_fit *fit)
{
    return fabs(fit->per_turn_mm) > fit->per_turn_u_mm;
}

enum status rod_history_find_next_turn(double per_turn_mm, double relief_mm, double target_mm,
                                       double *ret_turns)
{
    if (!isfinite(per_turn_mm) || !isfinite(relief_mm) || !isfinite(target_mm))
        return STATUS_DOMAIN;
    if (per_turn_mm == 0)
        return STATUS_DOMAIN;
    return check_give((target_mm - relief_mm) / per_turn_mm, ret_turns);
}

enum status rod_history_predict(double per_turn_mm, double relief_mm, double turns,
                                double *ret_relief_mm)
{
    if (!isfinite(per_turn_mm) || !isfinite(relief_mm) || !isfinite(turns))
        return STATUS_DOMAIN;
    return check_give(relief_mm + per_turn_mm * turns, ret_relief_mm);
}

/* Tightening must take relief out: the change and the turn have opposite signs. */
static double taken_mm(const struct rod_step *step)
{
    return -copysign(1, step->turns) * change_mm(step);
}

/* Expanded, of the difference of two readings. */
static double change_u_of(double reading_u_mm)
{
    return 2 * sqrt(2) * reading_u_mm;
}

static enum rod_answer judge_alone(const struct rod_step *step, double change_u_mm)
{
    if (taken_mm(step) > change_u_mm)
        return ROD_ANSWERS;
    return taken_mm(step) < -change_u_mm ? ROD_ANSWERS_BACKWARDS : ROD_ANSWER_UNKNOWN;
}

static enum rod_answer judge_next(const struct rod_step *step, double expected_mm,
                                  double change_u_mm)
{
    const double share = change_mm(step) / expected_mm;

    if (fabs(expected_mm) <= change_u_mm)
        return judge_alone(step, change_u_mm) == ROD_ANSWERS_BACKWARDS ? ROD_ANSWERS_BACKWARDS
                                                                       : ROD_ANSWER_UNKNOWN;
    if (share >= ROD_LEAST_SHARE)
        return ROD_ANSWERS;
    if (fabs(change_mm(step) - expected_mm) <= change_u_mm)
        return ROD_ANSWER_UNKNOWN;
    return share < 0 && fabs(change_mm(step)) > change_u_mm ? ROD_ANSWERS_BACKWARDS
                                                            : ROD_ANSWERS_NO_LONGER;
}

double rod_history_silent_turns(const struct rod_step *steps, int count, double reading_u_mm)
{
    const double way = copysign(1, steps[count - 1].turns);
    const double change_u_mm = change_u_of(reading_u_mm);
    double turns = 0, taken = 0, squares = 0, silent = 0;

    for (int i = count - 1; i >= 0 && steps[i].turns * way > 0; i--) {
        turns += fabs(steps[i].turns);
        taken += taken_mm(&steps[i]);
        if (i == count - 1 || !is_joined(&steps[i], &steps[i + 1]))
            squares += change_u_mm * change_u_mm;
        if (taken + sqrt(squares) < ROD_LEAST_ANSWER_MM * turns)
            silent = turns;
    }
    return silent;
}

/* Whether it moved the wrong way both ways. */
static bool is_reversed(const struct rod_step *steps, int count, double change_u_mm)
{
    bool tightened = false, slackened = false;

    for (int i = 0; i < count; i++)
        if (judge_alone(&steps[i], change_u_mm) == ROD_ANSWERS_BACKWARDS) {
            tightened = tightened || steps[i].turns > 0;
            slackened = slackened || steps[i].turns < 0;
        }
    return tightened && slackened;
}

enum status rod_history_judge(const struct rod_step *steps, int count, double reading_u_mm,
                              enum rod_answer *ret_answer)
{
    struct rod_fit earlier = {0};
    enum status status = check_steps(steps, count, reading_u_mm);

    if (!status && count > 1)
        status = rod_history_fit(steps, count - 1, reading_u_mm, &earlier);
    if (status)
        return status;
    const struct rod_step *last = &steps[count - 1];
    const double change_u_mm = change_u_of(reading_u_mm);
    /* Earlier steps that show no normal answer promise nothing to measure against. */
    const bool promised = rod_history_is_sure(&earlier) && earlier.per_turn_mm < 0;
    enum rod_answer answer = promised
                                 ? judge_next(last, earlier.per_turn_mm * last->turns, change_u_mm)
                                 : judge_alone(last, change_u_mm);

    if (answer == ROD_ANSWERS_BACKWARDS && is_reversed(steps, count, change_u_mm))
        answer = ROD_ANSWERS;
    if (answer == ROD_ANSWER_UNKNOWN &&
        rod_history_silent_turns(steps, count, reading_u_mm) >= ROD_LEAST_TURN)
        answer = ROD_ANSWERS_NO_LONGER;
    *ret_answer = answer;
    return STATUS_OK;
}

enum status rod_history_compare(double predicted_mm, double predicted_u_mm, double read_mm,
                                double read_u_mm, struct rod_comparison *ret_comparison)
{
    if (!isfinite(predicted_mm) || !isfinite(read_mm) || !check_is_not_negative(predicted_u_mm) ||
        !check_is_not_negative(read_u_mm))
        return STATUS_DOMAIN;
    const double off_mm = read_mm - predicted_mm;
    if (!isfinite(off_mm))
        return STATUS_RANGE;
    *ret_comparison = (struct rod_comparison){
        .off_mm = off_mm,
        .within = fabs(off_mm) <= hypot(predicted_u_mm, read_u_mm),
    };
    return STATUS_OK;
}
