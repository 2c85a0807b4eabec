/* SPDX-License-Identifier: MIT */
#include "near.h"

#include "model/setup/estimate.h"
#include "model/setup/odd_row.h"

/* What is known of some unknowns. Expected: weighted means and least squares by hand. */

static struct linear one(int unknown)
{
    return (struct linear){.unknown = {unknown}, .part = {1}};
}

static struct linear sum_of(int a, int b)
{
    return (struct linear){.unknown = {a, b}, .part = {1, 1}};
}

static struct estimate begin(void)
{
    static const double anything[2] = {1e4, 1e4};
    struct estimate estimate;

    estimate_begin(&estimate, 2, anything);
    return estimate;
}

/* 3 to 0.1 and 4 to 0.2: (3/.01 + 4/.04)/(1/.01 + 1/.04) = 3.2, to sqrt(1/125). */
static void readings_count_by_one_over_their_square(void **state)
{
    const struct linear function = one(0);
    struct estimate estimate = begin();

    (void)state;
    estimate_read(&estimate, &function, 3, 0.1);
    estimate_read(&estimate, &function, 4, 0.2);
    assert_near(estimate_of(&estimate, &function).mean, 3.2, 1e-6);
    assert_near(estimate_of(&estimate, &function).deviation, 0.0894427191, 1e-6);
}

/* a + b = 5, a = 2: b = 3, to the root of both squares; in any order. */
static void one_unknown_follows_from_the_other(void **state)
{
    const struct linear both = sum_of(0, 1), a = one(0), b = one(1);

    (void)state;
    for (int order = 0; order < 2; order++) {
        struct estimate estimate = begin();

        estimate_read(&estimate, order ? &both : &a, order ? 5 : 2, order ? 0.3 : 0.4);
        estimate_read(&estimate, order ? &a : &both, order ? 2 : 5, order ? 0.4 : 0.3);
        assert_near(estimate_of(&estimate, &b).mean, 3, 1e-5);
        assert_near(estimate_of(&estimate, &b).deviation, 0.5, 1e-5);
    }
}

static void a_move_shifts_and_blurs(void **state)
{
    static const double both[2] = {1, 1};
    const struct linear a = one(0), b = one(1);
    const struct linear difference = {.unknown = {0, 1}, .part = {1, -1}};
    struct estimate estimate = begin();

    (void)state;
    estimate_read(&estimate, &a, 1, 0.03);
    estimate_read(&estimate, &b, 1, 0.03);
    estimate_shift(&estimate, 0, -0.5, 0.04);
    assert_near(estimate_of(&estimate, &a).mean, 0.5, 1e-6);
    assert_near(estimate_of(&estimate, &a).deviation, 0.05, 1e-6);
    /* An error that both share leaves their difference as it was. */
    const double before = estimate_of(&estimate, &difference).deviation;
    estimate_blur(&estimate, both, 0.2);
    assert_near(estimate_of(&estimate, &difference).deviation, before, 1e-6);
    assert_true(estimate_of(&estimate, &b).deviation > 0.2);
    estimate_set(&estimate, 1, 7, 0.01);
    assert_near(estimate_of(&estimate, &b).mean, 7, 1e-12);
    assert_near(estimate_of(&estimate, &b).deviation, 0.01, 1e-12);
}

/* 0.30 to 0.46 in equal steps but for one: that one, and none beside it. */
static void the_odd_one_of_a_row_is_found(void **state)
{
    struct maybe row[STRINGS_MAX + 1] = {{.given = false}};
    bool odd[STRINGS_MAX + 1];

    (void)state;
    for (int s = 1; s <= 6; s++)
        row[s] = maybe_given(0.30 + 0.032 * (s - 1) + (s == 4 ? 0.4 : 0));
    odd_row_find(row, 6, 0.06, odd);
    for (int s = 1; s <= 6; s++)
        assert_int_equal(odd[s], s == 4);
    row[4] = maybe_given(0.42);
    odd_row_find(row, 6, 0.06, odd);
    for (int s = 1; s <= 6; s++)
        assert_false(odd[s]);
    /* Three tell nothing of a fourth that is not there. */
    for (int s = 4; s <= 6; s++)
        row[s] = maybe_absent();
    row[2] = maybe_given(9);
    odd_row_find(row, 6, 0.06, odd);
    assert_false(odd[2]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(readings_count_by_one_over_their_square),
        cmocka_unit_test(one_unknown_follows_from_the_other),
        cmocka_unit_test(a_move_shifts_and_blurs),
        cmocka_unit_test(the_odd_one_of_a_row_is_found),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
