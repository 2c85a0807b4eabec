/* SPDX-License-Identifier: MIT */
#include "model/setup/belief_read.h"

#include <math.h>
#include <stddef.h>

#include "model/setup/belief_line.h"
#include "model/setup/neck_curve.h"
#include "model/setup/odd_row.h"
#include "model/setup/uncertainty.h"
#include "model/setup/setup_fill.h"

/* A reading as a number that a function of the unknowns should have. */
struct gauged {
    struct linear function;
    enum belief_row row;
    int string;
    double mm, deviation_mm;
    bool filled;                /* taken from its neighbours */
    bool odd;                   /* does not go with its row */
    const struct maybe *beside; /* the row; NULL for the relief */
};

enum { READINGS_MAX = 1 + 2 * STRINGS_MAX };

struct pass_read {
    struct gauged list[READINGS_MAX];
    int count;
    struct maybe row[BELIEF_ROWS_][STRINGS_MAX + 1]; /* of the strings from the nut */
};

/* A string that is not read, between read ones, is taken to lie between them, give or take. */
#define FILLED_GAP_MM    0.05
#define FILLED_ACTION_MM 0.15

/* How uneven one nut, or one saddle, leaves the strings about a straight line, in what is read. */
#define UNEVEN_GAP_MM    0.06
#define UNEVEN_ACTION_MM 0.15

static double feeler_mm(const struct setup *setup)
{
    return hypot(uncertainty_of_step(setup->feeler_step_mm), BELIEF_FEELER_MM);
}

double belief_rule_mm(const struct setup *setup)
{
    return hypot(uncertainty_of_step(setup->rule_step_mm), BELIEF_RULE_MM);
}

