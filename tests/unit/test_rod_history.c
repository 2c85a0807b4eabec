/* SPDX-License-Identifier: MIT */
#include "model/setup/rod_history.h"

#include <math.h>

#include "near.h"
#include "seeded.h"

/* A feeler step of 0.001 in as standard uncertainty: step/sqrt(12) (JCGM 100, 4.3.7). */
static const double feeler_u_mm = 0.0254 / 3.4641016151377544;

static void test_relief_per_turn(void **state)
{
    const struct rod_step steps[] = {{0.25, 0.40, 0.30}, {-0.125, 0.30, 0.36}};
    struct rod_fit fit;
    (void)state;
    assert_int_equal(rod_history_fit(steps, 2, feeler_u_mm, &fit), STATUS_OK);
    /* (0.25 x -0.10 - 0.125 x 0.06)/(0.0625 + 0.015625) */
    assert_near(fit.per_turn_mm, -0.0325 / 0.078125, 1e-14);
    assert_near(fit.left_mm,
                sqrt((pow(-0.10 + 0.416 * 0.25, 2) + pow(0.06 - 0.416 * 0.125, 2)) / 2), 1e-14);
    /* The reading of 0.30 is in both: by hand, 0.25, 0.25 + 0.125 and 0.125 of the three. */
    assert_near(fit.per_turn_u_mm,
                2 * feeler_u_mm * sqrt(0.0625 + 0.375 * 0.375 + 0.015625) / 0.078125, 1e-14);
    assert_int_equal(fit.count, 2);
}

/* The expanded uncertainty claimed for the slope covers about 95 % of honest readings. */
static void test_uncertainty_is_honest(void **state)
{
    struct seeded seed = seeded_start("rod history");
    int covered = 0;
    (void)state;
    for (int round = 0; round < 4000; round++) {
        struct rod_step steps[4];
        struct rod_fit fit;
        for (int i = 0; i < 4; i++) {
            steps[i].turns = seeded_between(&seed, 0.1, 0.5) * (i % 2 ? -1 : 1);
            steps[i].before_mm = 0.3 + seeded_between(&seed, -0.0127, 0.0127);
            steps[i].after_mm = 0.3 - 0.4 * steps[i].turns + seeded_between(&seed, -0.0127, 0.0127);
        }
        assert_int_equal(rod_history_fit(steps, 4, feeler_u_mm, &fit), STATUS_OK);
        covered += fabs(fit.per_turn_mm + 0.4) <= fit.per_turn_u_mm;
    }
    assert_near(covered / 4000.0, 0.95, 0.02);
}

/* The same where each reading ends one turn and begins the next: on one way, and to and fro. */
static void test_uncertainty_of_a_chain_is_honest(void **state)
{
    struct seeded seed = seeded_start("rod history");

    (void)state;
    for (int way = -1; way <= 1; way += 2) {
        int covered = 0;

        for (int round = 0; round < 4000; round++) {
            struct rod_step steps[4];
            struct rod_fit fit;
            double is = 0.3, read = is + seeded_between(&seed, -0.0127, 0.0127);

            for (int i = 0; i < 4; i++) {
                steps[i].turns = i % 2 ? way * 0.25 : 0.25;
                steps[i].before_mm = read;
                is -= 0.4 * steps[i].turns;
                steps[i].after_mm = read = is + seeded_between(&seed, -0.0127, 0.0127);
            }
            assert_int_equal(rod_history_fit(steps, 4, feeler_u_mm, &fit), STATUS_OK);
            covered += fabs(fit.per_turn_mm + 0.4) <= fit.per_turn_u_mm;
        }
        assert_near(covered / 4000.0, 0.95, 0.02);
    }
}

static void test_next_turn(void **state)
{
    double turns = 0, relief = 0;
    (void)state;
    assert_int_equal(rod_history_find_next_turn(-0.4, 0.33, 0.15, &turns), STATUS_OK);
    assert_near(turns, 0.45, 1e-14);
    assert_int_equal(rod_history_predict(-0.4, 0.33, turns, &relief), STATUS_OK);
    assert_near(relief, 0.15, 1e-14);
    assert_int_equal(rod_history_find_next_turn(-0.4, 0.05, 0.15, &turns), STATUS_OK);
    assert_near(turns, -0.25, 1e-14);
}

