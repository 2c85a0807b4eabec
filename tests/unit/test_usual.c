/* SPDX-License-Identifier: MIT */
#include "model/survey/usual.h"

#include "near.h"

/* Quartiles by hand: of 1 to 9 they are 3, 5, 7; of four values they lie between two of them. */
static void quartiles_are_those_of_a_table(void **state)
{
    double nine[] = {9, 1, 8, 2, 7, 3, 6, 4, 5}, four[] = {40, 10, 30, 20}, one[] = {0.15};

    (void)state;
    struct usual usual = usual_of(nine, 9);
    assert_int_equal(usual.count, 9);
    assert_near(usual.low_mm, 3, 1e-12);
    assert_near(usual.median_mm, 5, 1e-12);
    assert_near(usual.high_mm, 7, 1e-12);
    usual = usual_of(four, 4);
    assert_near(usual.low_mm, 17.5, 1e-12);
    assert_near(usual.median_mm, 25, 1e-12);
    assert_near(usual.high_mm, 32.5, 1e-12);
    usual = usual_of(one, 1);
    assert_near(usual.low_mm, 0.15, 0);
    assert_near(usual.high_mm, 0.15, 0);
    assert_int_equal(usual_of(one, 0).count, 0);
}

/* Equal values, and a long row in the worst order for a sort that goes wrong. */
static void any_order_is_sorted(void **state)
{
    enum { COUNT = 1001 };
    double values[COUNT];

    (void)state;
    for (int i = 0; i < COUNT; i++)
        values[i] = (i * 7919) % COUNT / 2;
    const struct usual usual = usual_of(values, COUNT);
    for (int i = 1; i < COUNT; i++)
        assert_true(values[i - 1] <= values[i]);
    assert_near(usual.median_mm, 250, 1e-12);
}

static void a_target_has_its_own_row_once_enough_say_so(void **state)
{
    struct usuals usuals = {.wanted = {{0}}};

    (void)state;
    for (int i = 0; i < USUAL_ROWS; i++)
        usuals.wanted[i] = (struct usual){USUAL_LEAST, i, i, i};
    assert_near(usual_for_target(&usuals, FIELD_TARGET_RELIEF)->median_mm, 0, 0);
    assert_near(usual_for_target(&usuals, FIELD_TARGET_GAP_TREBLE)->median_mm, 4, 0);
    assert_null(usual_for_target(&usuals, FIELD_RELIEF));
    usuals.wanted[0].count = USUAL_LEAST - 1;
    assert_null(usual_for_target(&usuals, FIELD_TARGET_RELIEF));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(quartiles_are_those_of_a_table),
        cmocka_unit_test(any_order_is_sorted),
        cmocka_unit_test(a_target_has_its_own_row_once_enough_say_so),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
