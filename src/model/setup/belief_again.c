/* SPDX-License-Identifier: MIT */
#include "model/setup/belief_again.h"

#include <math.h>

#include "model/setup/belief_line.h"

/* Moved by less than this share of its step, the gauge falls on the same mark more often than not.
 * What lies within the step then goes along: by m steps with a correlation of 1 - 6 m (1 - m), that
 * of two remainders, 0 at 0.21. */
#define SAME_MARK 0.21

static double steps_mm(const struct setup *setup, enum belief_row row)
{
    return pass_read_doubt(setup, row).step_mm * sqrt(12);
}

static void keep(struct belief *belief, const struct setup *setup, enum belief_row row, int string)
{
    const struct linear function = pass_read_function(setup, row, string);

    belief->again[row][string].then = estimate_of(&belief->estimate, &function);
}

static void carry(struct belief *belief, const struct setup *setup, enum belief_row row, int string)
{
    struct read_again *again = &belief->again[row][string];
    const struct linear function = pass_read_function(setup, row, string);
    const struct estimated now = estimate_of(&belief->estimate, &function);
    const double by_mm = now.mean - again->then.mean;

    again->mean_mm += by_mm;
    again->moved_mm += by_mm;
    again->moved_mm2 +=
        now.deviation * now.deviation - again->then.deviation * again->then.deviation;
    if (!(hypot(again->moved_mm, sqrt(fmax(again->moved_mm2, 0))) <
          SAME_MARK * steps_mm(setup, row)))
        *again = (struct read_again){.times = 0};
}

static void each(struct belief *belief, const struct setup *setup,
                 void (*act)(struct belief *, const struct setup *, enum belief_row, int))
{
    for (int row = 0; row < BELIEF_ROWS_; row++)
        for (int s = 0; s <= belief->strings; s++)
            if (belief->again[row][s].times > 0)
                act(belief, setup, (enum belief_row)row, s);
}

void belief_again_carry(struct belief *belief, const struct setup *setup)
{
    each(belief, setup, carry);
}

void belief_again_keep(struct belief *belief, const struct setup *setup)
{
    each(belief, setup, keep);
}

/* One more number by which the mean of all n of them comes in with its s^2 + h^2/n: so much as
 * their mean weighs more than that of those before. */
static void take_one_more(struct belief *belief, const struct setup *setup,
                          const struct gauged *reading)
{
    struct read_again *again = &belief->again[reading->row][reading->string];
    const struct gauge_doubt doubt = pass_read_doubt(setup, reading->row);
    const double step2 = doubt.step_mm * doubt.step_mm, hand2 = doubt.hand_mm * doubt.hand_mm;
    const double before = 1 / (step2 + hand2 / again->times);
    const double before_mm = again->mean_mm;

    again->times++;
    again->mean_mm += (reading->mm - before_mm) / again->times;
    const double all = 1 / (step2 + hand2 / again->times);
    estimate_read(&belief->estimate, &reading->function,
                  (again->mean_mm * all - before_mm * before) / (all - before),
                  sqrt(1 / (all - before)));
}

void belief_again_take(struct belief *belief, const struct setup *setup,
                       const struct gauged *reading)
{
    struct read_again *again = &belief->again[reading->row][reading->string];

    if (again->times > 0 && !reading->filled) {
        take_one_more(belief, setup, reading);
        return;
    }
    estimate_read(&belief->estimate, &reading->function, reading->mm, reading->deviation_mm);
    *again = (struct read_again){.times = !reading->filled, .mean_mm = reading->mm};
}
