/* SPDX-License-Identifier: MIT */
#include "model/neck/wood.h"

#include <math.h>
#include <string.h>

#include "near.h"

static void test_look_up(void **state)
{
    const char *spelled[] = {"mahogany", "Mahogany", "  MAHOGANY ", "Swietenia macrophylla",
                             "swietenia-macrophylla"};
    (void)state;
    for (size_t i = 0; i < sizeof spelled / sizeof spelled[0]; i++) {
        const struct wood *wood = NULL;
        assert_int_equal(wood_find(spelled[i], &wood), STATUS_OK);
        assert_string_equal(wood->name, "mahogany");
    }
    const struct wood *wood = NULL;
    assert_int_equal(wood_find("african_mahogany", &wood), STATUS_OK);
    assert_string_equal(wood->botanical, "Khaya spp.");
    assert_int_equal(wood_find("sugar   maple", &wood), STATUS_OK);
    assert_string_equal(wood->name, "sugar maple");
}

static void test_unknown_names(void **state)
{
    const struct wood *wood = NULL;
    (void)state;
    assert_int_equal(wood_find(NULL, &wood), STATUS_ABSENT);
    assert_int_equal(wood_find("", &wood), STATUS_ABSENT);
    assert_int_equal(wood_find("  -_ ", &wood), STATUS_ABSENT);
    assert_int_equal(wood_find("mahog", &wood), STATUS_NOT_FOUND);
    assert_int_equal(wood_find("mahoganyx", &wood), STATUS_NOT_FOUND);
    assert_int_equal(wood_find("sugarmaple", &wood), STATUS_NOT_FOUND);
    assert_int_equal(wood_find("\xc3\xa9rable", &wood), STATUS_NOT_FOUND);
    assert_null(wood);
}

static void check_number(const struct maybe *number, double least, double most)
{
    if (number->given)
        assert_true(number->value >= least && number->value <= most);
    else
        assert_true(number->value == 0);
}

static void test_every_row(void **state)
{
    (void)state;
    assert_int_equal(wood_count(), 18);
    assert_null(wood_get(-1));
    assert_null(wood_get(wood_count()));
    for (int k = 0; k < wood_count(); k++) {
        const struct wood *wood = wood_get(k);
        const struct wood *found = NULL;
        assert_int_equal(wood_find(wood->name, &found), STATUS_OK);
        assert_ptr_equal(found, wood);
        assert_int_equal(wood_find(wood->botanical, &found), STATUS_OK);
        assert_ptr_equal(found, wood);
        assert_true(strstr(wood->source, "from memory") || strstr(wood->source, "read"));
        assert_true(wood->modulus_mpa.given);
        check_number(&wood->modulus_mpa, 5000, 25000);
        check_number(&wood->shear_mpa, 5, 30);
        for (int grain = 0; grain < WOOD_GRAIN_COUNT_; grain++) {
            double coefficient = 0;
            check_number(&wood->shrinkage_pct[grain], 1, 15);
            assert_int_equal(wood_find_coefficient(wood, (enum wood_grain)grain, &coefficient),
                             STATUS_OK);
            assert_true(coefficient > 0.0005 && coefficient < 0.006);
        }
    }
}

/* Sugar maple, Wood Handbook (table 4-3: 9.9 %; table 13-5: 0.00353; both read). */
static void test_coefficient_from_shrinkage(void **state)
{
    double coefficient = 0;
    (void)state;
    assert_int_equal(wood_coefficient_from_shrinkage(9.9, &coefficient), STATUS_OK);
    assert_near(coefficient, 0.00353, 0.000005);
    const struct wood *holly = NULL;
    assert_int_equal(wood_find("holly", &holly), STATUS_OK);
    assert_false(holly->coefficient[WOOD_TANGENTIAL].given);
    double same = 0;
    assert_int_equal(wood_find_coefficient(holly, WOOD_TANGENTIAL, &same), STATUS_OK);
    assert_near(same, coefficient, 0);
}

static void test_refusals(void **state)
{
    const double bad[] = {0, -1, (double)NAN, (double)INFINITY, 101};
    const struct wood bare = {.name = "none"};
    double coefficient = -77;
    (void)state;
    for (int i = 0; i < 5; i++)
        assert_int_equal(wood_coefficient_from_shrinkage(bad[i], &coefficient), STATUS_DOMAIN);
    assert_int_equal(wood_find_coefficient(&bare, WOOD_RADIAL, &coefficient), STATUS_ABSENT);
    assert_int_equal(wood_find_coefficient(&bare, WOOD_GRAIN_COUNT_, &coefficient), STATUS_DOMAIN);
    assert_true(coefficient == -77);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_look_up),   cmocka_unit_test(test_unknown_names),
        cmocka_unit_test(test_every_row), cmocka_unit_test(test_coefficient_from_shrinkage),
        cmocka_unit_test(test_refusals),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
