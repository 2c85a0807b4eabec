/* SPDX-License-Identifier: MIT */
#include "near.h"

#include "base/unit.h"

#include <float.h>
#include <math.h>
#include <string.h>

static void factors_are_the_published_ones(void **state)
{
    (void)state;
    /* NIST SP 811 (2008), appendix B.8 and its footnotes, exact. */
    assert_near(unit_to_pivot(UNIT_IN, 1.0), 25.4, 0.0);
    assert_near(unit_to_pivot(UNIT_LB, 1.0), 4.4482216152605, 0.0);
    assert_near(unit_to_pivot(UNIT_GRAIN, 1.0), 0.06479891, 0.0);
    assert_near(unit_to_pivot(UNIT_KGF, 1.0), 9.80665, 0.0);
    /* The same: 1 lb = 0.453 592 37 kg, over 1 in = 0.0254 m; 1 lbf times 1 in. */
    assert_near_relative(unit_to_pivot(UNIT_LB_PER_IN, 1.0), 453.59237 / 0.0254, DBL_EPSILON);
    assert_near_relative(unit_to_pivot(UNIT_INLB, 1.0), 4.4482216152605 * 0.0254, DBL_EPSILON);
    /* By the definition of the grain, 7000 to the avoirdupois pound. */
    assert_near_relative(unit_to_pivot(UNIT_GRAIN, 7000.0), 453.59237, DBL_EPSILON);
    /* By the meaning of the prefixes and names. */
    assert_near(unit_to_pivot(UNIT_CM, 1.0), 10.0, 0.0);
    assert_near(unit_to_pivot(UNIT_TH, 1.0), 0.0254, 0.0);
    assert_near(unit_to_pivot(UNIT_64THS, 1.0), 0.396875, 0.0);
    assert_near(unit_to_pivot(UNIT_100THS, 1.0), 0.01, 0.0);
    assert_near(unit_to_pivot(UNIT_GPA, 1.0), 1000.0, 0.0);
}

static void temperatures_are_affine(void **state)
{
    (void)state;
    /* NIST SP 811 (2008), B.8: t/C = (t/F - 32)/1.8; freezing, boiling, the crossing. */
    assert_near(unit_to_pivot(UNIT_F, 32.0), 0.0, 0.0);
    assert_near(unit_to_pivot(UNIT_F, 212.0), 100.0, 0.0);
    assert_near(unit_to_pivot(UNIT_F, -40.0), -40.0, 0.0);
    assert_near(unit_from_pivot(UNIT_F, 100.0), 212.0, 0.0);
    assert_near(unit_from_pivot(UNIT_F, 21.0), 69.8, 1e-13);
    assert_near(unit_to_pivot(UNIT_C, 21.0), 21.0, 0.0);
}

static void parts_of_a_unit_are_the_same_double(void **state)
{
    (void)state;
    assert_near(unit_to_pivot(UNIT_IN, 1.0 / 128), 0.1984375, 0.0);
    for (int n = 1; n < 4096; n++) {
        /* n/64 in is n * 396875 / 10^6 mm: both exact, so this division is the nearest. */
        double nearest = n * 396875.0 / 1e6;

        assert_near_relative(unit_to_pivot(UNIT_IN, n / 64.0), nearest, 3e-16);
        assert_near(unit_to_pivot(UNIT_64THS, n), unit_to_pivot(UNIT_IN, n / 64.0), 0.0);
        assert_near_relative(unit_to_pivot(UNIT_TH, n), n * 254.0 / 1e4, 3e-16);
        assert_near(unit_to_pivot(UNIT_100THS, n), n / 100.0, 0.0);
    }
}

static void pivots_convert_to_themselves(void **state)
{
    (void)state;
    for (int unit = UNIT_NONE; unit < UNIT_COUNT_; unit++) {
        enum unit pivot = unit_pivot(unit_quantity((enum unit)unit));

        assert_int_equal(unit_quantity(pivot), unit_quantity((enum unit)unit));
        assert_near(unit_to_pivot(pivot, 0.1), 0.1, 0.0);
        assert_near(unit_from_pivot(pivot, 0.1), 0.1, 0.0);
    }
    assert_int_equal(unit_pivot(QUANTITY_LENGTH), UNIT_MM);
    assert_int_equal(unit_pivot(QUANTITY_STRESS), UNIT_MPA);
    assert_int_equal(unit_pivot(QUANTITY_UNIT_MASS), UNIT_G_PER_M);
}

static void conversions_come_back(void **state)
{
    static const double values[] = {0.0, 0.013, 1.0, -7.25, 25.5, 648.0, 1234.5678};

    (void)state;
    for (int unit = UNIT_NONE; unit < UNIT_COUNT_; unit++)
        for (size_t i = 0; i < sizeof(values) / sizeof(values[0]); i++) {
            double there = unit_to_pivot((enum unit)unit, values[i]);
            double scale = unit == UNIT_F ? 64.0 + fabs(values[i]) : fabs(values[i]);

            assert_near(unit_from_pivot((enum unit)unit, there), values[i],
                        2.0 * DBL_EPSILON * scale);
        }
}

static void check_suffix(enum quantity_kind quantity, const char *text, enum unit want)
{
    enum unit unit = UNIT_COUNT_;

    if (!unit_from_suffix(quantity, text, strlen(text), &unit) || unit != want)
        fail_msg("suffix \"%s\": unit %d, want %d", text, (int)unit, (int)want);
}

