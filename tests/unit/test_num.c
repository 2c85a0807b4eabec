/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/num.h"

enum { SEED = 20240917, ROUNDS = 200000 };

/* The text typed in a cell of `bare`, and its exact value in the pivot unit. */
struct accepted {
    const char *text;
    enum unit bare;
    double value;
};

static void check_accepted(const struct accepted *cases, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        double value = -12345.0;
        struct num_fault fault = {STATUS_OK, 0, "no fault"};
        enum status status =
            num_parse(cases[i].text, unit_quantity(cases[i].bare), cases[i].bare, &value, &fault);

        if (status != STATUS_OK || !near_is(value, cases[i].value, 3e-16 * fabs(cases[i].value)))
            fail_msg("\"%s\" in %s: %.17g, want %.17g (%s)", cases[i].text,
                     unit_label(cases[i].bare), value, cases[i].value, fault.what);
    }
}

#define CHECK_ACCEPTED(cases) check_accepted(cases, sizeof(cases) / sizeof((cases)[0]))

static void decimals_are_of_the_cell(void **state)
{
    static const struct accepted cases[] = {
        {"13", UNIT_TH, 0.3302},         {"6", UNIT_64THS, 2.38125},
        {"6.5", UNIT_64THS, 2.5796875},  {"25", UNIT_100THS, 0.25},
        {"25.5", UNIT_IN, 647.7},        {"1.5", UNIT_MM, 1.5},
        {"2.5", UNIT_CM, 25.0},          {"0", UNIT_MM, 0.0},
        {"007", UNIT_MM, 7.0},           {"0.1", UNIT_MM, 0.1},
        {"0.10", UNIT_MM, 0.1},          {"1200", UNIT_PLAIN, 1200.0},
        {".75", UNIT_TURN, 0.75},        {"12", UNIT_G, 12.0},
        {"7000", UNIT_GRAIN, 453.59237}, {"10", UNIT_LB, 44.482216152605},
    };

    (void)state;
    CHECK_ACCEPTED(cases);
}

static void a_point_below_1_is_of_the_whole_unit(void **state)
{
    static const struct accepted cases[] = {
        {".010", UNIT_TH, 0.254},   {".010", UNIT_64THS, 0.254},  {".010", UNIT_IN, 0.254},
        {".25", UNIT_100THS, 0.25}, {".25", UNIT_MM, 0.25},       {".25", UNIT_CM, 2.5},
        {"0.010", UNIT_TH, 0.254},  {"0.010", UNIT_64THS, 0.254}, {"0.5", UNIT_TH, 12.7},
        {"00.5", UNIT_IN, 12.7},    {"0.30", UNIT_100THS, 0.3},   {"0.300", UNIT_100THS, 0.3},
        {".3", UNIT_100THS, 0.3},   {"0.30", UNIT_MM, 0.3},       {"0.0", UNIT_TH, 0.0},
        {"0", UNIT_64THS, 0.0},
    };

    (void)state;
    CHECK_ACCEPTED(cases);
}

/* In a cell of hundredths every point is of mm; in inch cells a larger number counts the step. */
static void a_point_from_1_on(void **state)
{
    static const struct accepted cases[] = {
        {"1.2", UNIT_100THS, 1.2},    {"1.0", UNIT_100THS, 1.0},     {"12.5", UNIT_100THS, 12.5},
        {"12.5", UNIT_TH, 0.3175},    {"1.5", UNIT_TH, 0.0381},      {"1.0", UNIT_TH, 0.0254},
        {"6.5", UNIT_64THS, 2.57969}, {"1.0", UNIT_64THS, 0.396875},
    };

    (void)state;
    for (size_t i = 0; i < sizeof(cases) / sizeof(cases[0]); i++) {
        double value = -1.0;

        assert_int_equal(num_parse(cases[i].text, QUANTITY_LENGTH, cases[i].bare, &value, NULL),
                         STATUS_OK);
        assert_near(value, cases[i].value, 1e-5);
    }
}

