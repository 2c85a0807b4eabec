/* SPDX-License-Identifier: MIT */
#include "model/setup/neck_curve.h"

#include <limits.h>
#include <math.h>

#include "body_frame.h"
#include "near.h"
#include "seeded.h"

static struct board_plan plan_for(int join, int heel, int low, int relief)
{
    return (struct board_plan){.scale_treble_mm = 640,
                               .scale_bass_mm = 640,
                               .strings = 6,
                               .frets = 20,
                               .join_fret = join,
                               .heel_fret = heel,
                               .action_fret = 12,
                               .relief_fret = relief,
                               .relief_end_low = low,
                               .relief_end_high = -1};
}

static struct setup setup_on(const struct board_plan *plan)
{
    struct findings findings = {.count = 0};
    struct setup setup = {.has_board = true};

    assert_int_equal(board_init(&setup.board, plan, &findings), STATUS_OK);
    setup.outfit = outfit_plain(setup.board.strings);
    assert_int_equal(findings.count, 0);
    return setup;
}

static void add_relief(struct setup *setup, int fret, double gap)
{
    setup->relief[setup->relief_count++] = (struct relief_reading){fret, gap};
}

/* Chord from the nut to fret 12 and the heel there: a whole parabola on half the scale. Its
 * sagitta at x is kappa x (L/2 - x)/2 (any handbook of geometry), kappa (L/2)^2/8 midway. */
static void test_whole_parabola(void **state)
{
    const struct board_plan plan = plan_for(12, 12, 0, 5);
    struct setup setup = setup_on(&plan);
    const double kappa = 3e-5, x = setup.board.station_mm[LANE_MIDDLE][5];
    struct neck_curve curve;

    (void)state;
    assert_near(neck_curve_relief_mm(&setup.board, kappa), kappa * x * (320 - x) / 2, 1e-12);
    /* Fret 5 stands within 1 mm of the middle, so the sagitta there is within 1e-4 of it. */
    assert_near_relative(neck_curve_relief_mm(&setup.board, kappa), kappa * 320 * 320 / 8, 1e-4);
    add_relief(&setup, 5, 0.25);
    assert_int_equal(neck_curve_fit(&setup, &curve), STATUS_OK);
    assert_near_relative(curve.kappa_per_mm, 2 * 0.25 / (x * (320 - x)), 1e-12);
    assert_near(neck_curve_height_mm(&curve, &setup.board, 1, 5), -0.25, 1e-12);
    assert_near(neck_curve_height_mm(&curve, &setup.board, 1, 0), 0, 1e-12);
    assert_near(neck_curve_height_mm(&curve, &setup.board, 1, 12), 0, 1e-12);
    /* Beyond the heel the neck is straight: the body's line, as steep as the chord is tilted. */
    const double beyond = setup.board.station_mm[1][18] - 320;
    assert_near_relative(neck_curve_height_mm(&curve, &setup.board, 1, 18),
                         curve.kappa_per_mm * setup.board.tilt[1] * beyond, 1e-9);
}

/* Gauges on a neck in the body's frame, and what the chord's frame makes of them. */
static void test_against_the_bench(void **state)
{
    struct seeded seed = seeded_start("neck_curve");

    (void)state;
    for (int round = 0; round < 500; round++) {
        const int low = seeded_whole(&seed, 0, 2), join = seeded_whole(&seed, 11, 18);
        const struct board_plan plan =
            plan_for(join, seeded_whole(&seed, 8, join), low, seeded_whole(&seed, 4, 9));
        struct setup setup = setup_on(&plan);
        struct body_frame body = {.scale = 640,
                                  .contact = 640,
                                  .low = low,
                                  .high = join,
                                  .heel = setup.board.heel_fret,
                                  .last = 20,
                                  .kappa = seeded_between(&seed, -5e-5, 2e-4),
                                  .fall = seeded_between(&seed, 0, 0.4)};
        const int fret = setup.board.relief_fret;
        const double xa = body_station(&body, low), xb = body_station(&body, join);
        const double ya = body_neck(&body, xa), yb = body_neck(&body, xb);
        struct neck_curve curve;

        add_relief(&setup, fret, body_relief(&body, fret));
        setup.fall_away_mm = maybe_given(body.fall);
        assert_int_equal(neck_curve_fit(&setup, &curve), STATUS_OK);
        assert_near(curve.kappa_per_mm, body.kappa, 1e-15);
        assert_near(curve.kappa_per_mm * setup.board.tilt[LANE_MIDDLE], (ya - yb) / (xb - xa),
                    1e-14);
        for (int n = 0; n <= 20; n++) {
            const double chord = ya + (yb - ya) * (body_station(&body, n) - xa) / (xb - xa);

            assert_near(neck_curve_height_mm(&curve, &setup.board, 3, n),
                        body_crown(&body, n) - chord, 1e-11);
        }
    }
}

