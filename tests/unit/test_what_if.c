/* SPDX-License-Identifier: MIT */
#include "near.h"
#include "seeded.h"

#include <math.h>
#include <stddef.h>

#include "model/what_if.h"

enum { STRINGS = 6 };

/* A light steel-string set, masses to three figures, in standard tuning. */
static const struct what_if_string set[STRINGS] = {
    {0.000573, 632, 329.6}, {0.00102, 632, 246.9}, {0.00211, 632, 196.0},
    {0.00372, 632, 146.8},  {0.00639, 632, 110.0}, {0.01016, 632, 82.4},
};

/* Down by a semitone: every string, and the total, by 2^(-1/6). */
static void test_all_down_a_semitone(void **state)
{
    (void)state;
    const double down[STRINGS] = {-1, -1, -1, -1, -1, -1};
    struct what_if_string after[STRINGS];
    struct what_if_pull pulls[STRINGS];
    struct what_if_load load;

    assert_int_equal(what_if_retune(set, down, STRINGS, after), STATUS_OK);
    assert_int_equal(what_if_compare(set, after, STRINGS, pulls, &load), STATUS_OK);
    assert_near_relative(load.after_n, load.before_n * pow(2, -1.0 / 6), 1e-14);
    assert_near_relative(load.relief_change_ratio, pow(2, -1.0 / 6) - 1, 1e-13);
    for (int i = 0; i < STRINGS; i++)
        assert_near_relative(pulls[i].share_after, pulls[i].share_before, 1e-13);
}

/* One string dropped by a tone changes only itself. */
static void test_one_string_dropped(void **state)
{
    (void)state;
    const double drop[STRINGS] = {0, 0, 0, 0, 0, -2};
    struct what_if_string after[STRINGS];
    struct what_if_pull pulls[STRINGS];
    struct what_if_load load;
    double before = 0, after_sum = 0, shares = 0;

    assert_int_equal(what_if_retune(set, drop, STRINGS, after), STATUS_OK);
    assert_int_equal(what_if_compare(set, after, STRINGS, pulls, &load), STATUS_OK);
    for (int i = 0; i < STRINGS; i++) {
        before += pulls[i].before_n;
        after_sum += pulls[i].after_n;
        shares += pulls[i].share_after;
        if (i < STRINGS - 1)
            assert_near(pulls[i].change_n, 0, 0);
    }
    assert_near_relative(load.before_n, before, 1e-14);
    assert_near_relative(load.after_n, after_sum, 1e-14);
    assert_near(shares, 1, 1e-14);
    assert_near_relative(load.change_n, pulls[STRINGS - 1].change_n, 1e-12);
    assert_near_relative(pulls[5].after_n, pulls[5].before_n * pow(2, -1.0 / 3), 1e-14);
    assert_int_equal(what_if_compare(set, after, STRINGS, NULL, &load), STATUS_OK);
}

/* Up and down again is where it was; in place as well. */
static void test_retuning_goes_back(void **state)
{
    (void)state;
    struct seeded seeded = seeded_start("what_if");

    for (int k = 0; k < 100; k++) {
        struct what_if_string now[STRINGS];
        double up[STRINGS], down[STRINGS];

        for (int i = 0; i < STRINGS; i++) {
            now[i] = set[i];
            up[i] = seeded_between(&seeded, -12, 12);
            down[i] = -up[i];
        }
        assert_int_equal(what_if_retune(now, up, STRINGS, now), STATUS_OK);
        assert_int_equal(what_if_retune(now, down, STRINGS, now), STATUS_OK);
        for (int i = 0; i < STRINGS; i++)
            assert_near_relative(now[i].hz, set[i].hz, 1e-14);
    }
}

static void test_hostile_strings(void **state)
{
    (void)state;
    static const double bad[] = {-1, (double)INFINITY, -(double)INFINITY, (double)NAN, 1e300, 0};
    struct what_if_load load = {.before_n = 7};

    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        for (int field = 0; field < 3; field++) {
            struct what_if_string odd[STRINGS];
            double *fields[] = {&odd[2].mass_kg_per_m, &odd[2].length_mm, &odd[2].hz};

            for (int k = 0; k < STRINGS; k++)
                odd[k] = set[k];
            *fields[field] = bad[i];

            enum status want = bad[i] == 0 ? STATUS_ABSENT : STATUS_DOMAIN;

            /* An enormous mass is no sin against the formula, and is finite. */
            if (bad[i] == 1e300 && field == 0)
                continue;
            assert_int_equal(what_if_compare(odd, set, STRINGS, NULL, &load), want);
            assert_int_equal(what_if_compare(set, odd, STRINGS, NULL, &load), want);
        }
    }
    assert_int_equal(what_if_compare(set, set, 0, NULL, &load), STATUS_ABSENT);
    assert_near(load.before_n, 7, 0);

    const double semitones[STRINGS] = {0, (double)NAN, 0, 0, 0, 0};
    struct what_if_string after[STRINGS] = {{7, 7, 7}};

    assert_int_equal(what_if_retune(set, semitones, STRINGS, after), STATUS_DOMAIN);
    assert_near(after[0].hz, 7, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_all_down_a_semitone),
        cmocka_unit_test(test_one_string_dropped),
        cmocka_unit_test(test_retuning_goes_back),
        cmocka_unit_test(test_hostile_strings),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