static void fractions_alone_are_of_an_inch(void **state)
{
    static const struct accepted cases[] = {
        {"7/64", UNIT_64THS, 2.778125}, {"7/64", UNIT_TH, 2.778125},
        {"7/64", UNIT_MM, 2.778125},    {"7/64", UNIT_IN, 2.778125},
        {"7 / 64", UNIT_MM, 2.778125},  {"6.25/64", UNIT_64THS, 2.48046875},
        {".5/64", UNIT_MM, 0.1984375},  {"1/128", UNIT_TH, 0.1984375},
        {"9/8", UNIT_MM, 28.575},       {"1/4", UNIT_TURN, 0.25},
        {"1/3", UNIT_PLAIN, 1.0 / 3.0}, {"8 1/4/64", UNIT_MM, 3.27421875},
        {"0/64", UNIT_MM, 0.0},         {"100/3", UNIT_PERCENT, 100.0 / 3.0},
    };

    (void)state;
    CHECK_ACCEPTED(cases);
}

static void mixed_numbers_are_of_the_cell(void **state)
{
    static const struct accepted cases[] = {
        {"8 1/4", UNIT_64THS, 3.27421875},  {"8-1/4", UNIT_64THS, 3.27421875},
        {"8  1/4", UNIT_64THS, 3.27421875}, {"8\t1 / 4", UNIT_64THS, 3.27421875},
        {"1 5/8", UNIT_IN, 41.275},         {"1-5/8", UNIT_IN, 41.275},
        {"1 5/8", UNIT_MM, 41.275},         {"1-5/8", UNIT_100THS, 41.275},
        {"1 5/8", UNIT_CM, 41.275},         {"13 1/2", UNIT_TH, 0.3429},
        {"1 1/2", UNIT_TURN, 1.5},          {"0 1/3", UNIT_PLAIN, 1.0 / 3.0},
        {"2 1/3", UNIT_PLAIN, 7.0 / 3.0},
    };

    (void)state;
    CHECK_ACCEPTED(cases);
}

static void vulgar_fractions_are_read(void **state)
{
    static const struct accepted cases[] = {
        {"8\xC2\xBC", UNIT_64THS, 3.27421875},    {"8 \xC2\xBC", UNIT_64THS, 3.27421875},
        {"8-\xC2\xBC", UNIT_64THS, 3.27421875},   {"\xC2\xBD", UNIT_MM, 12.7},
        {"\xC2\xBD in", UNIT_MM, 12.7},           {"\xC2\xBE", UNIT_TURN, 0.75},
        {"1\xE2\x85\x9B", UNIT_PLAIN, 1.125},     {"1\xE2\x85\x9C", UNIT_PLAIN, 1.375},
        {"1\xE2\x85\x9D\"", UNIT_IN, 41.275},     {"1\xE2\x85\x9E", UNIT_PLAIN, 1.875},
        {"8\xC2\xBC/64 in", UNIT_MM, 3.27421875}, {"-\xC2\xBD", UNIT_TURN, -0.5},
        {"1+\xC2\xBD", UNIT_TURN, 1.5},
    };

    (void)state;
    CHECK_ACCEPTED(cases);
}

static void suffixes_beat_the_cell(void **state)
{
    static const struct accepted cases[] = {
        {"7/64in", UNIT_MM, 2.778125},
        {"7/64 in", UNIT_MM, 2.778125},
        {"7/64\"", UNIT_MM, 2.778125},
        {"7/64 \"", UNIT_MM, 2.778125},
        {"7/64\xE2\x80\xB3", UNIT_MM, 2.778125},
        {".013 IN", UNIT_MM, 0.3302},
        {"1.5mm", UNIT_64THS, 1.5},
        {"1.5 cm", UNIT_TH, 15.0},
        {"13 th", UNIT_MM, 0.3302},
        {"13thou", UNIT_MM, 0.3302},
        {"8 1/4/64 in", UNIT_MM, 3.27421875},
        {"25/100 mm", UNIT_TH, 0.25},
        {"1/2 mm", UNIT_IN, 0.5},
        {"8 1/4 mm", UNIT_64THS, 8.25},
        {"21C", UNIT_F, 21.0},
        {"21 C", UNIT_F, 21.0},
        {"21 \xC2\xB0"
         "C",
         UNIT_F, 21.0},
        {"212\xC2\xB0"
         "F",
         UNIT_C, 100.0},
        {"212f", UNIT_C, 100.0},
        {"41%", UNIT_PERCENT, 41.0},
        {"41 %", UNIT_PERCENT, 41.0},
        {"-3 cents", UNIT_CENT, -3.0},
        {"440Hz", UNIT_HZ, 440.0},
        {"2 Nm", UNIT_NM, 2.0},
        {"2 N m", UNIT_NM, 2.0},
        {"10 in-lb", UNIT_NM, 1.129848290276167},
        {"11 GPa", UNIT_MPA, 11000.0},
        {"11000 N/mm2", UNIT_GPA, 11000.0},
        {"6.2 g/m", UNIT_LB_PER_IN, 6.2},
        {"1/4 turn", UNIT_TURN, 0.25},
        {"10 kgf", UNIT_N, 98.0665},
        {"1 gr", UNIT_G, 0.06479891},
    };

    (void)state;
    CHECK_ACCEPTED(cases);
}

