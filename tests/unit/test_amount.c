/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "words/amount.h"

enum { MEMORY = 64 };

static const char *written(double mm, enum unit unit, bool sign)
{
    static char memory[MEMORY];
    struct strbuf text = STRBUF(memory);

    amount_add(&text, mm, unit, sign);
    assert_false(text.truncated);
    return memory;
}

static void amount_writes_what_the_gauge_reads(void **state)
{
    (void)state;
    /* One inch is 25.4 mm by definition (ISO 31-1 and the international yard of 1959). */
    assert_string_equal(written(0.3302, UNIT_TH, false), ".013");
    assert_string_equal(written(0.254, UNIT_TH, false), ".010");
    assert_string_equal(written(25.4, UNIT_IN, false), "1.000");
    assert_string_equal(written(7.25 / 64 * 25.4, UNIT_64THS, false), "7.3");
    assert_string_equal(written(.0095 * 25.4, UNIT_IN, false), ".010");
    assert_string_equal(written(.0185 * 25.4, UNIT_IN, false), ".019");
    assert_string_equal(written(7.0 / 64 * 25.4, UNIT_64THS, false), "7");
    assert_string_equal(written(0.126, UNIT_100THS, false), "0.13");
    assert_string_equal(written(0.93, UNIT_MM, false), "0.93");
    assert_string_equal(written(2.5, UNIT_MM, false), "2.5");
    assert_string_equal(written(5, UNIT_MM, false), "5");
    assert_string_equal(written(10, UNIT_MM, false), "10");
    assert_string_equal(written(100, UNIT_64THS, false), "252");
}

static void amount_writes_changes_with_their_sign(void **state)
{
    (void)state;
    assert_string_equal(written(0.3302, UNIT_TH, true), "+.013");
    assert_string_equal(written(-0.3302, UNIT_TH, true), "-.013");
    assert_string_equal(written(-0.3302, UNIT_TH, false), "-.013");
    assert_string_equal(written(0.5, UNIT_MM, true), "+0.50");
    assert_string_equal(written(-0.5, UNIT_MM, true), "-0.50");
}

/* Nothing has no sign, also where it is only nearly nothing. */
static void amount_writes_nothing_without_a_sign(void **state)
{
    (void)state;
    assert_string_equal(written(0, UNIT_TH, false), ".000");
    assert_string_equal(written(-0.0, UNIT_TH, false), ".000");
    assert_string_equal(written(-1e-6, UNIT_TH, false), ".000");
    assert_string_equal(written(-1e-6, UNIT_MM, true), "0.00");
    assert_string_equal(written(-1e-6, UNIT_64THS, false), "0");
    assert_string_equal(written(1e-6, UNIT_MM, true), "0.00");
    assert_string_equal(written(1e-6, UNIT_TH, true), ".000");
}

static void amount_writes_what_is_no_number_as_such(void **state)
{
    (void)state;
    assert_string_equal(written((double)NAN, UNIT_TH, false), "?");
    assert_string_equal(written((double)INFINITY, UNIT_MM, false), "?");
    assert_string_equal(written(-(double)INFINITY, UNIT_MM, true), "?");
}

static const char *shortened(double mm, enum unit unit, int columns)
{
    static char memory[MEMORY];
    struct strbuf text = STRBUF(memory);

    amount_add_short(&text, mm, unit, columns);
    return memory;
}

static void amount_gives_up_decimals_where_it_must(void **state)
{
    (void)state;
    assert_string_equal(shortened(0.3302, UNIT_TH, 4), ".013");
    assert_string_equal(shortened(0.3302, UNIT_TH, 3), "13");
    assert_string_equal(shortened(-0.0508, UNIT_TH, 3), "-2");
    assert_string_equal(shortened(1.984, UNIT_MM, 4), "1.98");
    assert_string_equal(shortened(1.984, UNIT_MM, 3), "2.0");
    assert_string_equal(shortened(1.984, UNIT_MM, 1), "2");
    assert_string_equal(shortened(0.41, UNIT_MM, 4), "0.41");
    assert_string_equal(shortened(0.41, UNIT_100THS, 3), ".41");
    assert_string_equal(shortened(0.41, UNIT_MM, 2), "0");
    assert_string_equal(shortened(7.25 / 64 * 25.4, UNIT_64THS, 2), "7");
    /* Never fewer digits than the whole number has. */
    assert_string_equal(shortened(123.4, UNIT_MM, 2), "123");
}

