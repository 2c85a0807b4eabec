/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <math.h>

#include "model/strings/gauge_sold.h"
#include "model/strings/pitch.h"

#define TH 0.0254

static double gauge_for(struct string_build build, double length_mm, int semitone, double pull_n)
{
    struct gauge_sold sold;
    double hz;

    assert_int_equal(pitch_frequency(semitone, 440, &hz), STATUS_OK);
    assert_int_equal(gauge_sold_for_pull(&build, length_mm, hz, pull_n, &sold), STATUS_OK);
    return sold.nearest.gauge_mm / TH;
}

/* A packet's tensions on 25.5 in (labels, from memory): .010 at E4 16.2 lb, .013 at B3 15.4,
 * .012 at E4 23.3. */
static void a_labels_pull_gives_its_gauge(void **state)
{
    const struct string_build plain = {.kind = BUILD_PLAIN, .gauge_mm = 9 * TH};

    (void)state;
    assert_near(gauge_for(plain, 647.7, 64, 16.2 * 4.448), 10, 1e-9);
    assert_near(gauge_for(plain, 647.7, 59, 15.4 * 4.448), 13, 1e-9);
    assert_near(gauge_for(plain, 647.7, 64, 23.3 * 4.448), 12, 1e-9);
}

/* .046 at E2 on 25.5 in pulls 17.5 lb, .056 26.1 (labels, from memory). */
static void a_wound_string_brings_its_core(void **state)
{
    const struct string_build nickel = {.kind = BUILD_ROUND_WOUND,
                                        .gauge_mm = 42 * TH,
                                        .core_mm = 16 * TH,
                                        .wrap_material = MATERIAL_NICKEL_PLATED_STEEL};

    (void)state;
    assert_near(gauge_for(nickel, 647.7, 40, 17.5 * 4.448), 46, 2.001);
    assert_near(gauge_for(nickel, 647.7, 40, 26.1 * 4.448), 56, 2.001);
}

/* The gauges on either side pull by Mersenne's law, as the square of the gauge; past the end of the
 * list there is none. */
static void its_neighbours_are_told(void **state)
{
    const struct string_build plain = {.kind = BUILD_PLAIN, .gauge_mm = 12 * TH};
    struct gauge_sold sold;

    (void)state;
    assert_int_equal(gauge_sold_for_pull(&plain, 647.7, 329.63, 16.2 * 4.448, &sold), STATUS_OK);
    assert_near(sold.lighter.gauge_mm / TH, 9, 1e-9);
    assert_near(sold.heavier.gauge_mm / TH, 11, 1e-9);
    assert_near_relative(sold.nearest.pull_n, 16.2 * 4.448, 0.01);
    assert_near_relative(sold.lighter.pull_n / sold.nearest.pull_n, 0.81, 1e-9);
    assert_near_relative(sold.heavier.pull_n / sold.nearest.pull_n, 1.21, 1e-9);
    assert_int_equal(gauge_sold_for_pull(&plain, 647.7, 329.63, 0.49 * 16.2 * 4.448, &sold),
                     STATUS_OK);
    assert_near(sold.nearest.gauge_mm / TH, 7, 1e-9);
    assert_near(sold.lighter.gauge_mm, 0, 0);
    assert_near(sold.heavier.gauge_mm / TH, 8, 1e-9);
}

static void what_cannot_be_bought_is_not_named(void **state)
{
    struct string_build build = {.kind = BUILD_PLAIN, .gauge_mm = 10 * TH};
    struct gauge_sold sold = {.nearest = {.gauge_mm = 7}};

    (void)state;
    assert_int_equal(gauge_sold_for_pull(&build, 650, 330, 5000, &sold), STATUS_RANGE);
    assert_int_equal(gauge_sold_for_pull(&build, 650, 330, 1, &sold), STATUS_RANGE);
    assert_int_equal(gauge_sold_for_pull(&build, 650, 330, (double)NAN, &sold), STATUS_DOMAIN);
    assert_int_equal(gauge_sold_for_pull(&build, 650, (double)NAN, 70, &sold), STATUS_ABSENT);
    build.kind = BUILD_FLAT_WOUND;
    assert_int_equal(gauge_sold_for_pull(&build, 650, 330, 70, &sold), STATUS_ABSENT);
    build.kind = BUILD_ROUND_WOUND; /* no core */
    assert_int_equal(gauge_sold_for_pull(&build, 650, 330, 70, &sold), STATUS_ABSENT);
    assert_near(sold.nearest.gauge_mm, 7, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_labels_pull_gives_its_gauge),
        cmocka_unit_test(a_wound_string_brings_its_core),
        cmocka_unit_test(its_neighbours_are_told),
        cmocka_unit_test(what_cannot_be_bought_is_not_named),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
