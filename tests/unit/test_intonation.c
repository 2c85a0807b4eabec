/* SPDX-License-Identifier: MIT */
#include "near.h"
#include "seeded.h"
#include "worked_strings.h"

#include <math.h>
#include <stddef.h>

#include "model/pitch/intonation.h"
#include "model/pitch/intonation_reading.h"

/* A string with random values within the range of real instruments. */
static void draw(struct seeded *seeded, struct worked_board *board,
                 struct intonation_setup *ret_setup, struct intonation_ends *ret_ends)
{
    worked_as_found(seeded_whole(seeded, 0, WORKED_STRINGS - 1), board, ret_setup);
    ret_setup->conditions.press_distance_mm = seeded_between(seeded, 0.5, 14);
    ret_setup->conditions.press_depth_mm = seeded_between(seeded, 0.01, 0.8);
    ret_setup->conditions.free_length_mm = seeded_between(seeded, 0, 200);
    ret_setup->conditions.clamped_ends = seeded_between(seeded, 0.01, 1.99);
    ret_setup->nut_height_mm += seeded_between(seeded, -0.1, 0.5);
    ret_setup->saddle_height_mm += seeded_between(seeded, -2, 3);
    ret_setup->modulus_mpa *= seeded_between(seeded, 0.1, 1.2);
    *ret_ends =
        (struct intonation_ends){seeded_between(seeded, -1, 5), seeded_between(seeded, -0.5, 1)};
}

static double cents_at(const struct intonation_setup *setup, double s, double v, double p, double e,
                       int fret)
{
    struct intonation_setup other = *setup;
    const struct intonation_ends ends = {s, v};
    struct intonation_note note;

    other.conditions.press_depth_mm = p;
    other.conditions.clamped_ends = e;
    assert_int_equal(intonation_find_note(&other, &ends, fret, &note, NULL), STATUS_OK);
    return note.cents;
}

/* The slopes against differences of the cents themselves. */
static void test_slopes(void **state)
{
    (void)state;
    struct seeded seeded = seeded_start("slopes");
    const double h = 1e-4;

    for (int k = 0; k < 300; k++) {
        struct worked_board board;
        struct intonation_setup setup;
        struct intonation_ends ends;
        struct intonation_note note;
        struct intonation_slope slope;

        draw(&seeded, &board, &setup, &ends);

        int n = seeded_whole(&seeded, 1, WORKED_FRETS);
        double s = ends.setback_mm, v = ends.nut_advance_mm;
        double p = setup.conditions.press_depth_mm, e = setup.conditions.clamped_ends;

        assert_int_equal(intonation_find_note(&setup, &ends, n, &note, &slope), STATUS_OK);
        assert_near(slope.setback,
                    (cents_at(&setup, s + h, v, p, e, n) - cents_at(&setup, s - h, v, p, e, n)) /
                        (2 * h),
                    1e-6);
        assert_near(slope.nut_advance,
                    (cents_at(&setup, s, v + h, p, e, n) - cents_at(&setup, s, v - h, p, e, n)) /
                        (2 * h),
                    1e-6);
        assert_near(slope.press_depth,
                    (cents_at(&setup, s, v, p + h, e, n) - cents_at(&setup, s, v, p - h, e, n)) /
                        (2 * h),
                    1e-4);
        assert_near(slope.clamped_ends,
                    (cents_at(&setup, s, v, p, e + h, n) - cents_at(&setup, s, v, p, e - h, n)) /
                        (2 * h),
                    1e-6);
    }
}

/* Without stiffness, stretch and height there is nothing to compensate. */
static void test_compensation_vanishes_with_its_causes(void **state)
{
    (void)state;
    struct worked_board board;
    struct intonation_setup setup;
    struct intonation_best best;
    double setback, before = (double)INFINITY;

    for (double share = 1; share > 1e-7; share /= 10) {
        worked_at_target(5, &board, &setup);
        setup.modulus_mpa *= share * share;
        setup.nut_height_mm *= share;
        setup.saddle_height_mm *= share;
        for (int n = 0; n <= WORKED_FRETS; n++)
            board.crown_mm[n] *= share;
        assert_int_equal(intonation_find_setback(&setup, 12, &setback), STATUS_OK);
        assert_true(setback > 0 && setback < before / 5);
        before = setback;
        assert_int_equal(intonation_find_best(&setup, 1, 12, &best), STATUS_OK);
        assert_true(fabs(best.ends.setback_mm) < 2 * setback);
        assert_true(fabs(best.ends.nut_advance_mm) < setback);
    }
    assert_near(before, 0, 1e-6);
}