static void stacks_are_summed_term_by_term(void **state)
{
    const struct accepted cases[] = {
        {"10+8", UNIT_TH, 0.254 + 0.2032},
        {" 10 + 8 ", UNIT_TH, 0.254 + 0.2032},
        {".010+.002", UNIT_TH, 0.254 + 0.0508},
        {".010+.002 in", UNIT_MM, 0.254 + 0.0508},
        {"10+8 th", UNIT_MM, 0.254 + 0.2032},
        {"10 th+.25 mm", UNIT_MM, 0.254 + 0.25},
        {"10 th+.25", UNIT_MM, 0.254 + 0.25}, /* a suffix serves those before it only */
        {"1 mm+10+8 th", UNIT_MM, 1.0 + 0.254 + 0.2032},
        {"7/64+.002", UNIT_64THS, 2.778125 + 0.0508},
        {"6+1/64", UNIT_64THS, 2.38125 + 0.396875},
        {"6+.5", UNIT_64THS, 2.38125 + 0.1984375},
        {"6+0.50", UNIT_64THS, 2.38125 + 0.1984375},
        {".25+6", UNIT_64THS, 2.38125 + 0.09921875},
        {"6+1/2", UNIT_64THS, 2.38125 + 0.1984375},
        {"6+\xC2\xBC", UNIT_64THS, 2.38125 + 0.09921875},
        {"6/64+1/2", UNIT_64THS, 2.38125 + 0.1984375},
        {"6 1/4+.5", UNIT_64THS, 2.48046875 + 0.1984375},
        {"6.5+1", UNIT_64THS, 2.5796875 + 0.396875},
        {".094+.008", UNIT_64THS, 2.3876 + 0.2032},
        {"12.5+1.5", UNIT_TH, 0.3175 + 0.0381},
        {"1/64+.005", UNIT_TH, 0.396875 + 0.127},
        {"30+5", UNIT_100THS, 0.30 + 0.05},
        {"0.30+0.05", UNIT_100THS, 0.30 + 0.05},
        {"1.2+.05", UNIT_100THS, 1.2 + 0.05},
        {"2+.5", UNIT_MM, 2.5},
        {"1/2+.5", UNIT_IN, 25.4},
        {"25+1/2", UNIT_IN, 647.7},
        {"1 1/2+1/4", UNIT_TURN, 1.75},
        {"-10+8", UNIT_TH, -(0.254 + 0.2032)},
        {"1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1", UNIT_MM, 32.0},
    };

    (void)state;
    CHECK_ACCEPTED(cases);
}

static void a_minus_in_front_negates(void **state)
{
    static const struct accepted cases[] = {
        {"-13", UNIT_TH, -0.3302},    {"- 13", UNIT_TH, -0.3302}, {"-7/64", UNIT_MM, -2.778125},
        {"-1-5/8", UNIT_IN, -41.275}, {"-40 F", UNIT_C, -40.0},   {"-4", UNIT_C, -4.0},
    };
    double value = -1.0;

    (void)state;
    CHECK_ACCEPTED(cases);
    assert_int_equal(num_parse("-0", QUANTITY_LENGTH, UNIT_TH, &value, NULL), STATUS_OK);
    assert_near(value, 0.0, 0.0);
    assert_near(1.0 / (value + 1e-300), 1e300, 1e290); /* not minus zero */
    assert_memory_equal(&value, &(double){0.0}, sizeof(value));
}

