/* SPDX-License-Identifier: MIT */
#include "model/neck/moisture.h"

#include <math.h>

#include "near.h"
#include "seeded.h"

/* The whole of Wood Handbook table 4-2 is in tests/published/emc.tbl. */
static void test_worked_example(void **state)
{
    double emc = 0;
    (void)state;
    assert_int_equal(moisture_find_emc(21, 41, &emc), STATUS_OK);
    assert_near_relative(emc, 7.85258905, 1e-9);
}

static void test_dry_air_dries_wood(void **state)
{
    double emc = -1;
    (void)state;
    assert_int_equal(moisture_find_emc(20, 0, &emc), STATUS_OK);
    assert_near(emc, 0, 0);
}

/* Sugar maple board 60 mm wide, along the rings: coefficient 0.00353 (Wood Handbook, table
 * 13-5, read), four points of moisture: 0.85 mm. */
static void test_movement(void **state)
{
    double movement = 0;
    (void)state;
    assert_int_equal(moisture_find_movement(60, 0.00353, 6, 10, &movement), STATUS_OK);
    assert_near(movement, 60 * 0.00353 * 4, 1e-15);
    assert_int_equal(moisture_find_movement(60, 0.00353, 10, 6, &movement), STATUS_OK);
    assert_near(movement, -60 * 0.00353 * 4, 1e-15);
}

static void test_emc_rises_with_humidity(void **state)
{
    struct seeded seed = seeded_start("moisture");
    (void)state;
    for (int round = 0; round < 5000; round++) {
        double dry = 0, damp = 0;
        const double t = seeded_between(&seed, MOISTURE_LEAST_C, MOISTURE_MOST_C);
        const double rh = seeded_between(&seed, 0, 99);
        assert_int_equal(moisture_find_emc(t, rh, &dry), STATUS_OK);
        assert_int_equal(moisture_find_emc(t, rh + 1, &damp), STATUS_OK);
        assert_true(isfinite(damp) && dry >= 0 && damp > dry && damp < 40);
    }
}

static void test_refusals(void **state)
{
    const double bad[] = {(double)NAN, (double)INFINITY, -(double)INFINITY, 1e308, -1e308};
    double value = -77;
    (void)state;
    for (int i = 0; i < 5; i++) {
        assert_int_equal(moisture_find_emc(bad[i], 40, &value), STATUS_DOMAIN);
        assert_int_equal(moisture_find_emc(20, bad[i], &value), STATUS_DOMAIN);
        assert_int_equal(moisture_find_movement(60, 0.003, bad[i], 6, &value), STATUS_DOMAIN);
        assert_int_equal(moisture_find_movement(60, 0.003, 6, bad[i], &value), STATUS_DOMAIN);
        assert_int_not_equal(moisture_find_movement(bad[i], 1e10, 6, 8, &value), STATUS_OK);
        assert_int_not_equal(moisture_find_movement(1e10, bad[i], 6, 8, &value), STATUS_OK);
    }
    assert_int_equal(moisture_find_emc(20, 100.001, &value), STATUS_DOMAIN);
    assert_int_equal(moisture_find_emc(20, -0.001, &value), STATUS_DOMAIN);
    assert_int_equal(moisture_find_movement(0, 0.003, 6, 8, &value), STATUS_DOMAIN);
    assert_int_equal(moisture_find_movement(60, 0, 6, 8, &value), STATUS_DOMAIN);
    assert_true(value == -77);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_worked_example), cmocka_unit_test(test_dry_air_dries_wood),
        cmocka_unit_test(test_movement),       cmocka_unit_test(test_emc_rises_with_humidity),
        cmocka_unit_test(test_refusals),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