/* A perfectly limp string over flat frets: a setback shifts fret n as lengths alone say. */
static void test_limp_string_is_geometry(void **state)
{
    (void)state;
    struct worked_board board;
    struct intonation_setup setup;
    const struct intonation_ends ends = {2, 0.3};
    double cents[WORKED_FRETS + 1];

    worked_at_target(0, &board, &setup);
    setup.modulus_mpa = 1e-20;
    setup.nut_height_mm = setup.saddle_height_mm = 0;
    for (int n = 0; n <= WORKED_FRETS; n++)
        board.crown_mm[n] = 0;
    setup.conditions.press_distance_mm = 0;
    assert_int_equal(intonation_find_cents(&setup, &ends, cents), STATUS_OK);
    for (int n = 1; n <= WORKED_FRETS; n++) {
        double ratio = (WORKED_SCALE_MM + 2 - 0.3) / (WORKED_SCALE_MM + 2 - board.fret_mm[n]);

        assert_near(cents[n], 1200 * log2(ratio) - 100 * n, 1e-9);
    }
}

/* Deeper pressing and firmer ends: sharper, never flatter. */
static void test_what_sharpens(void **state)
{
    (void)state;
    struct seeded seeded = seeded_start("sharpens");

    for (int k = 0; k < 200; k++) {
        struct worked_board board;
        struct intonation_setup setup, more;
        struct intonation_ends ends;
        struct intonation_note note, sharper;
        int n = seeded_whole(&seeded, 1, WORKED_FRETS);

        draw(&seeded, &board, &setup, &ends);
        assert_int_equal(intonation_find_note(&setup, &ends, n, &note, NULL), STATUS_OK);
        assert_true(note.tension_n >= note.open_tension_n);
        more = setup;
        more.conditions.press_depth_mm += 0.1;
        assert_int_equal(intonation_find_note(&more, &ends, n, &sharper, NULL), STATUS_OK);
        assert_true(sharper.cents > note.cents);
        /* Near the nut the length hardly shrinks, and the tension may gain on it. */
        if (n < 12)
            continue;
        more = setup;
        more.conditions.clamped_ends += 0.01;
        assert_int_equal(intonation_find_note(&more, &ends, n, &sharper, NULL), STATUS_OK);
        assert_true(sharper.cents > note.cents);
    }
}

static void test_fretted_tension(void **state)
{
    (void)state;
    struct worked_board board;
    struct intonation_setup setup;
    const struct intonation_ends ends = {.setback_mm = 1.5};
    struct intonation_note note;

    worked_as_found(0, &board, &setup);
    assert_int_equal(intonation_find_note(&setup, &ends, 0, &note, NULL), STATUS_OK);
    assert_near(note.open_tension_n, note.tension_n, 0);
    /* l0 for Ls is a part in 50 000 here. */
    assert_near_relative(note.open_tension_n, worked_tension_n[0], 1e-4);
    assert_int_equal(intonation_find_note(&setup, &ends, 12, &note, NULL), STATUS_OK);
    assert_true(note.tension_n > note.open_tension_n);
}

/* Common practice: about 0.015 in of setback a cent at fret 12 of a 25.5 in scale. */
static void test_setback_a_cent(void **state)
{
    (void)state;
    double change;

    assert_int_equal(intonation_setback_change(25.5 * 25.4, 12.75 * 25.4, 1, &change), STATUS_OK);
    assert_near(change / 25.4, 0.015, 0.0005);
    assert_int_equal(intonation_setback_change(647.7, 323.85, 0, &change), STATUS_OK);
    assert_near(change, 0, 0);
}

/* After the change the lengths alone put the note right: the definition of the formula. */
static void test_setback_change_cures_its_reading(void **state)
{
    (void)state;
    struct seeded seeded = seeded_start("setback_change");

    for (int k = 0; k < 300; k++) {
        double length = seeded_between(&seeded, 300, 900);
        double fret = length * (1 - exp2(-seeded_whole(&seeded, 3, 20) / 12.0));
        double cents = seeded_between(&seeded, -60, 60), change;

        assert_int_equal(intonation_setback_change(length, fret, cents, &change), STATUS_OK);

        double was = log2(length / (length - fret));
        double is = log2((length + change) / (length + change - fret));

        assert_near(1200 * (is - was), -cents, 1e-7);
    }
}

static void test_readings_that_ask_too_much(void **state)
{
    (void)state;
    double change = 7;

    assert_int_equal(intonation_setback_change(640, 320, 1200, &change), STATUS_DOMAIN);
    assert_int_equal(intonation_setback_change(640, 640, 1, &change), STATUS_DOMAIN);
    assert_int_equal(intonation_setback_change(640, 0, 1, &change), STATUS_DOMAIN);
    assert_int_equal(intonation_setback_change((double)NAN, 320, 1, &change), STATUS_DOMAIN);
    assert_int_equal(intonation_setback_change(640, (double)NAN, 1, &change), STATUS_DOMAIN);
    assert_int_equal(intonation_setback_change(640, 320, (double)NAN, &change), STATUS_DOMAIN);
    assert_int_equal(intonation_setback_change((double)INFINITY, 320, 1, &change), STATUS_DOMAIN);
    assert_int_equal(intonation_setback_change(640, 320, -(double)INFINITY, &change),
                     STATUS_DOMAIN);
    assert_near(change, 7, 0);
}

