/* SPDX-License-Identifier: MIT */
#include "demo/demo_neck.h"

#include "build_record.h"
#include "near.h"

/* The made-up instruments obey geometry, worked out here again by similar triangles. */

static const char parlour[] = "board scale = 628 mm\nboard strings = 6\nboard frets = 18\n"
                              "board join_fret = 12\nboard relief_fret = 6\n"
                              "instrument kind = steel-string\nneck rod = two-way\n"
                              "bridge kind = blank\nbridge exposure_min = 3 mm\n"
                              "targets relief = 0.15 mm\ntargets action_bass = 2.4 mm\n"
                              "targets action_treble = 1.6 mm\ntargets nut_gap_bass = 0.46 mm\n"
                              "targets nut_gap_treble = 0.30 mm\n";

static struct demo_neck draw(uint64_t seed)
{
    struct demo_chance chance = {seed};
    struct demo_neck neck;
    struct record record;

    build_record(&record, parlour);
    demo_neck_draw(&neck, &record, 9, &chance);
    record_done(&record);
    return neck;
}

static void assert_between(double got, double least, double most)
{
    assert_near(got, (least + most) / 2, (most - least) / 2);
}

static double share(int fret)
{
    return 1 - pow(2, -fret / 12.0);
}

/* Raised by 1 mm at the saddle, a string is raised by its distance's share of the scale. */
static void test_saddle(void **state)
{
    (void)state;
    struct demo_neck neck = draw(1);
    const double gap = demo_neck_gap(&neck, 2), action = demo_neck_action(&neck, 2);
    const double other = demo_neck_action(&neck, 3), left = neck.exposure_mm[DEMO_TREBLE];

    demo_neck_saddle(&neck, 2, 1);
    assert_near(demo_neck_gap(&neck, 2) - gap, share(1), 1e-9);
    assert_near(demo_neck_action(&neck, 2) - action, 0.5, 1e-9);
    assert_near(demo_neck_action(&neck, 3), other, 1e-12);
    assert_near(neck.exposure_mm[DEMO_TREBLE], left, 0);
    demo_neck_saddle(&neck, 1, -0.5);
    assert_near(neck.exposure_mm[DEMO_TREBLE], left - 0.5, 1e-12);
}

static void test_slot(void **state)
{
    (void)state;
    struct demo_neck neck = draw(2);
    const double gap = demo_neck_gap(&neck, 6), action = demo_neck_action(&neck, 6);

    demo_neck_slot(&neck, 6, -0.2);
    assert_near(demo_neck_gap(&neck, 6) - gap, -0.2 * (1 - share(1)), 1e-9);
    assert_near(demo_neck_action(&neck, 6) - action, -0.1, 1e-9);
}

/* A rod takes out what it should, until it has no more; taken back, it takes up where it was. */
static void test_rod(void **state)
{
    (void)state;
    struct demo_neck neck = draw(3);
    const double relief = demo_neck_relief(&neck);

    assert_between(neck.per_turn_mm, -0.42, -0.22);
    neck.turns_most = 0.5;
    demo_neck_turn(&neck, 0.25);
    assert_near(demo_neck_relief(&neck) - relief, 0.25 * neck.per_turn_mm, 1e-9);
    demo_neck_turn(&neck, 0.5);
    assert_near(demo_neck_relief(&neck) - relief, 0.5 * neck.per_turn_mm, 1e-9);
    demo_neck_turn(&neck, -0.75);
    assert_near(demo_neck_relief(&neck), relief, 1e-9);
}

/* Damp wood bends up and lifts the saddle, and dry wood takes both back. */
static void test_season(void **state)
{
    (void)state;
    struct demo_neck neck = draw(4);
    const double relief = demo_neck_relief(&neck), saddle = neck.saddle_mm[1];

    demo_neck_season(&neck, 11);
    assert_near(demo_neck_relief(&neck) - relief, 2 * neck.damp_mm, 1e-9);
    assert_near(neck.saddle_mm[1] - saddle, 2 * neck.lift_mm, 1e-9);
    assert_true(neck.damp_mm > 0 && neck.lift_mm > 0);
    demo_neck_season(&neck, 9);
    assert_near(demo_neck_relief(&neck), relief, 1e-9);
}

static void test_strings_that_pull_more_bend_it_more(void **state)
{
    (void)state;
    struct demo_neck neck = draw(5);
    const double relief = demo_neck_relief(&neck);

    demo_neck_restring(&neck, 1.1);
    assert_true(demo_neck_relief(&neck) > relief + 0.005);
}

/* They come in different, but as a shop sees them. */
static void test_draws(void **state)
{
    (void)state;
    double least = 9, most = -9;

    for (uint64_t seed = 1; seed <= 200; seed++) {
        const struct demo_neck neck = draw(seed);
        const double relief = demo_neck_relief(&neck);

        least = fmin(least, relief);
        most = fmax(most, relief);
        for (int s = 1; s <= 6; s++) {
            assert_between(demo_neck_gap(&neck, s), 0.1, 1.2);
            assert_between(demo_neck_action(&neck, s), 0.8, 5);
        }
    }
    assert_between(least, -0.2, 0.1);
    assert_between(most, 0.3, 0.6);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_saddle),
        cmocka_unit_test(test_slot),
        cmocka_unit_test(test_rod),
        cmocka_unit_test(test_season),
        cmocka_unit_test(test_strings_that_pull_more_bend_it_more),
        cmocka_unit_test(test_draws),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
