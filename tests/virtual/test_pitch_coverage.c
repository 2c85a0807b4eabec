/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "build_record.h"
#include "model/derive/derive_pitch_u.h"
#include "near.h"
#include "seeded.h"
#include "store/profile/preset.h"
#include "store/profile/profile.h"
#include "survey_record.h"

/*
 * How often the truth lies within the ± of a predicted setback or note: the truth is the exact
 * model with every assumption drawn from what assumption_table.h says of it and every gauge
 * reading drawn within its step. What a draw does to a string is written out here once more, not
 * taken from the code that makes the ±.
 */

enum { DRAWS = 1500 };

enum watched { SETBACK, BEST, NUT, CENTS_1, CENTS_5, CENTS_12, WATCHED };

static const int outcome_of[WATCHED] = {
    OUTCOME_SETBACK,  OUTCOME_SETBACK_BEST, OUTCOME_NUT_BEST,
    OUTCOME_OPEN + 1, OUTCOME_OPEN + 5,     OUTCOME_OPEN + 12,
};

static int path_count;
static char **paths;

struct tally {
    int within[WATCHED], within_half[WATCHED], draws[WATCHED];
};

static double draw_shape(struct seeded *seed, enum assumption_shape shape, double size)
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

static void draw_one(struct seeded *seed, const struct assumption_held *held,
                     const struct intonation_calibration *fit, struct drawn *drawn)
{
    const struct assumption *assumption = assumption_get(held->id);
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

struct instrument {
    const struct record *record;
    const struct derived *derived;
    struct setup flat;
    struct move_choice choice;
    struct string_lines flat_lines;
};

/* The exact model, once. */
static bool draw_truth(struct seeded *seed, const struct instrument *made,
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

static double shown_u(const struct derived *derived, int string, enum watched watched,
                      double *ret_value)
{
    static const enum figure_id ids[] = {FIGURE_SETBACK_PREDICTED, FIGURE_SETBACK_BEST,
                                         FIGURE_NUT_ADVANCE_BEST};

    if (watched < CENTS_1) {
        const struct figure *figure = &derived->figures.at[ids[watched]][string];

        *ret_value = figure->known == KNOWN_ABSENT ? (double)NAN : figure->value;
        return figure->u;
    }
    const int fret = outcome_of[watched] - OUTCOME_OPEN;

    *ret_value = maybe_or(derived->pitch[string].cents[fret], (double)NAN);
    return derived->pitch[string].cents_u[fret];
}

static void count_draw(const struct derived *derived, int string,
                       const struct pitch_outcomes *truth, struct tally *tally)
{
    for (int w = 0; w < WATCHED; w++) {
        double value;
        const double u = shown_u(derived, string, (enum watched)w, &value);
        const double off = fabs(truth->at[outcome_of[w]] - value);

        if (isnan(value))
            continue;
        tally->draws[w]++;
        tally->within[w] += off <= u;
        tally->within_half[w] += off <= u / 2;
    }
}

static struct tally watch(struct seeded *seed, const struct record *record)
{
    struct tally tally = {.draws = {0}};
    struct instrument made = {.record = record};
    struct derived derived;
    struct figures unused;
    const struct place place = place_current(record);

    derive_current(record, &derived);
    made.derived = &derived;
    made.flat = derived.setup;
    board_drop_setbacks(&made.flat.board);
    moves_solve(&made.flat, NULL, &unused, &made.choice, &made.flat_lines);
    for (int s = 1; s <= derived.setup.board.strings; s++) {
        struct pitch_outcomes truth;
        struct assumed assumed;

        derive_assumed(place, &derived.setup, &made.choice, &derived.string[s], &derived.lines, s,
                       &assumed);
        for (int i = 0; i < DRAWS; i++)
            if (draw_truth(seed, &made, &assumed, s, &truth))
                count_draw(&derived, s, &truth, &tally);
    }
    return tally;
}

/* Prints a row of the table; false where a share is not near 95 %, or where half the ± would have
 * done as well. */
static bool print_row(const char *name, const struct tally *tally)
{
    bool good = true;

    fprintf(stderr, "%-28s", name);
    for (int w = 0; w < WATCHED; w++) {
        const double share = 100.0 * tally->within[w] / tally->draws[w];
        const double half = 100.0 * tally->within_half[w] / tally->draws[w];

        fprintf(stderr, " %6.1f", share);
        good = good && tally->draws[w] > 0 && share >= 93 && share <= 97 && half < 85;
    }
    fprintf(stderr, "%s\n", good ? "" : "  <-");
    return good;
}

static bool check(struct seeded *seed, const char *name, const struct record *record)
{
    const struct tally tally = watch(seed, record);

    return print_row(name, &tally);
}

static void print_heading(void)
{
    fprintf(stderr, "%-28s %6s %6s %6s %6s %6s %6s   %% within the +-\n", "instrument", "setb.",
            "best", "nut", "c. 1", "c. 5", "c. 12");
}

static const char *base_name(const char *path)
{
    const char *slash = strrchr(path, '/');

    return slash ? slash + 1 : path;
}

static void test_profiles(void **state)
{
    struct seeded seed = seeded_start("pitch coverage");
    bool good = path_count > 0;

    (void)state;
    print_heading();
    for (int i = 0; i < path_count; i++) {
        struct problems problems;
        struct profile *profile;

        problems_init(&problems);
        assert_int_equal(profile_open(paths[i], PROFILE_TO_READ, &problems, &profile), STATUS_OK);
        good = check(&seed, base_name(paths[i]), profile_record(profile)) && good;
        profile_close(profile);
        problems_done(&problems);
    }
    assert_true(good);
}

/* Measurements for a starting point: heights that are right on some strings and high on others. */
static void add_pass(struct record *record, const struct derived *derived)
{
    const struct setup *setup = &derived->setup;
    const int strings = setup->board.strings;

    build_record_add(record, "visit.1 date = 2026-03-02\nvisit.1.pass.1 relief = .010 in");
    for (int s = 1; s <= strings; s++) {
        const double high = s % 3 == 0 ? 0 : 0.2;
        const struct maybe action = setup_target_at(&setup->action_target_bass_mm,
                                                    &setup->action_target_treble_mm, strings, s);
        const struct maybe gap =
            setup_target_at(&setup->gap_target_bass_mm, &setup->gap_target_treble_mm, strings, s);

        build_record_put_mm(record, reading_key_pass_at(FIELD_ACTION, 1, 1, s, 0),
                            assert_given(action) + 2 * high);
        build_record_put_mm(record, reading_key_pass_at(FIELD_NUT_GAP, 1, 1, s, 0),
                            assert_given(gap) + high / 2);
    }
}

static void test_presets(void **state)
{
    struct seeded seed = seeded_start("pitch coverage, presets");
    bool good = true;

    (void)state;
    print_heading();
    for (int i = 0; preset_get(i); i++) {
        struct record record;
        struct derived derived;

        assert_int_equal(preset_record(preset_get(i), &record), STATUS_OK);
        derive_current(&record, &derived);
        if (derived.string[1].modulus_mpa > 0) {
            add_pass(&record, &derived);
            good = check(&seed, preset_get(i)->id, &record) && good;
        }
        record_done(&record);
    }
    assert_true(good);
}

/* What was entered narrows the ±, and has to hold what was entered. */
static void test_entered(void **state)
{
    struct seeded seed = seeded_start("pitch coverage, entered");
    struct record record;
    char line[80];

    (void)state;
    print_heading();
    survey_record_build(&record, "model clamped_ends = 1.4\nmodel press_depth = 0.2 mm\n"
                                 "model press_distance = 8 mm\nmodel free_length = 110 mm\n"
                                 "model core_modulus = 200 GPa");
    for (int s = 1; s <= 6; s++) {
        snprintf(line, sizeof line, "string.%d weigh_mass = %g g\nstring.%d weigh_length = 1000 mm",
                 s, 0.4 * s * s, s);
        build_record_add(&record, line);
        if (s >= 3) {
            snprintf(line, sizeof line, "string.%d core = .0%d5 in", s, 11 + s);
            build_record_add(&record, line);
        }
    }
    assert_true(check(&seed, "all of it entered", &record));
    record_done(&record);
}

/* Cents read with a tuner of 1 cent, of strings that are pressed and held otherwise than the model
 * takes it: the ± then holds what the cents say, though the values shown do not go by them. */
static void test_by_tuner(void **state)
{
    struct seeded seed = seeded_start("pitch coverage, by the tuner");
    struct derived played;
    struct record record;

    (void)state;
    print_heading();
    survey_record_derive(&record, "model press_depth = 0.25 mm\nmodel clamped_ends = 0.9", &played);
    build_record_add(&record, "model press_depth = 0.2 mm\nmodel clamped_ends = 1");
    for (int s = 1; s <= 6; s++)
        for (int fret = 1; fret <= 19; fret++) {
            const struct reading_key key = reading_key_pass_at(FIELD_CENTS, 1, 1, s, fret);
            char text[24];

            snprintf(text, sizeof text, "%.1f", assert_given(played.pitch[s].cents[fret]));
            assert_int_equal(record_put(&record, &key, text, false, NULL), STATUS_OK);
        }
    assert_true(check(&seed, "depth and ends by the tuner", &record));
    record_done(&record);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_profiles),
        cmocka_unit_test(test_presets),
        cmocka_unit_test(test_entered),
        cmocka_unit_test(test_by_tuner),
    };

    path_count = argc - 1;
    paths = argv + 1;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
