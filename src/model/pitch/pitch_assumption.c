/* SPDX-License-Identifier: MIT */
#include "model/pitch/pitch_assumption.h"

#include <math.h>

#define AS_USED     ((double)NAN)
#define FROM_RECORD ((double)NAN)

static const struct pitch_assumption assumptions[PITCH_ASSUMPTION_COUNT_] = {
#define ASSUMPTION(id, about_, centre_, shape_, size_, label_, source_)                            \
    [PITCH_ASSUMPTION_##id] = {.about = ABOUT_##about_,                                            \
                               .centre = (centre_),                                                \
                               .shape = SHAPE_##shape_,                                            \
                               .size = (size_),                                                    \
                               .label = (label_),                                                  \
                               .source = (source_)},
#include "model/pitch/pitch_assumption_table.h"
#undef ASSUMPTION
};

const struct pitch_assumption *pitch_assumption_get(enum pitch_assumption_id id)
{
    return &assumptions[id];
}

const struct pitch_assumption_ways *pitch_assumption_ways(enum pitch_assumption_shape shape)
{
    static const struct pitch_assumption_ways ways[] = {
        [SHAPE_NORMAL] = {{-1.5, 1.5}, {0, 1, 0, 3, 0, 15, 0, 105}},
        [SHAPE_RECTANGLE] = {{-0.75, 0.75}, {0, 1.0 / 3, 0, 1.0 / 5, 0, 1.0 / 7, 0, 1.0 / 9}},
        [SHAPE_TRIANGLE] = {{-0.6, 0.6}, {0, 1.0 / 6, 0, 1.0 / 15, 0, 1.0 / 28, 0, 1.0 / 45}},
        [SHAPE_FALLING] = {{0.35, 0.7},
                           {1.0 / 3, 1.0 / 6, 1.0 / 10, 1.0 / 15, 1.0 / 21, 1.0 / 28, 1.0 / 36,
                            1.0 / 45}},
        [SHAPE_UPWARD] = {{0.35, 0.8},
                          {1.0 / 2, 1.0 / 3, 1.0 / 4, 1.0 / 5, 1.0 / 6, 1.0 / 7, 1.0 / 8, 1.0 / 9}},
    };
    return &ways[shape];
}

double pitch_assumption_variance(enum pitch_assumption_shape shape)
{
    const double *moment = pitch_assumption_ways(shape)->moment;

    return moment[1] - moment[0] * moment[0];
}

static void move_conditions(enum pitch_assumption_about about, double by,
                            struct intonation_conditions *conditions)
{
    switch (about) {
    case ABOUT_ENDS:
        conditions->clamped_ends = fmin(fmax(conditions->clamped_ends + by, 0), 2);
        return;
    case ABOUT_DEPTH:
        conditions->press_depth_mm = fmax(conditions->press_depth_mm + by, 0);
        return;
    case ABOUT_DISTANCE:
        conditions->press_distance_mm = fmax(conditions->press_distance_mm + by, 0);
        return;
    case ABOUT_FREE:
        conditions->free_length_mm = fmax(conditions->free_length_mm + by, 0);
        return;
    default:
        return;
    }
}

static void move_core(double share, bool mass_follows, struct intonation_setup *string)
{
    const double times = fmax(1 + share, 0.1), square = times * times;

    string->core.diameter_mm *= times;
    string->core.area_mm2 *= square;
    string->core.second_moment_mm4 *= square * square;
    string->mass_kg_per_m *= mass_follows ? square : 1;
}

static void move_string(enum pitch_assumption_about about, double by, bool mass_follows,
                        struct intonation_setup *string)
{
    move_conditions(about, by, &string->conditions);
    if (about == ABOUT_MODULUS)
        string->modulus_mpa *= fmax(1 + by, 0.1);
    else if (about == ABOUT_MASS)
        string->mass_kg_per_m *= fmax(1 + by, 0.1);
    else if (about == ABOUT_CORE)
        move_core(by, mass_follows, string);
    else if (about == ABOUT_CORE_MM && string->core.diameter_mm > 0)
        move_core(by / string->core.diameter_mm, mass_follows, string);
}

/* A straight string through one height at fret 1 and one at the action fret, each off by its own.
 */
static void raise_string(double at_first, double at_action, struct pitch_case *moved)
{
    const double span = moved->action_mm - moved->first_mm;

    if (!(span > 0))
        return;
    const double slope = (at_action - at_first) / span;

    moved->target.nut_height_mm += at_first - slope * moved->first_mm;
    moved->target.saddle_height_mm += at_first + slope * (moved->target.scale_mm - moved->first_mm);
}

void pitch_assumption_move(enum pitch_assumption_about about, double by, struct pitch_case *moved)
{
    move_string(about, by, moved->mass_follows_core, &moved->now);
    move_string(about, by, moved->mass_follows_core, &moved->target);
    if (about == ABOUT_CONTACT)
        moved->ends.setback_mm += by;
    else if (about == ABOUT_ACTION)
        raise_string(0, by, moved);
    else if (about == ABOUT_GAP)
        raise_string(by, 0, moved);
}

void pitch_assumption_set_pressed(double depth_mm, double ends, struct pitch_case *moved)
{
    struct intonation_conditions conditions = moved->now.conditions;

    conditions.press_depth_mm = fmax(depth_mm, 0);
    conditions.clamped_ends = fmin(fmax(ends, 0), 2);
    moved->now.conditions = moved->target.conditions = conditions;
}
