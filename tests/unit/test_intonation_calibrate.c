/* SPDX-License-Identifier: MIT */
#include "near.h"
#include "seeded.h"
#include "worked_strings.h"

#include <math.h>
#include <stddef.h>

#include "model/pitch/intonation_calibrate.h"

enum { READINGS = 24 };

/* Four frets on each of the worked strings. */
struct bench {
    struct worked_board boards[WORKED_STRINGS];
    struct intonation_setup setups[WORKED_STRINGS];
    struct intonation_reading readings[READINGS];
};

/* Readings as a player with this press depth and these ends would make them. */
static void make_bench(struct bench *bench, double depth_mm, double ends)
{
    for (int i = 0; i < READINGS; i++) {
        int string = i % WORKED_STRINGS;
        struct intonation_setup told;
        struct intonation_note note;

        worked_as_found(string, &bench->boards[string], &bench->setups[string]);
        told = bench->setups[string];
        told.conditions.press_depth_mm = depth_mm;
        told.conditions.clamped_ends = ends;
        bench->readings[i] = (struct intonation_reading){
            &bench->setups[string], {worked_setback_mm[string], 0}, 2 + i / WORKED_STRINGS * 5, 0};
        assert_int_equal(intonation_find_note(&told, &bench->readings[i].ends,
                                              bench->readings[i].fret, &note, NULL),
                         STATUS_OK);
        bench->readings[i].cents = note.cents;
    }
}

/* Perfect readings give the player back, wherever the search begins. */
static void test_perfect_readings(void **state)
{
    (void)state;
    struct seeded seeded = seeded_start("perfect");
    struct bench bench;

    for (int k = 0; k < 50; k++) {
        double depth = seeded_between(&seeded, 0.05, 1.5), ends = seeded_between(&seeded, 0.1, 1.9);
        struct intonation_calibration got;

        make_bench(&bench, depth, ends);
        assert_int_equal(intonation_calibrate(bench.readings, READINGS,
                                              seeded_between(&seeded, 0, 3),
                                              seeded_between(&seeded, 0, 2), 0.3, &got),
                         STATUS_OK);
        assert_near(got.press_depth_mm.value, depth, 1e-6);
        assert_near(got.clamped_ends.value, ends, 1e-6);
        assert_near(got.cents_rms_after, 0, 1e-6);
        assert_true(got.cents_rms_before > got.cents_rms_after);
        assert_true(got.press_depth_mm.fitted && got.clamped_ends.fitted);
        assert_true(!got.press_depth_mm.at_limit && !got.clamped_ends.at_limit);
        assert_int_equal(got.readings, READINGS);
    }
}

/* The claimed +- against the spread over many drawn sets of readings: of 400, about 95 in a
 * hundred lie within k = 2 (JCGM 100:2008, 6.2). */
static void test_uncertainty_is_honest(void **state)
{
    (void)state;
    struct seeded seeded = seeded_start("uncertainty");
    const int sets = 400;
    int depth_within = 0, ends_within = 0;
    struct bench bench, drawn;

    make_bench(&bench, 0.6, 1.0);
    for (int k = 0; k < sets; k++) {
        struct intonation_calibration got;

        drawn = bench;
        for (int i = 0; i < READINGS; i++)
            drawn.readings[i].cents += seeded_between(&seeded, -1, 1);
        assert_int_equal(intonation_calibrate(drawn.readings, READINGS, 0, 1, 1 / sqrt(3), &got),
                         STATUS_OK);
        depth_within += fabs(got.press_depth_mm.value - 0.6) <= got.press_depth_mm.expanded_u;
        ends_within += fabs(got.clamped_ends.value - 1.0) <= got.clamped_ends.expanded_u;
    }
    assert_true(depth_within > 0.92 * sets && depth_within < sets);
    assert_true(ends_within > 0.92 * sets && ends_within < sets);
}

/* Readings that no press depth explains must not look sure: what is left widens the +-. */
static void test_misfit_widens(void **state)
{
    (void)state;
    struct bench bench;
    struct intonation_calibration good, bad;

    make_bench(&bench, 0.6, 1.0);
    assert_int_equal(intonation_calibrate(bench.readings, READINGS, 0, 1, 0.3, &good), STATUS_OK);
    for (int i = 0; i < READINGS; i++)
        bench.readings[i].cents += i % 2 ? 8 : -8;
    assert_int_equal(intonation_calibrate(bench.readings, READINGS, 0, 1, 0.3, &bad), STATUS_OK);
    assert_true(bad.cents_rms_after > 5);
    assert_true(bad.press_depth_mm.expanded_u > 10 * good.press_depth_mm.expanded_u);
}