static void test_fit_needs_two_frets(void **state)
{
    (void)state;
    const struct fret_cents same[] = {{12, 4}, {12, 5}};
    const struct fret_cents bad[] = {{12, 4}, {5, (double)NAN}};
    const struct fret_cents far_off[] = {{12, 4}, {65, 1}};
    struct intonation_fit fit = {{7, 7}, 7, {7, 7}};

    assert_int_equal(intonation_fit_readings(640, same, 0, &fit), STATUS_ABSENT);
    assert_int_equal(intonation_fit_readings(640, same, 1, &fit), STATUS_ABSENT);
    assert_int_equal(intonation_fit_readings(640, same, 2, &fit), STATUS_ABSENT);
    assert_int_equal(intonation_fit_readings(640, bad, 2, &fit), STATUS_DOMAIN);
    assert_int_equal(intonation_fit_readings(640, far_off, 2, &fit), STATUS_DOMAIN);
    assert_int_equal(intonation_fit_readings(0, same, 2, &fit), STATUS_DOMAIN);
    assert_int_equal(intonation_fit_readings((double)NAN, same, 2, &fit), STATUS_DOMAIN);
    assert_near(fit.cents_left_rms, 7, 0);
}

/* The fit is linear in its readings, so each moved by a whole cent gives its part. */
static void test_fit_answers_to_its_readings(void **state)
{
    (void)state;
    struct fret_cents readings[] = {{3, 5}, {5, 4}, {9, -1}, {12, 2}};
    enum { COUNT = sizeof readings / sizeof readings[0] };
    struct intonation_fit fit, moved;
    double setback = 0, advance = 0;

    assert_int_equal(intonation_fit_readings(640, readings, COUNT, &fit), STATUS_OK);
    for (int i = 0; i < COUNT; i++) {
        readings[i].cents += 1;
        assert_int_equal(intonation_fit_readings(640, readings, COUNT, &moved), STATUS_OK);
        readings[i].cents -= 1;
        setback = hypot(setback, moved.change.setback_mm - fit.change.setback_mm);
        advance = hypot(advance, moved.change.nut_advance_mm - fit.change.nut_advance_mm);
    }
    assert_near_relative(fit.u_per_cent.setback_mm, setback, 1e-9);
    assert_near_relative(fit.u_per_cent.nut_advance_mm, advance, 1e-9);
}

/* Two readings, two unknowns: nothing is left. */
static void test_fit_through_two_readings(void **state)
{
    (void)state;
    const struct fret_cents readings[] = {{3, 5}, {12, 2}};
    struct intonation_fit fit;

    assert_int_equal(intonation_fit_readings(640, readings, 2, &fit), STATUS_OK);
    assert_near(fit.cents_left_rms, 0, 1e-12);
    assert_near(2 + 1731.23 / 640 * (-fit.change.setback_mm - fit.change.nut_advance_mm), 0, 1e-12);
}

static void test_missing_frets_and_strings(void **state)
{
    (void)state;
    struct worked_board board;
    struct intonation_setup setup;
    const struct intonation_ends none = {0, 0};
    struct intonation_note note;
    struct intonation_best best = {{7, 7}, 7};
    double out = 7;

    worked_as_found(0, &board, &setup);
    assert_int_equal(intonation_find_note(&setup, &none, WORKED_FRETS + 1, &note, NULL),
                     STATUS_ABSENT);
    assert_int_equal(intonation_find_note(&setup, &none, -1, &note, NULL), STATUS_DOMAIN);
    assert_int_equal(intonation_find_setback(&setup, 0, &out), STATUS_DOMAIN);
    assert_int_equal(intonation_find_best(&setup, 0, 12, &best), STATUS_DOMAIN);
    assert_int_equal(intonation_find_best(&setup, 5, 5, &best), STATUS_DOMAIN);
    setup.frets = 10;
    assert_int_equal(intonation_find_setback(&setup, 12, &out), STATUS_ABSENT);
    assert_int_equal(intonation_find_best(&setup, 1, 12, &best), STATUS_ABSENT);
    setup.frets = INTONATION_FRETS_MAX + 1;
    assert_int_equal(intonation_find_cents(&setup, &none, &out), STATUS_DOMAIN);
    setup.frets = -1;
    assert_int_equal(intonation_find_cents(&setup, &none, &out), STATUS_DOMAIN);
    worked_as_found(0, &board, &setup);
    setup.core = (struct string_core){0, 0, 0};
    assert_int_equal(intonation_find_setback(&setup, 12, &out), STATUS_ABSENT);
    worked_as_found(0, &board, &setup);
    setup.mass_kg_per_m = 0;
    assert_int_equal(intonation_find_best(&setup, 1, 12, &best), STATUS_ABSENT);
    assert_near(out + best.cents_rms, 14, 0);
}