static void without_a_cell_every_term_needs_a_unit(void **state)
{
    static const struct {
        const char *text;
        enum quantity_kind quantity;
        double value;
    } cases[] = {
        {"7/64 in", QUANTITY_LENGTH, 2.778125},
        {"10+8 th", QUANTITY_LENGTH, 0.254 + 0.2032},
        {".010+8 th", QUANTITY_LENGTH, 8.01 * 0.0254}, /* a file is read as it always was */
        {"0.30+5/100 mm", QUANTITY_LENGTH, 0.35},
        {"0.5 th", QUANTITY_LENGTH, 0.0127},
        {"6+.5/64 in", QUANTITY_LENGTH, 6 * 25.4 + 0.5 / 64 * 25.4},
        {"21 C", QUANTITY_TEMPERATURE, 21.0},
        {"2.5", QUANTITY_PLAIN, 2.5},
    };

    (void)state;
    for (size_t i = 0; i < sizeof(cases) / sizeof(cases[0]); i++) {
        double value = 0.0;

        assert_int_equal(num_parse(cases[i].text, cases[i].quantity, UNIT_NONE, &value, NULL),
                         STATUS_OK);
        /* A sum and a product, each rounded once. */
        assert_near_relative(value, cases[i].value, 1e-15);
    }
}

static void amounts_round_to_the_nearest_double(void **state)
{
    double value;

    (void)state;
    assert_int_equal(num_parse("1/128 in", QUANTITY_LENGTH, UNIT_NONE, &value, NULL), STATUS_OK);
    assert_near(value, (1.0 / 128) * 25.4, 0.0);
    /* One division: 10 1/3 is 31/3, which is not 10.0 + 1.0/3.0. */
    assert_int_equal(num_parse("1000000 1/3", QUANTITY_PLAIN, UNIT_PLAIN, &value, NULL), STATUS_OK);
    assert_near(value, 3000001.0 / 3.0, 0.0);
}

/* However many digits: halves of the last place, and one digit more, decide the rounding. */
static void long_decimals_round_to_the_nearest(void **state)
{
    static const struct {
        const char *text;
        double value;
    } cases[] = {
        {"999999999999999", 999999999999999.0},
        {"0.30000000000000004", 0.1 + 0.2},
        {"2.3812500000000001421", 2.38125},
        {"0.0000000000000000000001", 1e-22},
        {"0.00000000000000000000000000001", 1e-29},
        {"9007199254740993", 9007199254740992.0},
        {"9007199254740993.0000000000000000000001", 9007199254740994.0},
        {"1.00000000000000011102230246251565404", 1.0},
        {"1.00000000000000011102230246251565405", 0x1.0000000000001p0},
    };

    (void)state;
    for (size_t i = 0; i < sizeof(cases) / sizeof(cases[0]); i++) {
        double value = -1.0;

        assert_int_equal(num_parse(cases[i].text, QUANTITY_PLAIN, UNIT_PLAIN, &value, NULL),
                         STATUS_OK);
        if (!near_is(value, cases[i].value, 0.0))
            fail_msg("%s: %.17g", cases[i].text, value);
    }
}

/* strtod of the C library, which rounds correctly, over random decimals. */
static void decimals_agree_with_strtod(void **state)
{
    uint64_t seed = SEED;

    (void)state;
    print_message("seed %d\n", SEED);
    for (int i = 0; i < ROUNDS; i++) {
        char digits[64], text[64];
        uint64_t random, shift;
        int decimals;
        double value = -1.0;

        seed = seed * 6364136223846793005u + 1442695040888963407u;
        random = seed >> 13;
        shift = random % 50;
        decimals = (int)(random / 64 % 23);
        snprintf(digits, sizeof(digits), "%023llu",
                 (unsigned long long)((random >> shift) % 1000000000000000u));
        snprintf(text, sizeof(text), "%.*s%s%s", 23 - decimals, digits, decimals ? "." : "",
                 digits + 23 - decimals);
        assert_int_equal(num_decimal(text, strlen(text), &value), STATUS_OK);
        if (!near_is(value, strtod(text, NULL), 0.0))
            fail_msg("%s: %.17g, strtod says %.17g", text, value, strtod(text, NULL));
    }
}

