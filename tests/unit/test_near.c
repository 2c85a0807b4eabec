/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <math.h>

/* The comparison that every other test relies on: it must fail when it should. */

static void near_accepts_within_tolerance(void **state)
{
    (void)state;
    assert_true(near_is(1.0, 1.0, 0.0));
    assert_true(near_is(1.0, 1.25, 0.25));
    assert_true(near_is(-1.25, -1.0, 0.25));
    assert_true(near_is(0.0, -0.0, 0.0));
}

static void near_refuses_beyond_tolerance(void **state)
{
    (void)state;
    assert_false(near_is(1.0, 1.2500000001, 0.25));
    assert_false(near_is(1.0, nextafter(1.0, 2.0), 0.0));
    assert_false(near_is(1.0, -1.0, 1.0));
    assert_false(near_is(1.0, 1.0 + 1e-9, 1e-12)); /* equal as float */
    assert_false(near_is(1.0, 1.0, -1.0));
}

static void near_refuses_nan(void **state)
{
    (void)state;
    assert_false(near_is((double)NAN, 1.0, 1.0));
    assert_false(near_is(1.0, (double)NAN, 1.0));
    assert_false(near_is((double)NAN, (double)NAN, 1.0));
    assert_false(near_is(1.0, 1.0, (double)NAN));
}

static void near_refuses_infinities(void **state)
{
    (void)state;
    assert_false(near_is((double)INFINITY, 1.0, 1.0));
    assert_false(near_is(1.0, -(double)INFINITY, 1.0));
    assert_false(near_is((double)INFINITY, (double)INFINITY, 1.0));
    assert_false(near_is(1.0, 2.0, (double)INFINITY));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(near_accepts_within_tolerance),
        cmocka_unit_test(near_refuses_beyond_tolerance),
        cmocka_unit_test(near_refuses_nan),
        cmocka_unit_test(near_refuses_infinities),
    };

    return cmocka_run_group_tests_name("near", tests, NULL, NULL) ? 1 : 0;
}