/* Several readings: the least squares curvature, and every reading still met exactly. */
static void test_several_reliefs(void **state)
{
    const struct board_plan plan = plan_for(14, 11, 1, 7);
    const int frets[] = {3, 5, 7, 9};
    const double gaps[] = {0.12, 0.20, 0.27, 0.18};
    struct setup setup = setup_on(&plan);
    struct neck_curve curve;
    double least = 0;

    (void)state;
    for (int i = 0; i < 4; i++)
        add_relief(&setup, frets[i], gaps[i]);
    setup.spot_mm[7] = maybe_given(0.03);
    assert_int_equal(neck_curve_fit(&setup, &curve), STATUS_OK);
    for (int i = 0; i < 4; i++) {
        const double spot = frets[i] == 7 ? 0.03 : 0;
        const double left = gaps[i] + curve.kappa_per_mm * setup.board.bend[0][frets[i]];

        assert_near(neck_curve_height_mm(&curve, &setup.board, LANE_MIDDLE, frets[i]),
                    spot - gaps[i], 1e-12);
        least += left * left;
    }
    for (int side = -1; side <= 1; side += 2) {
        double sum = 0;

        for (int i = 0; i < 4; i++)
            sum += pow(gaps[i] +
                           (1 + side * 1e-3) * curve.kappa_per_mm * setup.board.bend[0][frets[i]],
                       2);
        assert_true(sum > least);
    }
}

static void test_back_bow_and_flat(void **state)
{
    const struct board_plan plan = plan_for(14, -1, 1, -1);
    struct setup setup = setup_on(&plan);
    struct neck_curve curve;

    (void)state;
    add_relief(&setup, setup.board.relief_fret, -0.1);
    assert_int_equal(neck_curve_fit(&setup, &curve), STATUS_OK);
    assert_true(curve.kappa_per_mm < 0);
    assert_near(neck_curve_relief_mm(&setup.board, curve.kappa_per_mm), -0.1, 1e-12);
    assert_near(neck_curve_kappa_for(&setup.board, -0.1), curve.kappa_per_mm, 1e-15);
    setup.relief[0].gap_mm = 0;
    assert_int_equal(neck_curve_fit(&setup, &curve), STATUS_OK);
    for (int n = 0; n <= 20; n++)
        assert_near(neck_curve_height_mm(&curve, &setup.board, 2, n), 0, 0);
}

static void test_refusals(void **state)
{
    const double bad[] = {(double)NAN, (double)INFINITY, -(double)INFINITY};
    const struct board_plan plan = plan_for(14, -1, 1, -1);
    struct setup setup = setup_on(&plan);
    struct neck_curve curve = {.kappa_per_mm = 7};

    (void)state;
    assert_int_equal(neck_curve_fit(&setup, &curve), STATUS_ABSENT);
    for (int i = 0; i < 3; i++) {
        setup.relief_count = 0;
        add_relief(&setup, 7, bad[i]);
        assert_int_equal(neck_curve_fit(&setup, &curve), STATUS_DOMAIN);
        setup.relief[0].gap_mm = 0.2;
        setup.fall_away_mm = maybe_given(bad[i]);
        assert_int_equal(neck_curve_fit(&setup, &curve), STATUS_DOMAIN);
        setup.fall_away_mm = maybe_absent();
    }
    const int frets[] = {-1, 21, INT_MAX, INT_MIN};
    for (int i = 0; i < 4; i++) {
        setup.relief[0].fret = frets[i];
        assert_int_equal(neck_curve_fit(&setup, &curve), STATUS_DOMAIN);
    }
    setup.relief[0].fret = 7;
    setup.relief_count = RELIEFS_MAX + 1;
    assert_int_equal(neck_curve_fit(&setup, &curve), STATUS_DOMAIN);
    setup.relief_count = 1;
    setup.has_board = false;
    assert_int_equal(neck_curve_fit(&setup, &curve), STATUS_DOMAIN);
    assert_near(curve.kappa_per_mm, 7, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_whole_parabola),  cmocka_unit_test(test_against_the_bench),
        cmocka_unit_test(test_several_reliefs), cmocka_unit_test(test_back_bow_and_flat),
        cmocka_unit_test(test_refusals),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
