/* SPDX-License-Identifier: MIT */
#include "model/setup/belief_read.h"

#include <math.h>
#include <stddef.h>

#include "model/setup/belief_again.h"
#include "model/setup/belief_line.h"
#include "model/setup/odd_row.h"
#include "model/setup/pass_read.h"
#include "model/setup/setup_fill.h"

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
    return odd_row_off(reading->beside, belief->strings, pass_read_uneven_mm(reading->row),
                       reading->string, mm);
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

static double part_of(const struct linear *line, int unknown)
{
    for (int t = 0; t < LINEAR_TERMS; t++)
        if (line->unknown[t] == unknown)
            return line->part[t];
    return 0;
}

/* What was known of a gap was wrong, or its slot was worked on untold: it may be anything. The
 * action was read by itself and stays what it was, give or take what such a slot moves it by. The
 * same of an action, its saddle and the gap. */
static void forget(struct belief *belief, const struct setup *setup, enum belief_row row,
                   int string, double off_mm)
{
    belief->again[row][string].times = 0;
    if (row == BELIEF_RELIEF) {
        belief_doubt_rod(belief, setup, 1);
        return;
    }
    const bool gap = row == BELIEF_GAP;
    const int own = gap ? belief_slot(string) : belief_saddle(string);
    const int other = gap ? belief_saddle(string) : belief_slot(string);
    const struct linear line = pass_read_function(setup, row, string);
    const struct linear kept = pass_read_function(setup, gap ? BELIEF_ACTION : BELIEF_GAP, string);
    double direction[ESTIMATE_MAX] = {0};

    direction[own] = 1;
    direction[other] = -part_of(&kept, own) / part_of(&kept, other);
    estimate_blur(&belief->estimate, direction, BELIEF_ANYTHING_MM);
    estimate_shift(&belief->estimate, own, 0, fabs(off_mm) / part_of(&line, own));
}

/* What was known of a reading's unknown was wrong before this pass: noted, so that all readings of
 * the pass can be taken in without it. Of what was questioned until now nothing is known. */
static void find_wrong(struct belief *belief, const struct setup *setup, enum belief_row row,
                       int string, double off_mm)
{
    if (!belief->has[row][string])
        return;
    belief->wrong[row][string] = maybe_given(off_mm);
    forget(belief, setup, row, string, off_mm);
}

/* How far what a pass reads of a string lies off; 0 where it reads nothing of it. */
static double off_on(const struct belief *belief, const struct pass_read *read, enum belief_row row,
                     int string)
{
    double deviations;

    for (int i = 0; i < read->count; i++)
        if (read->list[i].row == row && read->list[i].string == string)
            return off_of(belief, &read->list[i], read->list[i].mm, &deviations);
    return 0;
}

static void ask_again(struct belief *belief, enum belief_row row, int string)
{
    belief->questioned[row][string] = QUESTIONED_HERE;
    belief->holds[row][string] = false;
}

/* Questioned, or known after all. Where nothing is known to lie off from, it is off its row. */
static bool question(struct belief *belief, const struct setup *setup, const struct gauged *reading)
{
    double deviations;
    const double off = belief->has[reading->row][reading->string]
                           ? off_of(belief, reading, reading->mm, &deviations)
                           : off_row(belief, reading, reading->mm);

    if (is_confirmed(belief, reading, off) || fits_better(belief, reading, off)) {
        find_wrong(belief, setup, reading->row, reading->string, off);
        return false;
    }
    ask_again(belief, reading->row, reading->string);
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
    belief_again_take(belief, setup, reading);
    belief->off[reading->row][reading->string].given = false;
    belief->once[reading->row][reading->string] = new;
    belief->has[reading->row][reading->string] = true;
    belief->fresh[reading->row][reading->string] = true;
    if (reading->filled)
        return true;
    belief->own[reading->row][reading->string] = belief->holds[reading->row][reading->string] =
        true;
    belief->questioned[reading->row][reading->string] = QUESTIONED_NOT;
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
        find_wrong(belief, setup, row, s, off_on(belief, read, row, s));
    for (int i = 0; i < read->count; i++) {
        struct gauged reading = read->list[i];

        if (reading.row != row)
            continue;
        if (slipped) {
            ask_again(belief, row, reading.string);
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
        belief->fresh[row][s] |= belief->questioned[row][s] == QUESTIONED_HERE;
}

static void take_relief(struct belief *belief, const struct setup *setup,
                        const struct pass_read *read)
{
    if (read->count == 0 || read->list[0].row != BELIEF_RELIEF)
        return;
    if (belief->rod_turned && is_surprising(belief, &read->list[0]))
        find_wrong(belief, setup, BELIEF_RELIEF, 0, 0);
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
            belief->wrong[row][s] = maybe_absent();
    belief_again_carry(belief, setup);
    take_relief(belief, setup, read);
    take_row(belief, setup, read, BELIEF_ACTION);
    take_row(belief, setup, read, BELIEF_GAP);
    belief_again_keep(belief, setup);
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
    for (int row = 0; row < BELIEF_ROWS_; row++)
        for (int s = 0; s <= belief->strings; s++)
            if (belief->questioned[row][s] == QUESTIONED_HERE)
                belief->questioned[row][s] = QUESTIONED_BEFORE;
    pass_read_list(belief, setup, &read);
    trial = *belief;
    take_pass(&trial, setup, &read);
    for (int row = 0; row < BELIEF_ROWS_; row++)
        for (int s = 0; s <= belief->strings; s++)
            if (trial.wrong[row][s].given) {
                forget(belief, setup, (enum belief_row)row, s, trial.wrong[row][s].value);
                belief->has[row][s] = is_read(&read, (enum belief_row)row, s);
            }
    pass_read_list(belief, setup, &read);
    take_pass(belief, setup, &read);
}

double belief_misfit(const struct belief *belief, const struct setup *setup, int *ret_count)
{
    struct belief trial = *belief;
    struct pass_read read;
    int gaps = 0, actions = 0;
    double sum = 0;

    if (belief->known) {
        pass_read_list(belief, setup, &read);
        take_relief(&trial, setup, &read);
        sum = misfit(&trial, &read, BELIEF_GAP, 0, &gaps) +
              misfit(&trial, &read, BELIEF_ACTION, 0, &actions);
    }
    *ret_count = gaps + actions;
    return sum;
}

bool belief_is_other(const struct belief *belief, const struct setup *setup)
{
    struct pass_read read;

    if (!belief->known)
        return false;
    pass_read_list(belief, setup, &read);
    return count_surprises(belief, &read, BELIEF_RELIEF) > 0 &&
           is_most(belief, count_surprises(belief, &read, BELIEF_ACTION)) &&
           !is_elsewhere(belief, &read, BELIEF_ACTION);
}
