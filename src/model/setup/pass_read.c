/* SPDX-License-Identifier: MIT */
#include "model/setup/pass_read.h"

#include <math.h>

#include "model/setup/belief_line.h"
#include "model/setup/neck_curve.h"
#include "model/setup/odd_row.h"
#include "model/setup/setup_fill.h"
#include "model/setup/uncertainty.h"

/* A string that is not read, between read ones, is taken to lie between them, give or take. */
#define FILLED_GAP_MM    0.05
#define FILLED_ACTION_MM 0.15

/* How uneven one nut, or one saddle, leaves the strings about a straight line, in what is read. */
#define UNEVEN_GAP_MM    0.06
#define UNEVEN_ACTION_MM 0.15

double pass_read_uneven_mm(enum belief_row row)
{
    return row == BELIEF_GAP ? UNEVEN_GAP_MM : UNEVEN_ACTION_MM;
}

struct gauge_doubt pass_read_doubt(const struct setup *setup, enum belief_row row)
{
    const bool rule = row == BELIEF_ACTION;
    const double step_mm = rule ? setup->rule_step_mm : setup->feeler_step_mm;

    return (struct gauge_doubt){.step_mm = uncertainty_of_step(step_mm),
                                .hand_mm = rule ? BELIEF_RULE_MM : BELIEF_FEELER_MM};
}

double pass_read_once_mm(const struct setup *setup, enum belief_row row)
{
    const struct gauge_doubt doubt = pass_read_doubt(setup, row);

    return hypot(doubt.step_mm, doubt.hand_mm);
}

double pass_read_told_mm(const struct setup *setup, enum belief_row row)
{
    /* A little more: two numbers on neighbouring marks are a step apart but for rounding. */
    const double step_mm = pass_read_doubt(setup, row).step_mm * sqrt(12) * (1 + 1e-6);

    return fmax(pass_read_once_mm(setup, row), step_mm / (2 * sqrt(2)));
}

/* What counts is the gap once the action is right, so that of the rule a ninth comes in. */
double pass_read_gap_mm(const struct setup *setup)
{
    return hypot(pass_read_once_mm(setup, BELIEF_GAP), pass_read_once_mm(setup, BELIEF_ACTION) / 9);
}

struct linear pass_read_function(const struct setup *setup, enum belief_row row, int string)
{
    if (row == BELIEF_RELIEF)
        return belief_line_relief(setup);
    if (row == BELIEF_ACTION)
        return belief_line_action(setup, string);
    return setup->nut_method == NUT_HELD_3 ? belief_line_held_gap(setup, string)
                                           : belief_line_gap(setup, string);
}

static void add(struct pass_read *read, struct gauged reading)
{
    if (isfinite(reading.mm) && reading.deviation_mm > 0 && isfinite(reading.deviation_mm))
        read->list[read->count++] = reading;
}

/* One row of readings by string. What is filled in says nothing where more is known. */
static void add_row(const struct belief *belief, const struct setup *setup, enum belief_row row,
                    struct pass_read *read)
{
    const bool gap = row == BELIEF_GAP, held = gap && setup->nut_method == NUT_HELD_3;
    const struct maybe *entered = gap ? setup->nut_gap_mm : setup->action_mm;
    const double deviation = pass_read_once_mm(setup, row);
    double mm[STRINGS_MAX + 1];
    enum known known[STRINGS_MAX + 1];
    bool odd[STRINGS_MAX + 1];

    if (!(gap ? setup_fill_gaps : setup_fill_actions)(setup, mm, known))
        return;
    outfit_row_of(&setup->outfit, 0, entered, read->row[row]);
    odd_row_find(read->row[row], belief->strings, pass_read_uneven_mm(row), odd);
    for (int s = 1; s <= belief->strings; s++) {
        const bool filled = known[s] == KNOWN_INTERPOLATED;

        if (known[s] == KNOWN_ABSENT || (filled && belief->has[row][s]) ||
            !outfit_is_read(&setup->outfit, s) ||
            (held && setup->board.frets < board_hold_fret(&setup->board, s)))
            continue;
        add(read, (struct gauged){.function = pass_read_function(setup, row, s),
                                  .row = row,
                                  .string = s,
                                  .mm = mm[s],
                                  .deviation_mm = filled ? hypot(deviation, gap ? FILLED_GAP_MM
                                                                                : FILLED_ACTION_MM)
                                                         : deviation,
                                  .filled = filled,
                                  .odd = odd[s],
                                  .beside = read->row[row]});
    }
}

/* No string lies nearly as high over fret 1 as over the action fret: one of the two rows holds what
 * was read for another. */
static void find_swapped(struct pass_read *read)
{
    const double most = 0.75;

    for (int i = 0; i < read->count; i++)
        for (int j = 0; j < read->count; j++) {
            struct gauged *gap = &read->list[i], *action = &read->list[j];

            if (gap->row == BELIEF_GAP && action->row == BELIEF_ACTION &&
                gap->string == action->string && gap->mm > most * action->mm)
                gap->odd = action->odd = true;
        }
}

void pass_read_list(const struct belief *belief, const struct setup *setup,
                    struct pass_read *ret_read)
{
    const struct maybe relief = neck_curve_find_relief(setup);

    ret_read->count = 0;
    if (relief.given)
        add(ret_read, (struct gauged){.function = pass_read_function(setup, BELIEF_RELIEF, 0),
                                      .row = BELIEF_RELIEF,
                                      .mm = relief.value,
                                      .deviation_mm = pass_read_once_mm(setup, BELIEF_RELIEF)});
    add_row(belief, setup, BELIEF_GAP, ret_read);
    add_row(belief, setup, BELIEF_ACTION, ret_read);
    if (setup->nut_method == NUT_OPEN)
        find_swapped(ret_read);
}