static const char *cut(double mm, enum unit unit)
{
    static char memory[MEMORY];
    struct strbuf text = STRBUF(memory);

    amount_add_cut(&text, mm, unit);
    return memory;
}

static void amount_to_cut_is_no_finer_than_a_hand(void **state)
{
    (void)state;
    assert_string_equal(cut(1.23, UNIT_MM), "1.2");
    assert_string_equal(cut(1.23, UNIT_IN), ".050");
    assert_string_equal(cut(1.28, UNIT_IN), ".050");
    assert_string_equal(cut(12.7, UNIT_IN), ".500");
    assert_string_equal(cut(-0.01, UNIT_MM), "0.0");
}

/* Less wood off: -0.37 mm is a cut of 0.35 mm, also where leaves are marked in hundredths; of .014
 * in (.3556 mm) where they are marked in thousandths. Fills go to more. */
static void amount_of_work_is_what_a_hand_makes(void **state)
{
    static const enum unit metric[] = {UNIT_MM, UNIT_100THS};

    (void)state;
    for (size_t i = 0; i < sizeof metric / sizeof metric[0]; i++) {
        assert_near(amount_of_work(-0.37, metric[i]), -0.35, 1e-9);
        assert_near(amount_of_work(0.37, metric[i]), 0.40, 1e-9);
        assert_near(amount_of_work(-0.35, metric[i]), -0.35, 1e-9);
        assert_near(amount_of_work(-0.03, metric[i]), -0.03, 1e-9);
    }
    assert_near(amount_of_work(-0.37, UNIT_TH), -0.3556, 1e-9);
    assert_near(amount_of_work(0.37, UNIT_TH), 0.381, 1e-9);
}

/* 5/64 in is 2.0 mm on a metric rule; what is written in the rule's own unit stays. */
static void amount_on_rule_is_round(void **state)
{
    (void)state;
    assert_near(amount_on_rule(5.0 / 64 * 25.4, UNIT_MM), 2.0, 1e-9);
    assert_near(amount_on_rule(4.0 / 64 * 25.4, UNIT_MM), 1.6, 1e-9);
    assert_near(amount_on_rule(2.25, UNIT_MM), 2.25, 1e-9);
    assert_near(amount_on_rule(3, UNIT_64THS), 7.5 / 64 * 25.4, 1e-9);
    assert_near(amount_on_rule(7.25 / 64 * 25.4, UNIT_64THS), 7.25 / 64 * 25.4, 1e-9);
    assert_near(amount_on_rule(0.2032, UNIT_TH), 0.2032, 0);
}

static const char *with_unit(enum unit unit)
{
    static char memory[MEMORY];
    struct strbuf text = STRBUF(memory);

    amount_add_unit(&text, unit);
    return memory;
}

static void amount_names_its_unit(void **state)
{
    (void)state;
    assert_string_equal(with_unit(UNIT_TH), " in");
    assert_string_equal(with_unit(UNIT_IN), " in");
    assert_string_equal(with_unit(UNIT_64THS), " /64");
    assert_string_equal(with_unit(UNIT_MM), " mm");
    assert_string_equal(with_unit(UNIT_100THS), " mm");
}

static const char *range(double first_mm, double last_mm, enum unit unit)
{
    static char memory[MEMORY];
    struct strbuf text = STRBUF(memory);

    amount_add_range(&text, first_mm, last_mm, unit);
    return memory;
}

