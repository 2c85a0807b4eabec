/* SPDX-License-Identifier: MIT */
#include "virtual/instrument.h"

#include <math.h>

#define INCH 25.4

/* Scales, frets and joins: common practice, no published source; so is what is wanted. */
const struct virtual_kind virtual_kinds[] = {
    {"steel-string", 6, 20, 14, 12, 645, 0.20, 2.4, 1.6, 0.46, 0.30, 5.5, 0, VIRTUAL_BLANK},
    {"small steel-string", 6, 18, 12, 12, 628, 0.15, 2.4, 1.6, 0.46, 0.30, 5.5, 0, VIRTUAL_BLANK},
    {"classical", 6, 19, 12, 12, 650, 0.15, 3.8, 3.0, 0.60, 0.50, 6.0, 0, VIRTUAL_BLANK},
    {"electric", 6, 22, 16, 12, 648, 0.20, 2.0, 1.6, 0.40, 0.30, 5.0, 0.7, VIRTUAL_SCREW},
    {"electric, short", 6, 22, 16, 12, 628, 0.15, 2.0, 1.6, 0.40, 0.30, 5.0, 0.7, VIRTUAL_SCREW},
    {"bass", 4, 20, 16, 12, 864, 0.30, 2.8, 2.0, 0.56, 0.46, 6.0, 0.5, VIRTUAL_SCREW},
    {"seven-string", 7, 24, 17, 12, 660, 0.20, 2.2, 1.6, 0.45, 0.30, 5.0, 0.7, VIRTUAL_SCREW},
    {"tenor", 4, 19, 14, 12, 580, 0.15, 2.2, 1.8, 0.40, 0.30, 5.0, 0, VIRTUAL_BLANK},
};
const int virtual_kind_count = sizeof virtual_kinds / sizeof virtual_kinds[0];

double virtual_normal(struct seeded *seed, double deviation)
{
    const double radius = sqrt(-2 * log(1 - seeded_between(seed, 0, 1)));

    return deviation * radius * cos(6.283185307179586 * seeded_between(seed, 0, 1));
}

double virtual_station(const struct virtual_instrument *made, int fret)
{
    return made->kind->scale_mm * (1 - exp2(-fret / 12.0));
}

double virtual_contact(const struct virtual_instrument *made)
{
    return made->kind->scale_mm + 2;
}

/* --- the neck --- */

/* A clamped beam's bend for a bending moment over stiffness along it, made 1 mm at the nut:
 * w'' = m, w = w' = 0 at the heel, by steps from there. */
static void bend(double shape[VIRTUAL_POINTS + 1], const double moment[VIRTUAL_POINTS + 1])
{
    const double step = 1.0 / VIRTUAL_POINTS;
    double slope = 0;

    shape[VIRTUAL_POINTS] = 0;
    for (int i = VIRTUAL_POINTS - 1; i >= 0; i--) {
        slope += step * (moment[i] + moment[i + 1]) / 2;
        shape[i] = shape[i + 1] + step * slope;
    }
    const double most = shape[0];
    for (int i = 0; i <= VIRTUAL_POINTS; i++)
        shape[i] /= most;
}

/* The strings lie higher over the neck towards the heel, where it is also thicker. */
static void draw_neck(struct virtual_instrument *made, struct seeded *seed)
{
    const double taper = seeded_between(seed, 1.3, 2.2), rise = seeded_between(seed, 0.1, 0.4);
    const double from = seeded_between(seed, 0.02, 0.08), to = seeded_between(seed, 0.8, 1);
    double pull[VIRTUAL_POINTS + 1], rod[VIRTUAL_POINTS + 1];

    for (int i = 0; i <= VIRTUAL_POINTS; i++) {
        const double at = (double)i / VIRTUAL_POINTS;
        const double stiffness = pow(1 + (cbrt(taper) - 1) * at, 3);

        pull[i] = (1 + rise * at) / stiffness;
        rod[i] = (at >= from && at <= to ? 1 : 0) / stiffness;
    }
    bend(made->pull, pull);
    bend(made->rod, rod);
    made->heel_mm = virtual_station(made, made->kind->join) - seeded_between(seed, 15, 60);
}

