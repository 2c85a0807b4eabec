/* SPDX-License-Identifier: MIT */
#include "model/setup/belief.h"

#include <math.h>

#include "model/setup/belief_line.h"
#include "model/setup/neck_curve.h"

static double curvature_for(const struct setup *setup, double relief_mm)
{
    return fabs(neck_curve_kappa_for(&setup->board, relief_mm));
}

void belief_begin(struct belief *belief, const struct setup *setup)
{
    double deviation[ESTIMATE_MAX];

    *belief = (struct belief){.strings = setup->board.strings,
                              .read_strings = outfit_read_count(&setup->outfit)};
    if (!setup->has_board || !setup->board.has_relief || setup->board.action_fret < 2)
        return;
    for (int i = 0; i < ESTIMATE_MAX; i++)
        deviation[i] = BELIEF_ANYTHING_MM;
    deviation[BELIEF_CURVATURE] = curvature_for(setup, BELIEF_ANYTHING_MM);
    estimate_begin(&belief->estimate, 1 + 2 * belief->strings, deviation);
    belief->known = isfinite(deviation[BELIEF_CURVATURE]);
}

/* --- moves --- */

/* A rod does not bend a neck evenly: what the model makes of a change in relief errs at the saddle,
 * and a little at the nut, under all strings together. */
static void blur_ends(struct belief *belief, double relief_mm)
{
    double saddles[ESTIMATE_MAX] = {0}, slots[ESTIMATE_MAX] = {0};

    for (int s = 1; s <= belief->strings; s++) {
        saddles[belief_saddle(s)] = 1;
        slots[belief_slot(s)] = 1;
    }
    estimate_blur(&belief->estimate, saddles, BELIEF_UNEVEN * relief_mm);
    estimate_blur(&belief->estimate, slots, BELIEF_UNEVEN_NUT * relief_mm);
}

void belief_turn_rod(struct belief *belief, const struct setup *setup, double relief_mm,
                     double deviation_mm)
{
    const struct linear function = belief_line_relief(setup);
    const double before = estimate_of(&belief->estimate, &function).mean;

    estimate_set(&belief->estimate, BELIEF_CURVATURE,
                 neck_curve_kappa_for(&setup->board, relief_mm - function.constant),
                 curvature_for(setup, deviation_mm));
    blur_ends(belief, fabs(relief_mm - before));
    belief->rod_turned = true;
}

void belief_doubt_rod(struct belief *belief, const struct setup *setup, double mm)
{
    /* Without a board nothing is believed that could be doubted. */
    if (!setup->has_board || !setup->board.has_relief)
        return;
    estimate_shift(&belief->estimate, BELIEF_CURVATURE, 0, curvature_for(setup, mm));
    blur_ends(belief, mm);
    belief->rod_turned = true;
}

void belief_work_slot(struct belief *belief, int string, double mm)
{
    estimate_shift(&belief->estimate, belief_slot(string), mm, BELIEF_SLOT_MM);
}

void belief_doubt_slot(struct belief *belief, int string, double mm)
{
    estimate_shift(&belief->estimate, belief_slot(string), 0, mm);
}

void belief_work_saddle(struct belief *belief, const double mm[STRINGS_MAX + 1])
{
    double together[ESTIMATE_MAX] = {0};

    for (int s = 1; s <= belief->strings; s++) {
        if (mm[s] == 0)
            continue;
        together[belief_saddle(s)] = 1;
        estimate_shift(&belief->estimate, belief_saddle(s), mm[s], BELIEF_STRING_MM);
    }
    estimate_blur(&belief->estimate, together, BELIEF_SADDLE_MM);
}

void belief_doubt_saddle(struct belief *belief, int string, double mm)
{
    estimate_shift(&belief->estimate, belief_saddle(string), 0, mm);
}

/* What nothing is known of stays questioned: it would not be asked for otherwise. */
static void age_one(struct belief *belief, enum belief_row row, int string)
{
    belief->fresh[row][string] = belief->holds[row][string] = false;
    if (belief->has[row][string])
        belief->questioned[row][string] = QUESTIONED_NOT;
}

void belief_age(struct belief *belief, enum belief_row row, int string)
{
    age_one(belief, row, string);
    for (int s = 1; s <= belief->strings; s++)
        if (s == string || string == 0)
            age_one(belief, BELIEF_ACTION, s);
}

int belief_stale(const struct belief *belief, enum belief_row row)
{
    for (int s = belief->strings; s >= 1; s--)
        if (belief->has[row][s] && !belief->fresh[row][s])
            return s;
    return 0;
}

/* --- what is believed --- */

static bool give(const struct belief *belief, struct linear function, struct estimated *ret_mm)
{
    *ret_mm = estimate_of(&belief->estimate, &function);
    return isfinite(ret_mm->mean) && ret_mm->deviation < BELIEF_KNOWN_MM;
}

bool belief_relief(const struct belief *belief, const struct setup *setup, struct estimated *ret_mm)
{
    if (!belief->known || !belief->has[BELIEF_RELIEF][0] || !belief->fresh[BELIEF_RELIEF][0])
        return false;
    return give(belief, belief_line_relief(setup), ret_mm);
}

/* A string with a length to sound, all of it read. */
static bool has_line(const struct belief *belief, const struct setup *setup, int string)
{
    const struct board *board = &setup->board;

    if (!belief->known)
        return false;
    for (int row = 0; row < BELIEF_ROWS_; row++) {
        const int s = row == BELIEF_RELIEF ? 0 : string;

        if (!belief->has[row][s] || !belief->fresh[row][s])
            return false;
    }
    return board->contact_mm[string] > board->station_mm[string][board->frets];
}

bool belief_gap(const struct belief *belief, const struct setup *setup, int string,
                struct estimated *ret_mm)
{
    string = setup->outfit.read_as[string];
    return has_line(belief, setup, string) && give(belief, belief_line_gap(setup, string), ret_mm);
}

bool belief_action(const struct belief *belief, const struct setup *setup, int string,
                   struct estimated *ret_mm)
{
    string = setup->outfit.read_as[string];
    return has_line(belief, setup, string) &&
           give(belief, belief_line_action(setup, string), ret_mm);
}

bool belief_held_gap(const struct belief *belief, const struct setup *setup, int string,
                     struct estimated *ret_mm)
{
    string = setup->outfit.read_as[string];
    return has_line(belief, setup, string) &&
           setup->board.frets >= board_hold_fret(&setup->board, string) &&
           give(belief, belief_line_held_gap(setup, string), ret_mm);
}

bool belief_gap_at_action(const struct belief *belief, const struct setup *setup, int string,
                          double action_mm, struct estimated *ret_mm)
{
    string = setup->outfit.read_as[string];
    return has_line(belief, setup, string) &&
           give(belief, belief_line_gap_at(setup, string, action_mm), ret_mm);
}

double belief_slot_per_gap(const struct setup *setup, int string)
{
    const double *x = setup->board.station_mm[string];

    return 1 / (1 - x[board_gap_fret(&setup->board, string)] / x[setup->board.action_fret]);
}

double belief_saddle_per_action(const struct setup *setup, int string)
{
    const struct board *board = &setup->board;

    return board->contact_mm[string] / board->station_mm[string][board->action_fret];
}