static void suffixes_name_units(void **state)
{
    (void)state;
    check_suffix(QUANTITY_LENGTH, "mm", UNIT_MM);
    check_suffix(QUANTITY_LENGTH, "MM", UNIT_MM);
    check_suffix(QUANTITY_LENGTH, "cm", UNIT_CM);
    check_suffix(QUANTITY_LENGTH, "In", UNIT_IN);
    check_suffix(QUANTITY_LENGTH, "inch", UNIT_IN);
    check_suffix(QUANTITY_LENGTH, "inches", UNIT_IN);
    check_suffix(QUANTITY_LENGTH, "\"", UNIT_IN);
    check_suffix(QUANTITY_LENGTH, "\xE2\x80\xB3", UNIT_IN); /* U+2033 */
    check_suffix(QUANTITY_LENGTH, "\xE2\x80\x9D", UNIT_IN); /* U+201D */
    check_suffix(QUANTITY_LENGTH, "th", UNIT_TH);
    check_suffix(QUANTITY_LENGTH, "thou", UNIT_TH);
    check_suffix(QUANTITY_TEMPERATURE, "C", UNIT_C);
    check_suffix(QUANTITY_TEMPERATURE,
                 "\xC2\xB0"
                 "c",
                 UNIT_C);
    check_suffix(QUANTITY_TEMPERATURE, "f", UNIT_F);
    check_suffix(QUANTITY_TEMPERATURE,
                 "\xC2\xB0"
                 "F",
                 UNIT_F);
    check_suffix(QUANTITY_PERCENT, "%", UNIT_PERCENT);
    check_suffix(QUANTITY_CENTS, "cent", UNIT_CENT);
    check_suffix(QUANTITY_FREQUENCY, "hz", UNIT_HZ);
    check_suffix(QUANTITY_FORCE, "n", UNIT_N);
    check_suffix(QUANTITY_FORCE, "lbf", UNIT_LB);
    check_suffix(QUANTITY_FORCE, "lbs", UNIT_LB);
    check_suffix(QUANTITY_FORCE, "kg", UNIT_KGF);
    check_suffix(QUANTITY_STRESS, "N/mm\xC2\xB2", UNIT_MPA);
    check_suffix(QUANTITY_STRESS, "MPa", UNIT_MPA);
    check_suffix(QUANTITY_STRESS, "gpa", UNIT_GPA);
    check_suffix(QUANTITY_TORQUE, "N m", UNIT_NM);
    check_suffix(QUANTITY_TORQUE, "N\xC2\xB7m", UNIT_NM);
    check_suffix(QUANTITY_TORQUE, "in lb", UNIT_INLB);
    check_suffix(QUANTITY_TORQUE, "inlb", UNIT_INLB);
    check_suffix(QUANTITY_TORQUE, "lb-in", UNIT_INLB);
    check_suffix(QUANTITY_MASS, "grains", UNIT_GRAIN);
    check_suffix(QUANTITY_UNIT_MASS, "lb/in", UNIT_LB_PER_IN);
    check_suffix(QUANTITY_TURNS, "turns", UNIT_TURN);
}

static void labels_and_listed_suffixes_are_understood(void **state)
{
    (void)state;
    for (int unit = UNIT_MM; unit < UNIT_COUNT_; unit++)
        if (unit != UNIT_64THS && unit != UNIT_100THS)
            check_suffix(unit_quantity((enum unit)unit), unit_label((enum unit)unit),
                         (enum unit)unit);
    assert_string_equal(unit_label(UNIT_64THS), "/64 in");
    assert_string_equal(unit_label(UNIT_100THS), "/100 mm");
    assert_string_equal(unit_label(UNIT_NONE), "");
    assert_string_equal(unit_label(UNIT_PLAIN), "");
    for (int q = QUANTITY_LENGTH; q <= QUANTITY_TURNS; q++) {
        const char *list = strstr(unit_wanted((enum quantity_kind)q), ": ");

        assert_non_null(list);
        list += 2;
        for (size_t length; *list; list += length + (list[length] ? 2 : 0)) {
            enum unit unit;

            length = strcspn(list, ",");
            assert_true(unit_from_suffix((enum quantity_kind)q, list, length, &unit));
        }
    }
}

static void other_suffixes_are_refused(void **state)
{
    static const struct {
        enum quantity_kind quantity;
        const char *text;
    } refused[] = {
        {QUANTITY_LENGTH, ""},      {QUANTITY_LENGTH, "m"},   {QUANTITY_LENGTH, "m m"},
        {QUANTITY_LENGTH, " mm"},   {QUANTITY_LENGTH, "mmm"}, {QUANTITY_LENGTH, "N"},
        {QUANTITY_LENGTH, "i"},     {QUANTITY_FORCE, "mm"},   {QUANTITY_TORQUE, "N  m"},
        {QUANTITY_PERCENT, "perc"}, {QUANTITY_MASS, "g/m"},   {QUANTITY_PLAIN, "mm"},
        {QUANTITY_PLAIN, ""},       {QUANTITY_CENTS, "\xC2"}, {QUANTITY_TEMPERATURE, "K"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof(refused) / sizeof(refused[0]); i++) {
        enum unit unit = UNIT_COUNT_;

        assert_false(
            unit_from_suffix(refused[i].quantity, refused[i].text, strlen(refused[i].text), &unit));
        assert_int_equal(unit, UNIT_COUNT_);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(factors_are_the_published_ones),
        cmocka_unit_test(temperatures_are_affine),
        cmocka_unit_test(parts_of_a_unit_are_the_same_double),
        cmocka_unit_test(pivots_convert_to_themselves),
        cmocka_unit_test(conversions_come_back),
        cmocka_unit_test(suffixes_name_units),
        cmocka_unit_test(labels_and_listed_suffixes_are_understood),
        cmocka_unit_test(other_suffixes_are_refused),
    };

    return cmocka_run_group_tests_name("unit", tests, NULL, NULL) ? 1 : 0;
}