static double shape_at(const double shape[VIRTUAL_POINTS + 1], double share)
{
    const double at = share * VIRTUAL_POINTS;
    const int i = at >= VIRTUAL_POINTS ? VIRTUAL_POINTS - 1 : (int)at;

    return shape[i] + (shape[i + 1] - shape[i]) * (at - i);
}

static double neck(const struct virtual_instrument *made, double x_mm)
{
    const double share = x_mm / made->heel_mm;

    if (share >= 1)
        return 0;
    return made->pulled_mm * shape_at(made->pull, share) -
           made->rod_mm * shape_at(made->rod, share);
}

static double crown(const struct virtual_instrument *made, int fret)
{
    const double x = virtual_station(made, fret), join = virtual_station(made, made->kind->join);
    const double last = virtual_station(made, made->kind->frets);

    return neck(made, x) + made->uneven_mm[fret] -
           (x > join ? made->fall_mm * (x - join) / (last - join) : 0);
}

/* --- what is true --- */

static double string_at(const struct virtual_instrument *made, int string, double x_mm)
{
    const double nut = neck(made, 0) + made->slot_mm[string];

    return nut + (made->saddle_mm[string] - nut) * x_mm / virtual_contact(made);
}

double virtual_relief(const struct virtual_instrument *made)
{
    const int join = made->kind->join;
    const double x = virtual_station(made, made->relief_fret);
    const double low_x = virtual_station(made, 1), high_x = virtual_station(made, join);
    const double low = crown(made, 1), high = crown(made, join);

    return low + (high - low) * (x - low_x) / (high_x - low_x) - crown(made, made->relief_fret);
}

double virtual_gap(const struct virtual_instrument *made, int string)
{
    return string_at(made, string, virtual_station(made, 1)) - crown(made, 1);
}

double virtual_action(const struct virtual_instrument *made, int string)
{
    const int fret = made->kind->action_fret;

    return string_at(made, string, virtual_station(made, fret)) - crown(made, fret);
}

static double between(const struct virtual_instrument *made, int string, double bass, double treble)
{
    return treble + (bass - treble) * (string - 1) / (made->kind->strings - 1);
}

double virtual_gap_wanted(const struct virtual_instrument *made, int string)
{
    return between(made, string, made->kind->gap_bass_mm, made->kind->gap_treble_mm);
}

double virtual_action_wanted(const struct virtual_instrument *made, int string)
{
    return between(made, string, made->kind->action_bass_mm, made->kind->action_treble_mm);
}

double virtual_gap_at_target(const struct virtual_instrument *made, int string)
{
    struct virtual_instrument then = *made;

    if (!made->stuck)
        virtual_set_relief(&then, made->kind->relief_mm);
    then.saddle_mm[string] +=
        (virtual_action_wanted(&then, string) - virtual_action(&then, string)) *
        virtual_contact(&then) / virtual_station(&then, made->kind->action_fret);
    return virtual_gap(&then, string);
}

bool virtual_is_right(const struct virtual_instrument *made)
{
    if (!made->stuck && !(fabs(virtual_relief(made) - made->kind->relief_mm) <= 0.05))
        return false;
    for (int s = 1; s <= made->kind->strings; s++)
        if (!(fabs(virtual_gap(made, s) - virtual_gap_wanted(made, s)) <= 0.06) ||
            !(fabs(virtual_action(made, s) - virtual_action_wanted(made, s)) <= 0.3))
            return false;
    return true;
}

/* --- what a hand changes --- */

void virtual_set_relief(struct virtual_instrument *made, double relief_mm)
{
    const double now = virtual_relief(made);

    /* The relief goes with the rod in a straight line. */
    made->rod_mm += 1;
    const double one = virtual_relief(made) - now;
    made->rod_mm += (relief_mm - now) / one - 1;
}

