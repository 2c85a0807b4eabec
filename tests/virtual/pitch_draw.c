/* SPDX-License-Identifier: MIT */
#include "pitch_draw.h"

#include <math.h>
#include <stddef.h>

static double draw_shape(struct seeded *seed, enum pitch_assumption_shape shape, double size)
{
    switch (shape) {
    case SHAPE_NORMAL:
        return size * seeded_normal(seed);
    case SHAPE_RECTANGLE:
        return seeded_between(seed, -size, size);
    case SHAPE_TRIANGLE:
        return size * (seeded_between(seed, 0, 1) - seeded_between(seed, 0, 1));
    case SHAPE_FALLING:
        return size * fabs(seeded_between(seed, 0, 1) - seeded_between(seed, 0, 1));
    case SHAPE_UPWARD:
        return seeded_between(seed, 0, size);
    }
    return (double)NAN;
}

static void scale_core(struct string_facts *facts, double times, bool with_mass)
{
    facts->core.diameter_mm *= times;
    facts->core.area_mm2 *= pow(times, 2);
    facts->core.second_moment_mm4 *= pow(times, 4);
    if (with_mass)
        facts->mass.kg_per_m *= pow(times, 2);
}

struct drawn {
    struct string_facts facts;
    double ends, depth, distance, after, contact, action, gap; /* off by */
    double depth_by_tuner, ends_by_tuner;                      /* NaN: none */
};

static void draw_pressed(struct seeded *seed, const struct intonation_calibration *fit,
                         struct drawn *drawn)
{
    const double first = seeded_normal(seed), second = seeded_normal(seed), r = fit->correlation;

    drawn->depth_by_tuner = fit->press_depth_mm.value + first * fit->press_depth_mm.expanded_u / 2;
    drawn->ends_by_tuner = fit->clamped_ends.value + (r * first + sqrt(1 - r * r) * second) *
                                                         fit->clamped_ends.expanded_u / 2;
}

static void draw_one(struct seeded *seed, const struct pitch_assumption_held *held,
                     const struct intonation_calibration *fit, struct drawn *drawn)
{
    const struct pitch_assumption *assumption = pitch_assumption_get(held->id);
    const bool with_mass =
        drawn->facts.build.kind == BUILD_PLAIN && drawn->facts.mass.origin == MASS_BUILD;
    const double by = draw_shape(seed, assumption->shape, held->size);

    switch (assumption->about) {
    case ABOUT_ENDS:
        drawn->ends = by;
        return;
    case ABOUT_DEPTH:
        drawn->depth = by;
        return;
    case ABOUT_PRESSED:
        draw_pressed(seed, fit, drawn);
        return;
    case ABOUT_DISTANCE:
        drawn->distance = by;
        return;
    case ABOUT_FREE:
        drawn->after = by;
        return;
    case ABOUT_MODULUS:
        drawn->facts.modulus_mpa *= 1 + by;
        return;
    case ABOUT_CORE:
        scale_core(&drawn->facts, 1 + by, with_mass);
        return;
    case ABOUT_CORE_MM:
        scale_core(&drawn->facts, 1 + by / drawn->facts.core.diameter_mm, with_mass);
        return;
    case ABOUT_MASS:
        drawn->facts.mass.kg_per_m *= 1 + by;
        return;
    case ABOUT_CONTACT:
        drawn->contact = by;
        return;
    case ABOUT_ACTION:
        drawn->action = by;
        return;
    case ABOUT_GAP:
        drawn->gap = by;
        return;
    }
}

static void draw_reading(struct seeded *seed, struct maybe *reading, double step)
{
    if (reading->given)
        reading->value += seeded_between(seed, -step / 2, step / 2);
}

static void draw_readings(struct seeded *seed, struct setup *setup)
{
    for (int i = 0; i < setup->relief_count; i++)
        setup->relief[i].gap_mm +=
            seeded_between(seed, -setup->feeler_step_mm / 2, setup->feeler_step_mm / 2);
    for (int n = 1; n <= FRETS_MAX; n++)
        draw_reading(seed, &setup->spot_mm[n], setup->feeler_step_mm);
    draw_reading(seed, &setup->fall_away_mm, setup->feeler_step_mm);
    for (int s = 1; s <= STRINGS_MAX; s++) {
        draw_reading(seed, &setup->nut_gap_mm[s], setup->feeler_step_mm);
        draw_reading(seed, &setup->action_mm[s], setup->rule_step_mm);
    }
}

static double within(double value, double least, double most)
{
    return value < least ? least : value > most ? most : value;
}

static void set_conditions(const struct drawn *drawn, struct intonation_conditions *conditions)
{
    conditions->clamped_ends = within(conditions->clamped_ends + drawn->ends, 0, 2);
    conditions->press_depth_mm = within(conditions->press_depth_mm + drawn->depth, 0, 100);
    conditions->press_distance_mm = within(conditions->press_distance_mm + drawn->distance, 0, 100);
    conditions->free_length_mm = within(conditions->free_length_mm + drawn->after, 0, 1e4);
    if (isnan(drawn->depth_by_tuner))
        return;
    conditions->press_depth_mm = within(drawn->depth_by_tuner, 0, 100);
    conditions->clamped_ends = within(drawn->ends_by_tuner, 0, 2);
}

/* A straight string through a height at fret 1 and one at the action fret, each off by its own. */
static void set_heights(const struct drawn *drawn, const struct board *board, int string,
                        struct intonation_setup *target)
{
    const double first = board->station_mm[string][1];
    const double second = board->station_mm[string][board->action_fret];
    const double slope = (drawn->action - drawn->gap) / (second - first);

    target->nut_height_mm += drawn->gap - slope * first;
    target->saddle_height_mm += drawn->gap + slope * (board->scale_mm[string] - first);
}

bool pitch_draw_truth(struct seeded *seed, const struct pitch_instrument *made,
                      const struct assumed *assumed, int string, struct pitch_outcomes *ret_truth)
{
    const struct board *board = &made->derived->setup.board;
    struct drawn drawn = {.facts = made->derived->string[string], .depth_by_tuner = (double)NAN};
    struct setup setup = made->derived->setup, flat;
    struct string_lines lines, flat_lines;
    struct pitch_case_store store;
    struct figures unused;
    struct pitch_case played;

    for (int i = 0; i < assumed->count; i++)
        draw_one(seed, &assumed->held[i], &assumed->calibration, &drawn);
    draw_readings(seed, &setup);
    flat = setup;
    board_drop_setbacks(&flat.board);
    moves_solve(&setup, NULL, &unused, NULL, &lines);
    moves_solve(&flat, &made->choice, &unused, NULL, &flat_lines);
    if (!derive_pitch_case(made->record, &setup, &drawn.facts, &lines, &flat_lines, string, &store,
                           &played))
        return false;
    set_conditions(&drawn, &played.now.conditions);
    set_conditions(&drawn, &played.target.conditions);
    set_heights(&drawn, board, string, &played.target);
    played.ends.setback_mm += drawn.contact;
    pitch_predict(&played, ret_truth);
    return true;
}