static void decimal_refuses(void **state)
{
    static const struct {
        const char *text;
        enum status status;
    } cases[] = {
        {"", STATUS_SYNTAX},
        {".", STATUS_SYNTAX},
        {"5.", STATUS_SYNTAX},
        {"1.2.3", STATUS_SYNTAX},
        {"-1", STATUS_SYNTAX},
        {"+1", STATUS_SYNTAX},
        {" 1", STATUS_SYNTAX},
        {"1 ", STATUS_SYNTAX},
        {"1,5", STATUS_SYNTAX},
        {"1e5", STATUS_SYNTAX},
        {"0x1", STATUS_SYNTAX},
        {"nan", STATUS_SYNTAX},
        {"1.0000000000000000000000000000000000000000000000000000000000000000",
         STATUS_TOO_LONG}, /* 66 bytes */
    };
    double value = 7.0;

    (void)state;
    for (size_t i = 0; i < sizeof(cases) / sizeof(cases[0]); i++)
        assert_int_equal(num_decimal(cases[i].text, strlen(cases[i].text), &value),
                         cases[i].status);
    assert_near(value, 7.0, 0.0);
    assert_int_equal(num_decimal("12x", 2, &value), STATUS_OK);
    assert_near(value, 12.0, 0.0);
}

static void count_reads_whole_numbers(void **state)
{
    int count = -1;

    (void)state;
    assert_int_equal(num_count("24", 2, 36, &count), STATUS_OK);
    assert_int_equal(count, 24);
    assert_int_equal(num_count("0", 1, 0, &count), STATUS_OK);
    assert_int_equal(count, 0);
    assert_int_equal(num_count("0012x", 4, 12, &count), STATUS_OK);
    assert_int_equal(count, 12);
    assert_int_equal(num_count("2147483647", 10, 2147483647, &count), STATUS_OK);
    assert_int_equal(count, 2147483647);
    count = 5;
    assert_int_equal(num_count("2147483648", 10, 2147483647, &count), STATUS_RANGE);
    assert_int_equal(num_count("99999999999999999999", 20, 2147483647, &count), STATUS_RANGE);
    assert_int_equal(num_count("13", 2, 12, &count), STATUS_RANGE);
    assert_int_equal(num_count("9", 1, 3, &count), STATUS_RANGE);
    assert_int_equal(num_count("", 0, 12, &count), STATUS_SYNTAX);
    assert_int_equal(num_count("-1", 2, 12, &count), STATUS_SYNTAX);
    assert_int_equal(num_count("+1", 2, 12, &count), STATUS_SYNTAX);
    assert_int_equal(num_count("1.0", 3, 12, &count), STATUS_SYNTAX);
    assert_int_equal(num_count(" 1", 2, 12, &count), STATUS_SYNTAX);
    assert_int_equal(count, 5);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(decimals_are_of_the_cell),
        cmocka_unit_test(a_point_below_1_is_of_the_whole_unit),
        cmocka_unit_test(a_point_from_1_on),
        cmocka_unit_test(fractions_alone_are_of_an_inch),
        cmocka_unit_test(mixed_numbers_are_of_the_cell),
        cmocka_unit_test(vulgar_fractions_are_read),
        cmocka_unit_test(suffixes_beat_the_cell),
        cmocka_unit_test(stacks_are_summed_term_by_term),
        cmocka_unit_test(a_minus_in_front_negates),
        cmocka_unit_test(without_a_cell_every_term_needs_a_unit),
        cmocka_unit_test(amounts_round_to_the_nearest_double),
        cmocka_unit_test(long_decimals_round_to_the_nearest),
        cmocka_unit_test(decimals_agree_with_strtod),
        cmocka_unit_test(decimal_refuses),
        cmocka_unit_test(count_reads_whole_numbers),
    };

    return cmocka_run_group_tests_name("num", tests, NULL, NULL) ? 1 : 0;
}