/* Calls everything with one setup: no crash, nothing but finite figures. */
static void check_all(const struct intonation_setup *setup, const struct intonation_ends *ends)
{
    double cents[INTONATION_FRETS_MAX + 1] = {7};
    struct intonation_note note = {0};
    struct intonation_slope slope = {0};
    struct intonation_best best = {{0, 0}, 0};
    double setback = 0;

    if (intonation_find_cents(setup, ends, cents) != STATUS_OK)
        assert_near(cents[0], 7, 0);
    for (int n = 0; n <= WORKED_FRETS; n++) {
        assert_true(isfinite(cents[n]));
        (void)intonation_find_note(setup, ends, n, &note, &slope);
        assert_true(isfinite(note.cents + note.tension_n + note.open_tension_n));
        assert_true(isfinite(note.length_mm + note.open_length_mm));
        assert_true(isfinite(slope.setback + slope.nut_advance));
        assert_true(isfinite(slope.press_depth + slope.clamped_ends));
    }
    (void)intonation_find_setback(setup, 12, &setback);
    (void)intonation_find_best(setup, 1, 12, &best);
    assert_true(isfinite(setback));
    assert_true(isfinite(best.ends.setback_mm + best.ends.nut_advance_mm + best.cents_rms));
}

static void test_hostile_setups(void **state)
{
    (void)state;
    static const double hostile[] = {
        0,     -0.0, -1,     1e-300,           -1e-300,           1e-12,      1e6, 1e150,
        1e300, -1e6, -1e300, (double)INFINITY, -(double)INFINITY, (double)NAN};

    for (size_t i = 0; i < sizeof hostile / sizeof hostile[0]; i++) {
        for (int field = 0; field < 18; field++) {
            struct worked_board board;
            struct intonation_setup setup;
            struct intonation_ends ends = {2, 0.1};

            worked_as_found(2, &board, &setup);

            double *fields[] = {&setup.mass_kg_per_m,
                                &setup.hz,
                                &setup.core.area_mm2,
                                &setup.core.second_moment_mm4,
                                &setup.core.diameter_mm,
                                &setup.modulus_mpa,
                                &setup.conditions.press_distance_mm,
                                &setup.conditions.press_depth_mm,
                                &setup.conditions.free_length_mm,
                                &setup.conditions.clamped_ends,
                                &setup.scale_mm,
                                &setup.nut_height_mm,
                                &setup.saddle_height_mm,
                                &board.fret_mm[5],
                                &board.crown_mm[5],
                                &board.crown_mm[12],
                                &ends.setback_mm,
                                &ends.nut_advance_mm};

            *fields[field] = hostile[i];
            check_all(&setup, &ends);
        }
    }
}

static void test_hostile_stiffness(void **state)
{
    (void)state;
    double factor = 7;

    assert_int_equal(intonation_stiffness_factor(-1, 1, &factor), STATUS_DOMAIN);
    assert_int_equal(intonation_stiffness_factor(0.1, 2.1, &factor), STATUS_DOMAIN);
    assert_int_equal(intonation_stiffness_factor(0.1, -0.1, &factor), STATUS_DOMAIN);
    assert_int_equal(intonation_stiffness_factor((double)NAN, 1, &factor), STATUS_DOMAIN);
    assert_int_equal(intonation_stiffness_factor(0.1, (double)NAN, &factor), STATUS_DOMAIN);
    assert_int_equal(intonation_stiffness_factor((double)INFINITY, 1, &factor), STATUS_DOMAIN);
    assert_near(factor, 7, 0);
    assert_int_equal(intonation_stiffness_factor(0, 2, &factor), STATUS_OK);
    assert_near(factor, 1, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_slopes),
        cmocka_unit_test(test_compensation_vanishes_with_its_causes),
        cmocka_unit_test(test_limp_string_is_geometry),
        cmocka_unit_test(test_what_sharpens),
        cmocka_unit_test(test_fretted_tension),
        cmocka_unit_test(test_setback_a_cent),
        cmocka_unit_test(test_setback_change_cures_its_reading),
        cmocka_unit_test(test_readings_that_ask_too_much),
        cmocka_unit_test(test_fit_needs_two_frets),
        cmocka_unit_test(test_fit_answers_to_its_readings),
        cmocka_unit_test(test_fit_through_two_readings),
        cmocka_unit_test(test_missing_frets_and_strings),
        cmocka_unit_test(test_hostile_setups),
        cmocka_unit_test(test_hostile_stiffness),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