static void amount_range_is_one_amount_where_both_read_the_same(void **state)
{
    (void)state;
    assert_string_equal(range(2.9, 2.03, UNIT_MM), "2.9 to 2.03");
    assert_string_equal(range(2.9, 2.9, UNIT_MM), "2.9");
    assert_string_equal(range(2.9001, 2.9004, UNIT_MM), "2.9");
    assert_string_equal(range(0.4572, 0.3048, UNIT_TH), ".018 to .012");
}

static const char *all_in(double mm, enum unit unit)
{
    static char memory[MEMORY];
    struct strbuf text = STRBUF(memory);

    amount_add_all(&text, mm, unit);
    assert_false(text.truncated);
    return memory;
}

static const char *all(double mm)
{
    return all_in(mm, UNIT_TH);
}

static void amount_in_all_ways_says_which_are_rounded(void **state)
{
    (void)state;
    assert_string_equal(all(7.0 / 64 * 25.4), ".1094 in = 7/64 in = 2.778 mm");
    assert_non_null(strstr(all(2.75), "about 7/64 in"));
    assert_non_null(strstr(all(2.75), "2.75"));
    /* A 64th is named where it is near, .002 in away at most. */
    assert_null(strstr(all(0.13), "/64"));
    assert_string_equal(all(0.508), ".0200 in = 0.508 mm");
    assert_string_equal(all(0.44), ".0173 in = about 1/64 in = 0.440 mm");
    assert_string_equal(all_in(2.778125, UNIT_MM), "2.778 mm = .1094 in");
    assert_string_equal(all_in(0.3, UNIT_100THS), "0.300 mm = .0118 in");
    assert_non_null(strstr(all(0), "in"));
    assert_null(strstr(all(-0.0), "-"));
    assert_non_null(strstr(all(-0.3302), "-.013"));
    assert_non_null(strstr(all(63.5), "2 1/2 in"));
}

/* The decimal inch, the fraction and the mm of one length agree, each within its last place. */
static void amount_in_all_ways_agrees_with_itself(void **state)
{
    (void)state;
    for (double mm = -3; mm < 60; mm += 0.0371) {
        double inches, mm_back;
        const char *text = all(mm), *last = strrchr(text, '=');

        assert_int_equal(sscanf(text, "%lf", &inches), 1);
        assert_non_null(last);
        assert_int_equal(sscanf(last + 1, "%lf", &mm_back), 1);
        assert_near(inches * 25.4, mm, fabs(mm) < 25.4 ? 0.00005 * 25.4 + 1e-9 : 0.0128);
        assert_near(mm_back, mm, fabs(mm) < 10 ? 0.0005 + 1e-9 : 0.005 + 1e-9);
    }
}

static const char *with_u(double value, double u, bool drop_zero)
{
    static char memory[MEMORY];
    const struct amount_with_u amount = {
        .value = value, .u = u, .decimals = 2, .drop_zero = drop_zero};
    struct strbuf text = STRBUF(memory);

    amount_add_with_u(&text, &amount, " ");
    assert_false(text.truncated);
    return memory;
}

static const char *supported(double mm, double u_mm, enum unit unit, int columns)
{
    static char memory[MEMORY];
    struct strbuf text = STRBUF(memory);

    amount_add_supported_mm(&text, mm, u_mm, unit, columns);
    assert_false(text.truncated);
    return memory;
}

/* JCGM 100:2008 (GUM), 7.2.6: a +- of one or two figures, the value to the same place. */
static void digits_follow_the_uncertainty(void **state)
{
    (void)state;
    assert_string_equal(with_u(0.2447, 0.0459, false), "0.24 \xC2\xB1"
                                                       "0.05");
    assert_string_equal(with_u(0.009634, 0.001805, true), ".0096 \xC2\xB1.0018");
    assert_string_equal(with_u(237.36, 44.6, false), "240 \xC2\xB1"
                                                     "40");
    assert_string_equal(with_u(332.9, 111.2, false), "330 \xC2\xB1"
                                                     "110");
    assert_string_equal(with_u(-0.0855, 0.206, false), "-0.09 \xC2\xB1"
                                                       "0.21");
    assert_string_equal(with_u(23.13, 2.03, false), "23.1 \xC2\xB1"
                                                    "2.0");
    /* One that is not known is not written. */
    assert_string_equal(with_u(23.134, 0, false), "23.13");
    assert_string_equal(with_u(23.134, (double)INFINITY, false), "23.13");
    assert_string_equal(with_u(23.134, (double)NAN, false), "23.13");
    const struct amount_with_u inches = amount_of_length(25.4, 0.254, UNIT_TH);

    assert_near(inches.value, 1, 1e-12);
    assert_near(inches.u, 0.01, 1e-12);
}