/* What counts is the gap once the action is right, so that of the rule a ninth comes in. */
double belief_read_gap(const struct setup *setup)
{
    return hypot(feeler_mm(setup), belief_rule_mm(setup) / 9);
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
    const double deviation = gap ? feeler_mm(setup) : belief_rule_mm(setup);
    double mm[STRINGS_MAX + 1];
    enum known known[STRINGS_MAX + 1];
    bool odd[STRINGS_MAX + 1];

    if (!(gap ? setup_fill_gaps : setup_fill_actions)(setup, mm, known))
        return;
    outfit_row_of(&setup->outfit, 0, entered, read->row[row]);
    odd_row_find(read->row[row], belief->strings, gap ? UNEVEN_GAP_MM : UNEVEN_ACTION_MM, odd);
    for (int s = 1; s <= belief->strings; s++) {
        const bool filled = known[s] == KNOWN_INTERPOLATED;

        if (known[s] == KNOWN_ABSENT || (filled && belief->has[row][s]) ||
            !outfit_is_read(&setup->outfit, s) ||
            (held && setup->board.frets < board_hold_fret(&setup->board, s)))
            continue;
        add(read, (struct gauged){.function = held  ? belief_line_held_gap(setup, s)
                                              : gap ? belief_line_gap(setup, s)
                                                    : belief_line_action(setup, s),
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

/* The relief comes first. */
static void list_readings(const struct belief *belief, const struct setup *setup,
                          struct pass_read *ret_read)
{
    const struct maybe relief = neck_curve_find_relief(setup);

    ret_read->count = 0;
    if (relief.given)
        add(ret_read, (struct gauged){.function = belief_line_relief(setup),
                                      .row = BELIEF_RELIEF,
                                      .mm = relief.value,
                                      .deviation_mm = feeler_mm(setup)});
    add_row(belief, setup, BELIEF_GAP, ret_read);
    add_row(belief, setup, BELIEF_ACTION, ret_read);
    if (setup->nut_method == NUT_OPEN)
        find_swapped(ret_read);
}

/* How far a reading lies from what is known, in mm and in deviations. */
static double off_of(const struct belief *belief, const struct gauged *reading, double mm,
                     double *ret_deviations)
{
    const struct estimated known = estimate_of(&belief->estimate, &reading->function);
    const double off = mm - known.mean;

    *ret_deviations = fabs(off) / hypot(known.deviation, reading->deviation_mm);
    return off;
}

static bool is_surprising(const struct belief *belief, const struct gauged *reading)
{
    double deviations;

    if (!belief->has[reading->row][reading->string])
        return false;
    (void)off_of(belief, reading, reading->mm, &deviations);
    return deviations > BELIEF_GATE;
}

/* --- a row that slipped by a string --- */

/* Squares of how far the row lies from what is known, each string's reading taken for that of the
 * string `by` away; only those that have one either way. */
static double misfit(const struct belief *belief, const struct pass_read *read, enum belief_row row,
                     int by, int *ret_count)
{
    double sum = 0, deviations;

    *ret_count = 0;
    for (int i = 0; i < read->count; i++) {
        const struct gauged *reading = &read->list[i];
        const int j = i + by;

        if (reading->row != row || j < 0 || j >= read->count || read->list[j].row != row)
            continue;
        if (!belief->has[row][reading->string] || !belief->has[row][read->list[j].string])
            continue;
        (void)off_of(belief, &read->list[j], reading->mm, &deviations);
        sum += deviations * deviations;
        ++*ret_count;
    }
    return sum;
}

static bool is_slipped(const struct belief *belief, const struct pass_read *read,
                       enum belief_row row)
{
    const double much = 30, well = 3;
    int count, moved_count;
    const double now = misfit(belief, read, row, 0, &count);

    for (int by = -1; by <= 1; by += 2) {
        const double moved = misfit(belief, read, row, by, &moved_count);

        if (moved_count >= 3 && now - moved > much && moved < well * moved_count)
            return true;
    }
    return false;
}

/* --- taking in --- */

/* How far off its row a reading would be with that value, in what strings are uneven by. */
static double off_row(const struct belief *belief, const struct gauged *reading, double mm)
{
    const double uneven = reading->row == BELIEF_GAP ? UNEVEN_GAP_MM : UNEVEN_ACTION_MM;

    return odd_row_off(reading->beside, belief->strings, uneven, reading->string, mm);
}

/* A second reading that lies off as the first did is right: what was known of it was not. Where
 * nothing was known, the same way off its row says as much. */
static bool is_confirmed(const struct belief *belief, const struct gauged *reading, double off)
{
    const struct maybe *before = &belief->off[reading->row][reading->string];

    if (!before->given)
        return false;
    if (!belief->has[reading->row][reading->string])
        return off * before->value > 0;
    return fabs(off - before->value) < BELIEF_GATE * 1.5 * reading->deviation_mm;
}

/* What one reading alone told against another: the one that goes better with its row is right. */
static bool fits_better(const struct belief *belief, const struct gauged *reading, double off)
{
    return reading->beside && belief->once[reading->row][reading->string] &&
           fabs(off_row(belief, reading, reading->mm)) + 1 <
               fabs(off_row(belief, reading, reading->mm - off));
}

static void forget(struct belief *belief, const struct setup *setup, enum belief_row row,
                   int string)
{
    if (row == BELIEF_RELIEF)
        belief_doubt_rod(belief, setup, 1);
    else
        estimate_set(&belief->estimate,
                     row == BELIEF_GAP ? belief_slot(string) : belief_saddle(string), 0,
                     BELIEF_ANYTHING_MM);
}

/* What was known of a reading's unknown was wrong before this pass: noted, so that all readings of
 * the pass can be taken in without it. */
static void find_wrong(struct belief *belief, const struct setup *setup, enum belief_row row,
                       int string)
{
    belief->wrong[row][string] = true;
    forget(belief, setup, row, string);
}

/* Questioned, or known after all. Where nothing is known to lie off from, it is off its row. */
static bool question(struct belief *belief, const struct setup *setup, const struct gauged *reading)
{
    double deviations;
    const double off = belief->has[reading->row][reading->string]
                           ? off_of(belief, reading, reading->mm, &deviations)
                           : off_row(belief, reading, reading->mm);

    if (is_confirmed(belief, reading, off) || fits_better(belief, reading, off)) {
        find_wrong(belief, setup, reading->row, reading->string);
        return false;
    }
    belief->questioned[reading->row][reading->string] = true;
    belief->off[reading->row][reading->string] = maybe_given(off);
    return true;
}

/* False where it is questioned. */
static bool take(struct belief *belief, const struct setup *setup, const struct gauged *reading)
{
    const bool new = !belief->has[reading->row][reading->string];

    if (((new && reading->odd) || is_surprising(belief, reading)) &&
        question(belief, setup, reading))
        return false;
    estimate_read(&belief->estimate, &reading->function, reading->mm, reading->deviation_mm);
    belief->off[reading->row][reading->string].given = false;
    belief->once[reading->row][reading->string] = new;
    belief->has[reading->row][reading->string] = true;
    belief->own[reading->row][reading->string] |= !reading->filled;
    belief->fresh[reading->row][reading->string] = true;
    return true;
}

static int count_surprises(const struct belief *belief, const struct pass_read *read,
                           enum belief_row row)
{
    int count = 0;

    for (int i = 0; i < read->count; i++)
        count += read->list[i].row == row && is_surprising(belief, &read->list[i]);
    return count;
}

/* More of a row than one slip explains. */
static bool is_most(const struct belief *belief, int count)
{
    return count > 1 && count > belief->read_strings / 3;
}

/* Whether what is read of a row lies farther from what was known than work on it explains. */
static bool is_elsewhere(const struct belief *belief, const struct pass_read *read,
                         enum belief_row row)
{
    const double far_mm = row == BELIEF_GAP ? 0.35 : 1;
    double sum = 0, deviations;
    int count = 0;

    for (int i = 0; i < read->count; i++) {
        const struct gauged *reading = &read->list[i];

        if (reading->row != row || !is_surprising(belief, reading))
            continue;
        sum += fabs(off_of(belief, reading, reading->mm, &deviations));
        count++;
    }
    return count > 0 && sum > far_mm * count;
}

static void take_row(struct belief *belief, const struct setup *setup, const struct pass_read *read,
                     enum belief_row row)
{
    const bool slipped = is_slipped(belief, read, row);
    const bool most = !slipped && is_most(belief, count_surprises(belief, read, row));
    const bool elsewhere = most && is_elsewhere(belief, read, row);
    bool any_taken = false;

    for (int s = 1; s <= belief->strings && most && !elsewhere; s++)
        find_wrong(belief, setup, row, s);
    for (int i = 0; i < read->count; i++) {
        struct gauged reading = read->list[i];

        if (reading.row != row)
            continue;
        if (slipped) {
            belief->questioned[row][reading.string] = true;
            continue;
        }
        /* A row that is wrong as a whole bears no one out. */
        if (elsewhere && belief->has[row][reading.string])
            reading.beside = NULL;
        any_taken |= take(belief, setup, &reading);
    }
    /* What is questioned of a row was read all the same: it is as believed until it is read again.
     */
    for (int s = 1; s <= belief->strings && any_taken; s++)
        belief->fresh[row][s] |= belief->questioned[row][s];
}

static void take_relief(struct belief *belief, const struct setup *setup,
                        const struct pass_read *read)
{
    if (read->count == 0 || read->list[0].row != BELIEF_RELIEF)
        return;
    if (belief->rod_turned && is_surprising(belief, &read->list[0]))
        find_wrong(belief, setup, BELIEF_RELIEF, 0);
    (void)take(belief, setup, &read->list[0]);
    belief->rod_turned = false;
}

/* A saddle is one piece, so that the actions read on it tell of those between. A slot is its own,
 * and only where it never was read do its neighbours stand for it. */
static void freshen(struct belief *belief, const struct setup *setup, enum belief_row row)
{
    double mm[STRINGS_MAX + 1];
    enum known known[STRINGS_MAX + 1];

    if (!(row == BELIEF_GAP ? setup_fill_gaps : setup_fill_actions)(setup, mm, known))
        return;
    for (int s = 1; s <= belief->strings; s++)
        if (known[s] == KNOWN_INTERPOLATED && belief->has[row][s] &&
            (row == BELIEF_ACTION || !belief->own[row][s]))
            belief->fresh[row][s] = true;
}

/* The action tells where the saddle is; only then does a gap tell of its slot alone. */
static void take_pass(struct belief *belief, const struct setup *setup,
                      const struct pass_read *read)
{
    for (int row = 0; row < BELIEF_ROWS_; row++)
        for (int s = 0; s <= STRINGS_MAX; s++)
            belief->questioned[row][s] = belief->wrong[row][s] = false;
    take_relief(belief, setup, read);
    take_row(belief, setup, read, BELIEF_ACTION);
    take_row(belief, setup, read, BELIEF_GAP);
    freshen(belief, setup, BELIEF_ACTION);
    freshen(belief, setup, BELIEF_GAP);
}

static bool is_read(const struct pass_read *read, enum belief_row row, int string)
{
    for (int i = 0; i < read->count; i++)
        if (read->list[i].row == row && read->list[i].string == string)
            return true;
    return false;
}

/* A pass is taken in twice where it shows that something was wrong before it. */
void belief_read(struct belief *belief, const struct setup *setup)
{
    struct belief trial;
    struct pass_read read;

    if (!belief->known)
        return;
    list_readings(belief, setup, &read);
    trial = *belief;
    take_pass(&trial, setup, &read);
    for (int row = 0; row < BELIEF_ROWS_; row++)
        for (int s = 0; s <= belief->strings; s++)
            if (trial.wrong[row][s]) {
                forget(belief, setup, (enum belief_row)row, s);
                belief->has[row][s] = is_read(&read, (enum belief_row)row, s);
            }
    list_readings(belief, setup, &read);
    take_pass(belief, setup, &read);
}

bool belief_is_other(const struct belief *belief, const struct setup *setup)
{
    struct pass_read read;

    if (!belief->known)
        return false;
    list_readings(belief, setup, &read);
    return count_surprises(belief, &read, BELIEF_RELIEF) > 0 &&
           is_most(belief, count_surprises(belief, &read, BELIEF_ACTION)) &&
           !is_elsewhere(belief, &read, BELIEF_ACTION);
}