/* Readings flatter than any way of pressing makes them end at the limit, and say so. */
static void test_limits_are_told(void **state)
{
    (void)state;
    struct bench bench;
    struct intonation_calibration got;

    make_bench(&bench, 0.0, 0.5);
    for (int i = 0; i < READINGS; i++)
        bench.readings[i].cents -= 20;
    assert_int_equal(intonation_calibrate(bench.readings, READINGS, 1, 1, 0.3, &got), STATUS_OK);
    assert_near(got.press_depth_mm.value, 0, 1e-9);
    assert_true(got.press_depth_mm.at_limit && !got.press_depth_mm.pinned);

    make_bench(&bench, 0.3, 2.0);
    for (int i = 0; i < READINGS; i++)
        bench.readings[i].cents += 60;
    assert_int_equal(intonation_calibrate(bench.readings, READINGS, 0, 1, 0.3, &got), STATUS_OK);
    assert_true(got.press_depth_mm.value >= 0 &&
                got.press_depth_mm.value <= CALIBRATE_PRESS_DEPTH_MAX_MM);
    assert_true(got.clamped_ends.value >= 0 &&
                got.clamped_ends.value <= CALIBRATE_CLAMPED_ENDS_MAX);
}

/* One reading tells one number: the press depth. */
static void test_one_reading(void **state)
{
    (void)state;
    struct bench bench;
    struct intonation_calibration got;

    make_bench(&bench, 0.6, 1.0);
    assert_int_equal(intonation_calibrate(bench.readings, 1, 0, 1.0, 0.3, &got), STATUS_OK);
    assert_near(got.press_depth_mm.value, 0.6, 1e-6);
    assert_near(got.clamped_ends.value, 1.0, 0);
    assert_true(!got.clamped_ends.fitted && !got.clamped_ends.pinned);
    assert_near(got.correlation, 0, 0);
}

static void test_hostile_readings(void **state)
{
    (void)state;
    static const double hostile[] = {(double)INFINITY, -(double)INFINITY, (double)NAN};
    struct bench bench;
    struct intonation_calibration got = {.readings = 7};

    make_bench(&bench, 0.6, 1.0);
    assert_int_equal(intonation_calibrate(bench.readings, 0, 0, 1, 0.3, &got), STATUS_ABSENT);
    assert_int_equal(intonation_calibrate(bench.readings, -1, 0, 1, 0.3, &got), STATUS_ABSENT);
    assert_int_equal(intonation_calibrate(bench.readings, READINGS, 0, 1, 0, &got), STATUS_DOMAIN);
    for (int i = 0; i < 3; i++) {
        double bad = hostile[i];
        struct intonation_reading odd[2] = {bench.readings[0], bench.readings[1]};

        assert_int_equal(intonation_calibrate(odd, 2, bad, 1, 0.3, &got), STATUS_DOMAIN);
        assert_int_equal(intonation_calibrate(odd, 2, 0, bad, 0.3, &got), STATUS_DOMAIN);
        assert_int_equal(intonation_calibrate(odd, 2, 0, 1, bad, &got), STATUS_DOMAIN);
        odd[1].cents = bad;
        assert_int_equal(intonation_calibrate(odd, 2, 0, 1, 0.3, &got), STATUS_DOMAIN);
        odd[1] = bench.readings[1];
        odd[1].ends.setback_mm = bad;
        assert_int_equal(intonation_calibrate(odd, 2, 0, 1, 0.3, &got), STATUS_DOMAIN);
    }

    struct intonation_reading odd = bench.readings[0];

    odd.fret = 0;
    assert_int_equal(intonation_calibrate(&odd, 1, 0, 1, 0.3, &got), STATUS_DOMAIN);
    odd.fret = WORKED_FRETS + 1;
    assert_int_equal(intonation_calibrate(&odd, 1, 0, 1, 0.3, &got), STATUS_ABSENT);
    assert_int_equal(got.readings, 7);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_perfect_readings), cmocka_unit_test(test_uncertainty_is_honest),
        cmocka_unit_test(test_misfit_widens),    cmocka_unit_test(test_limits_are_told),
        cmocka_unit_test(test_one_reading),      cmocka_unit_test(test_hostile_readings),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