/* JCGM 100:2008 (GUM), 7.2.6: at most two digits of the uncertainty, and the value to the same
 * place. */
static void amount_writes_the_digits_that_its_doubt_supports(void **state)
{
    enum { WIDE = 40 };

    (void)state;
    assert_string_equal(supported(2.4137, 1.0699, UNIT_MM, WIDE), "2.4 \xC2\xB1"
                                                                  "1.1");
    assert_string_equal(supported(2.4137, 0.9312, UNIT_MM, WIDE), "2.4 \xC2\xB1"
                                                                  "0.9");
    assert_string_equal(supported(2.4137, 0.0963, UNIT_MM, WIDE), "2.41 \xC2\xB1"
                                                                  "0.10");
    assert_string_equal(supported(2.4137, 0.96, UNIT_MM, WIDE), "2.4 \xC2\xB1"
                                                                "1.0");
    assert_string_equal(supported(4.958, 3.05, UNIT_MM, WIDE), "5 \xC2\xB1"
                                                               "3");
    assert_string_equal(supported(4.958, 2.96, UNIT_MM, WIDE), "5 \xC2\xB1"
                                                               "3");
    assert_string_equal(supported(4.958, 2.94, UNIT_MM, WIDE), "5.0 \xC2\xB1"
                                                               "2.9");
    assert_string_equal(supported(104.4, 23.3, UNIT_MM, WIDE), "104 \xC2\xB1"
                                                               "23");
    /* No finer than the unit is written. */
    assert_string_equal(supported(2.4137, 0.0031, UNIT_MM, WIDE), "2.41 \xC2\xB1"
                                                                  "0.00");
    assert_string_equal(supported(2.54, 1.0699, UNIT_IN, WIDE), ".10 \xC2\xB1"
                                                                ".04");
    assert_string_equal(supported(-0.04, 1.2, UNIT_MM, WIDE), "0.0 \xC2\xB1"
                                                              "1.2");
    /* In a narrow column the ± is rounded up. */
    assert_string_equal(supported(2.4137, 1.0699, UNIT_MM, 7), "2 \xC2\xB1"
                                                               "2");
    assert_string_equal(supported(2.4137, 0, UNIT_MM, WIDE), "2.41");
    assert_string_equal(supported(2.4137, (double)INFINITY, UNIT_MM, WIDE), "2.41 \xC2\xB1?");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(amount_writes_the_digits_that_its_doubt_supports),
        cmocka_unit_test(amount_writes_what_the_gauge_reads),
        cmocka_unit_test(amount_writes_changes_with_their_sign),
        cmocka_unit_test(amount_writes_nothing_without_a_sign),
        cmocka_unit_test(amount_writes_what_is_no_number_as_such),
        cmocka_unit_test(amount_gives_up_decimals_where_it_must),
        cmocka_unit_test(amount_to_cut_is_no_finer_than_a_hand),
        cmocka_unit_test(amount_of_work_is_what_a_hand_makes),
        cmocka_unit_test(amount_on_rule_is_round),
        cmocka_unit_test(amount_names_its_unit),
        cmocka_unit_test(amount_range_is_one_amount_where_both_read_the_same),
        cmocka_unit_test(amount_in_all_ways_says_which_are_rounded),
        cmocka_unit_test(amount_in_all_ways_agrees_with_itself),
        cmocka_unit_test(digits_follow_the_uncertainty),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