void virtual_turn(struct virtual_instrument *made, double turns)
{
    const double taken_up = turns > 0 ? fmin(turns, made->loose_turns) : 0;

    made->loose_turns -= taken_up;
    if (made->per_turn_mm != 0)
        virtual_set_relief(made, virtual_relief(made) + (turns - taken_up) * made->per_turn_mm);
}

void virtual_season(struct virtual_instrument *made, double relief_mm, double lift_mm)
{
    const double now = virtual_relief(made);

    made->pulled_mm += 1;
    const double one = virtual_relief(made) - now;
    made->pulled_mm += relief_mm / one - 1;
    for (int s = 1; s <= made->kind->strings; s++)
        made->saddle_mm[s] += lift_mm;
}

void virtual_work_slot(struct virtual_instrument *made, int string, double mm)
{
    made->slot_mm[string] += mm;
}

void virtual_work_saddle(struct virtual_instrument *made, int string, double mm)
{
    made->saddle_mm[string] += mm;
    if (string == made->kind->strings)
        made->exposure_bass_mm += mm;
    if (string == 1)
        made->exposure_treble_mm += mm;
}

/* --- as it comes in --- */

/* Right to begin with, then made wrong. */
static void draw_strings(struct virtual_instrument *made, struct seeded *seed)
{
    const int strings = made->kind->strings;
    const bool cut_well = seeded_whole(seed, 0, 3) == 0;
    const double slots = seeded_between(seed, -0.02, 0.35);
    const double bass = seeded_between(seed, -0.6, 1.8),
                 treble = bass * seeded_between(seed, 0.6, 1);

    for (int s = 1; s <= strings; s++) {
        made->slot_mm[s] = made->saddle_mm[s] = 0;
        /* Twice, as the slot moves the action a little and the saddle the gap. */
        for (int i = 0; i < 4; i++) {
            made->slot_mm[s] += virtual_gap_wanted(made, s) - virtual_gap(made, s);
            made->saddle_mm[s] += 2 * (virtual_action_wanted(made, s) - virtual_action(made, s));
        }
    }
    for (int s = 1; s <= strings; s++) {
        made->slot_mm[s] +=
            cut_well ? virtual_normal(seed, 0.02) : slots + virtual_normal(seed, 0.05);
        virtual_work_saddle(made, s,
                            2 * between(made, s, bass, treble) + virtual_normal(seed, 0.1));
    }
}

void virtual_instrument_draw(struct virtual_instrument *made, const struct virtual_kind *kind,
                             struct seeded *seed)
{
    *made = (struct virtual_instrument){.kind = kind};
    draw_neck(made, seed);
    for (int n = 1; n <= kind->frets; n++)
        made->uneven_mm[n] = virtual_normal(seed, 0.012);
    made->fall_mm = fabs(virtual_normal(seed, 0.1));
    made->relief_fret = kind->join / 2;
    made->pulled_mm = seeded_between(seed, 1, 2);
    virtual_set_relief(made, kind->relief_mm);
    made->exposure_bass_mm = made->exposure_treble_mm = kind->exposure_mm;
    draw_strings(made, seed);
    if (seeded_whole(seed, 0, 3) > 0)
        virtual_set_relief(made, kind->relief_mm + seeded_between(seed, -0.2, 0.45));
}

void virtual_instrument_spoil(struct virtual_instrument *made, struct seeded *seed)
{
    const double per_turn_mm = seeded_between(seed, 0.3, 0.6);

    switch (seeded_whole(seed, 0, 2)) {
    case 0:
        made->stuck = true;
        break;
    case 1:
        made->per_turn_mm = per_turn_mm;
        break;
    default:
        made->per_turn_mm = -per_turn_mm;
        made->uneven_mm[made->kind->action_fret] += seeded_between(seed, 0.2, 0.35);
        made->loose_turns = seeded_whole(seed, 0, 1) ? 0.75 : 0;
    }
    if (made->per_turn_mm >= 0 || made->loose_turns > 0)
        virtual_set_relief(made, made->kind->relief_mm + seeded_between(seed, 0.15, 0.45));
}