static enum rod_answer judged(const struct rod_step *steps, int count)
{
    enum rod_answer answer = ROD_ANSWER_UNKNOWN;
    assert_int_equal(rod_history_judge(steps, count, feeler_u_mm, &answer), STATUS_OK);
    return answer;
}

static void test_judging_the_first_turn(void **state)
{
    const struct rod_step good = {0.25, 0.40, 0.30};
    const struct rod_step loosened = {-0.25, 0.10, 0.20};
    const struct rod_step dead = {0.5, 0.40, 0.40};
    const struct rod_step too_small = {0.05, 0.40, 0.39};
    const struct rod_step backwards = {0.25, 0.30, 0.40};
    (void)state;
    assert_int_equal(judged(&good, 1), ROD_ANSWERS);
    assert_int_equal(judged(&loosened, 1), ROD_ANSWERS);
    assert_int_equal(judged(&dead, 1), ROD_ANSWERS_NO_LONGER);
    assert_int_equal(judged(&too_small, 1), ROD_ANSWER_UNKNOWN);
    assert_int_equal(judged(&backwards, 1), ROD_ANSWERS_BACKWARDS);
}

static void test_judging_against_earlier_turns(void **state)
{
    struct rod_step steps[] = {{0.25, 0.50, 0.40}, {0.25, 0.40, 0.30}, {0.25, 0.30, 0.21}};
    (void)state;
    assert_int_equal(judged(steps, 3), ROD_ANSWERS);
    steps[2].after_mm = 0.295;
    assert_int_equal(judged(steps, 3), ROD_ANSWERS_NO_LONGER);
    steps[2].after_mm = 0.40;
    assert_int_equal(judged(steps, 3), ROD_ANSWERS_BACKWARDS);
    /* A twentieth of a turn promises 0.02 mm, less than a feeler can tell. */
    steps[2] = (struct rod_step){0.05, 0.30, 0.30};
    assert_int_equal(judged(steps, 3), ROD_ANSWER_UNKNOWN);
}

/* Quarter turns that each show less than a feeler can tell add up: a rod that answers as little as
 * that takes more turns than it has. */
static void test_small_turns_add_up(void **state)
{
    struct rod_step steps[4] = {{0.25, 0.55, 0.54}};

    (void)state;
    assert_int_equal(judged(steps, 1), ROD_ANSWER_UNKNOWN);
    for (int i = 1; i < 4; i++) {
        steps[i] = (struct rod_step){0.25, 0.54, 0.54};
        assert_int_equal(judged(steps, i + 1), ROD_ANSWERS_NO_LONGER);
    }
    /* A weak one shows itself: a quarter of a millimetre a turn. */
    for (int i = 0; i < 4; i++)
        steps[i] = (struct rod_step){0.125, 0.50 - 0.03 * i, 0.47 - 0.03 * i};
    assert_int_equal(judged(steps, 4), ROD_ANSWERS);
    /* One that took up play first, too. */
    steps[0] = (struct rod_step){0.25, 0.50, 0.50};
    steps[1] = (struct rod_step){0.25, 0.50, 0.40};
    assert_int_equal(judged(steps, 2), ROD_ANSWERS);
    /* Nothing was tried the other way. */
    steps[0] = (struct rod_step){0.25, 0.50, 0.50};
    steps[1] = (struct rod_step){-0.25, 0.50, 0.50};
    assert_int_equal(judged(steps, 2), ROD_ANSWER_UNKNOWN);
}

/* Once it went the wrong way when tightened; where it does so when slackened too, it turns the
 * other way. */
static void test_a_rod_that_turns_the_other_way(void **state)
{
    const struct rod_step steps[] = {{0.25, 0.40, 0.48}, {-0.25, 0.48, 0.40}, {-0.25, 0.40, 0.32}};
    struct rod_fit fit;
    double turns;

    (void)state;
    assert_int_equal(judged(steps, 1), ROD_ANSWERS_BACKWARDS);
    assert_int_equal(judged(steps, 2), ROD_ANSWERS);
    assert_int_equal(judged(steps, 3), ROD_ANSWERS);
    assert_int_equal(rod_history_fit(steps, 3, feeler_u_mm, &fit), STATUS_OK);
    assert_true(rod_history_is_sure(&fit));
    assert_int_equal(rod_history_find_next_turn(fit.per_turn_mm, 0.32, 0.24, &turns), STATUS_OK);
    assert_near(turns, -0.25, 1e-9);
}

