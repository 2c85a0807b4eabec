/* SPDX-License-Identifier: MIT */
#include "model/setup/rod_prior.h"

#include <math.h>

#include "build_record.h"
#include "model/derive/derive.h"
#include "near.h"

static struct rod_prior prior_of(const double *per_turn_mm, int count, double u_mm)
{
    struct rod_necks necks = {.count = 0};

    for (int i = 0; i < count; i++)
        rod_necks_add(&necks, &(struct rod_neck){per_turn_mm[i], u_mm});
    return rod_prior_of(&necks);
}

static void two_say_nothing_and_three_do(void **state)
{
    const double mm[] = {-0.22, -0.18, -0.20};
    const struct rod_prior two = prior_of(mm, 2, 0.01), three = prior_of(mm, 3, 0.01);

    (void)state;
    assert_int_equal(two.necks, 0);
    assert_int_equal(three.necks, 3);
    assert_near(three.per_turn_mm, -0.20, 1e-12);
    /* Twice the root of (0.02^2 + 0.02^2)/2. */
    assert_near(three.per_turn_u_mm, 0.04, 1e-12);
}

static void an_even_number_has_its_median_between_two(void **state)
{
    const double mm[] = {-0.30, -0.20, -0.24, -0.22};
    const struct rod_prior prior = prior_of(mm, 4, 0.01);

    (void)state;
    assert_int_equal(prior.necks, 4);
    assert_near(prior.per_turn_mm, -0.23, 1e-12);
}

static void necks_alike_are_no_surer_than_their_readings(void **state)
{
    const double mm[] = {-0.2, -0.2, -0.2};

    (void)state;
    assert_near(prior_of(mm, 3, 0.05).per_turn_u_mm, 0.05, 1e-12);
}

static void what_is_no_answer_does_not_count(void **state)
{
    const double bad[] = {(double)NAN, (double)INFINITY, -(double)INFINITY, 0, 0.2, -1000};
    struct rod_necks necks = {.count = 0};

    (void)state;
    for (int i = 0; i < 2; i++)
        rod_necks_add(&necks, &(struct rod_neck){-0.2, 0.01});
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        rod_necks_add(&necks, &(struct rod_neck){bad[i], 0.01});
        rod_necks_add(&necks, &(struct rod_neck){-0.2, bad[i] == 0 || bad[i] == 0.2 ? -1 : bad[i]});
    }
    assert_int_equal(necks.count, 2);
    assert_int_equal(rod_prior_of(&necks).necks, 0);
}

static void necks_that_scatter_as_much_as_they_answer_say_nothing(void **state)
{
    const double mm[] = {-0.2, -0.2, -0.9};

    (void)state;
    assert_int_equal(prior_of(mm, 3, 0.01).necks, 0);
}

static void more_than_fit_do_no_harm(void **state)
{
    struct rod_necks necks = {.count = 0};

    (void)state;
    for (int i = 0; i < 3 * ROD_NECKS_MAX; i++)
        rod_necks_add(&necks, &(struct rod_neck){-0.2 - 1e-4 * (i % 7), 0.01});
    assert_int_equal(necks.count, ROD_NECKS_MAX);
    for (int i = 1; i < necks.count; i++)
        assert_true(necks.at[i - 1].per_turn_mm <= necks.at[i].per_turn_mm);
    assert_int_equal(rod_prior_of(&necks).necks, ROD_NECKS_MAX);
}

/* --- what the rod's move makes of it --- */

static struct move rod_of(const char *more, const struct rod_prior *others)
{
    struct derived derived;
    struct record record;

    build_record(&record, build_record_full);
    build_record_add(&record, more);
    derive_pass_among(place_current(&record), others, DERIVE_FIGURES, &derived);
    record_done(&record);
    return derived.moves.move[MOVE_ROD];
}

/* .007 in too much. */
static void turns_go_by_the_others_while_nothing_is_known(void **state)
{
    const struct rod_prior others = {5, -0.7112, 0.05}, weak = {5, -0.05, 0.01}, none = {0};
    const struct move rod = rod_of("", &others), far = rod_of("", &weak);

    (void)state;
    assert_true(rod.turns.given);
    assert_near(rod.turns.value, rod.amount.value / -0.7112, 1e-12);
    assert_near(rod.turns.value, 0.25, 0.01);
    assert_int_equal(rod.others.necks, 5);
    assert_near(far.turns.value, ROD_TURN_OF_OTHERS, 1e-12);
    assert_false(rod_of("", &none).turns.given);
    assert_false(rod_of("", NULL).turns.given);
}

static void a_neck_of_its_own_answer_needs_no_others(void **state)
{
    const struct rod_prior others = {5, -0.7112, 0.05};
    const struct move own = rod_of("visit.1.pass.2 rod_turn = 0.25\n"
                                   "visit.1.pass.2 relief = .010 in\n",
                                   &others);
    const struct move silent = rod_of("visit.1.pass.2 rod_turn = 0.5\n"
                                      "visit.1.pass.2 relief = .013 in\n",
                                      &others);

    (void)state;
    assert_int_equal(own.others.necks, 0);
    assert_true(own.turns.given);
    assert_near(own.turns.value, own.amount.value / (-0.012 * 25.4), 1e-9);
    assert_false(silent.turns.given);
    assert_false(rod_of("neck rod = none\n", &others).turns.given);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(two_say_nothing_and_three_do),
        cmocka_unit_test(an_even_number_has_its_median_between_two),
        cmocka_unit_test(necks_alike_are_no_surer_than_their_readings),
        cmocka_unit_test(what_is_no_answer_does_not_count),
        cmocka_unit_test(necks_that_scatter_as_much_as_they_answer_say_nothing),
        cmocka_unit_test(more_than_fit_do_no_harm),
        cmocka_unit_test(turns_go_by_the_others_while_nothing_is_known),
        cmocka_unit_test(a_neck_of_its_own_answer_needs_no_others),
    };

    return cmocka_run_group_tests_name("rod_prior", tests, NULL, NULL) ? 1 : 0;
}
