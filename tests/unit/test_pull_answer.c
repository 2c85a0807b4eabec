/* SPDX-License-Identifier: MIT */
#include "model/survey/pull_answer.h"

#include <math.h>

#include "near.h"
#include "seeded.h"

static const struct pull_answer prior = {.mm_per_n = 0.0007, .u_mm_per_n = 0.00025};

static struct pull_answer combined(const struct pull_seen *seen, int count)
{
    struct pull_answer answer = {0};

    assert_int_equal(pull_answer_combine(&prior, seen, count, &answer), STATUS_OK);
    return answer;
}

/* By hand: the slope seen is 0.06/120 = 0.0005 to 0.03/120 = 0.00025, as sure as the prior, so the
 * mean of both, to 0.00025/sqrt(2). */
static void equal_weights_meet_in_the_middle(void **state)
{
    const struct pull_seen seen = {.pull_change_n = 120, .bend_change_mm = 0.06, .u_mm = 0.03};
    const struct pull_answer answer = combined(&seen, 1);

    (void)state;
    assert_near(answer.mm_per_n, 0.0006, 1e-15);
    assert_near(answer.u_mm_per_n, 0.00025 / sqrt(2), 1e-15);
}

/* A change down says the same as the same change up; no change says nothing. */
static void the_way_does_not_matter(void **state)
{
    const struct pull_seen up = {.pull_change_n = 90, .bend_change_mm = 0.05, .u_mm = 0.02};
    const struct pull_seen down = {.pull_change_n = -90, .bend_change_mm = -0.05, .u_mm = 0.02};
    const struct pull_seen none = {.pull_change_n = 0, .bend_change_mm = 0.3, .u_mm = 0.02};

    (void)state;
    assert_near(combined(&up, 1).mm_per_n, combined(&down, 1).mm_per_n, 0);
    assert_near(combined(&none, 1).mm_per_n, prior.mm_per_n, 0);
    assert_near(combined(&none, 1).u_mm_per_n, prior.u_mm_per_n, 0);
    assert_near(combined(NULL, 0).mm_per_n, prior.mm_per_n, 0);
}

/* Necks drawn from the prior, changes of pull read with their uncertainty: 95 % of the true answers
 * lie within twice the one that comes out, and it is surer than the prior. */
static void what_comes_out_covers(void **state)
{
    enum { NECKS = 4000, SEEN = 3 };
    struct seeded seed = seeded_start("pull answer");
    int inside = 0;

    (void)state;
    for (int i = 0; i < NECKS; i++) {
        struct pull_seen seen[SEEN];
        double unit[SEEN + 1];

        for (int k = 0; k <= SEEN; k++)
            unit[k] = sqrt(-2 * log(1 - seeded_between(&seed, 0, 1))) *
                      cos(seeded_between(&seed, 0, 6.283185307179586));
        const double truth = prior.mm_per_n + prior.u_mm_per_n * unit[SEEN];

        for (int k = 0; k < SEEN; k++) {
            const double pull_n = seeded_between(&seed, -150, 150);
            const double u_mm = seeded_between(&seed, 0.01, 0.05);

            seen[k] = (struct pull_seen){.pull_change_n = pull_n,
                                         .bend_change_mm = truth * pull_n + u_mm * unit[k],
                                         .u_mm = u_mm};
        }
        const struct pull_answer answer = combined(seen, SEEN);

        assert_true(answer.u_mm_per_n < prior.u_mm_per_n);
        inside += fabs(answer.mm_per_n - truth) <= 2 * answer.u_mm_per_n;
    }
    fprintf(stderr, "  inside: %.2f %%\n", 100.0 * inside / NECKS);
    assert_true(inside >= 0.94 * NECKS && inside <= 0.97 * NECKS);
}

static void what_is_no_number_is_refused(void **state)
{
    const double bad[] = {(double)NAN, (double)INFINITY};
    struct pull_answer answer = {.mm_per_n = 7};

    (void)state;
    for (int i = 0; i < 2; i++) {
        const struct pull_seen seen[] = {
            {.pull_change_n = bad[i], .bend_change_mm = 1, .u_mm = 1},
            {.pull_change_n = 1, .bend_change_mm = bad[i], .u_mm = 1},
            {.pull_change_n = 1, .bend_change_mm = 1, .u_mm = bad[i]},
        };
        const struct pull_answer priors[] = {{bad[i], 1}, {1, bad[i]}, {1, 0}};

        for (int k = 0; k < 3; k++) {
            assert_int_equal(pull_answer_combine(&prior, &seen[k], 1, &answer), STATUS_DOMAIN);
            assert_int_equal(pull_answer_combine(&priors[k], NULL, 0, &answer), STATUS_DOMAIN);
        }
    }
    const struct pull_seen sure = {.pull_change_n = 1, .bend_change_mm = 1, .u_mm = 0};
    const struct pull_seen huge = {.pull_change_n = 1e200, .bend_change_mm = 1, .u_mm = 1e-30};

    assert_int_equal(pull_answer_combine(&prior, &sure, 1, &answer), STATUS_DOMAIN);
    assert_int_equal(pull_answer_combine(&prior, &huge, 1, &answer), STATUS_RANGE);
    assert_near(answer.mm_per_n, 7, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(equal_weights_meet_in_the_middle),
        cmocka_unit_test(the_way_does_not_matter),
        cmocka_unit_test(what_comes_out_covers),
        cmocka_unit_test(what_is_no_number_is_refused),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