/* Earlier turns without an answer cannot be a measure: the last is judged alone. */
static void test_judging_after_no_answer(void **state)
{
    const struct rod_step steps[] = {{0.5, 0.40, 0.40}, {0.5, 0.40, 0.40}};
    (void)state;
    assert_int_equal(judged(steps, 2), ROD_ANSWERS_NO_LONGER);
}

static void test_predicted_beside_read(void **state)
{
    struct rod_comparison comparison;
    (void)state;
    assert_int_equal(rod_history_compare(2.01, 0.10, 1.98, 0.05, &comparison), STATUS_OK);
    assert_near(comparison.off_mm, -0.03, 1e-14);
    assert_true(comparison.within);
    assert_int_equal(rod_history_compare(2.01, 0.03, 1.97, 0.02, &comparison), STATUS_OK);
    assert_false(comparison.within);
}

static void test_refusals(void **state)
{
    const double bad[] = {(double)NAN, (double)INFINITY, -(double)INFINITY};
    struct rod_fit fit = {.count = 77};
    enum rod_answer answer = ROD_ANSWERS;
    struct rod_comparison comparison = {.off_mm = -77};
    double value = -77;
    (void)state;
    for (int i = 0; i < 3; i++) {
        const struct rod_step steps[] = {{bad[i], 0, 0}, {1, bad[i], 0}, {1, 0, bad[i]}};
        for (int k = 0; k < 3; k++) {
            assert_int_equal(rod_history_fit(&steps[k], 1, 0, &fit), STATUS_DOMAIN);
            assert_int_equal(rod_history_judge(&steps[k], 1, 0, &answer), STATUS_DOMAIN);
        }
        assert_int_equal(rod_history_find_next_turn(bad[i], 0, 0, &value), STATUS_DOMAIN);
        assert_int_equal(rod_history_find_next_turn(-1, bad[i], 0, &value), STATUS_DOMAIN);
        assert_int_equal(rod_history_find_next_turn(-1, 0, bad[i], &value), STATUS_DOMAIN);
        assert_int_equal(rod_history_predict(bad[i], 0, 0, &value), STATUS_DOMAIN);
        assert_int_equal(rod_history_compare(bad[i], 0, 0, 0, &comparison), STATUS_DOMAIN);
        assert_int_equal(rod_history_compare(0, bad[i], 0, 0, &comparison), STATUS_DOMAIN);
    }
    const struct rod_step still = {0, 0.3, 0.3};
    const struct rod_step tiny = {1e-200, 0.4, 0.3};
    assert_int_equal(rod_history_fit(&still, 1, 0, &fit), STATUS_DOMAIN);
    assert_int_equal(rod_history_fit(&tiny, 1, 0, &fit), STATUS_RANGE);
    assert_int_equal(rod_history_fit(&tiny, 0, 0, &fit), STATUS_ABSENT);
    assert_int_equal(rod_history_fit(NULL, 1, 0, &fit), STATUS_ABSENT);
    assert_int_equal(rod_history_fit(&tiny, 1, -1, &fit), STATUS_DOMAIN);
    assert_int_equal(rod_history_find_next_turn(0, 0.3, 0.1, &value), STATUS_DOMAIN);
    assert_int_equal(rod_history_find_next_turn(-1e-308, 1e300, 0, &value), STATUS_RANGE);
    assert_true(fit.count == 77 && value == -77 && comparison.off_mm == -77);
    assert_int_equal(answer, ROD_ANSWERS);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_relief_per_turn),
        cmocka_unit_test(test_uncertainty_is_honest),
        cmocka_unit_test(test_uncertainty_of_a_chain_is_honest),
        cmocka_unit_test(test_next_turn),
        cmocka_unit_test(test_judging_the_first_turn),
        cmocka_unit_test(test_judging_against_earlier_turns),
        cmocka_unit_test(test_judging_after_no_answer),
        cmocka_unit_test(test_small_turns_add_up),
        cmocka_unit_test(test_a_rod_that_turns_the_other_way),
        cmocka_unit_test(test_predicted_beside_read),
        cmocka_unit_test(test_refusals),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
