/* SPDX-License-Identifier: MIT */
#include "near.h"

#include "base/num.h"

#include <float.h>
#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

enum { SEED = 20240917, ROUNDS = 200000 };

static uint64_t next_random(uint64_t *seed)
{
    *seed ^= *seed << 13;
    *seed ^= *seed >> 7;
    *seed ^= *seed << 17;
    return *seed;
}

static void check_format(double value, const char *want)
{
    char memory[64];
    struct strbuf buf = STRBUF(memory);

    num_format(value, &buf);
    assert_string_equal(memory, want);
}

static void check_fixed(double value, int decimals, bool drop_zero, const char *want)
{
    char memory[512];
    struct strbuf buf = STRBUF(memory);

    num_format_fixed(value, decimals, drop_zero, &buf);
    assert_string_equal(memory, want);
}

static void check_fraction(double value, int denominator, const char *want)
{
    char memory[64];
    struct strbuf buf = STRBUF(memory);

    num_format_fraction(value, denominator, &buf);
    assert_string_equal(memory, want);
}

static void format_writes_nine_digits(void **state)
{
    (void)state;
    check_format(0.0, "0");
    check_format(-0.0, "0");
    check_format(1.0, "1");
    check_format(-25.4, "-25.4");
    check_format(0.3302, "0.3302");
    check_format(1.0 / 3.0, "0.333333333");
    check_format(2.0 / 3.0, "0.666666667");
    check_format(0.0001, "0.0001");
    check_format(0.00001, "1e-05");
    check_format(1e-12, "1e-12");
    check_format(1.5e-12, "1.5e-12");
    check_format(100.0, "100");
    check_format(123456789.0, "123456789");
    check_format(1234567890.0, "1.23456789e+09");
    check_format(999999999.4, "999999999");
    check_format(999999999.6, "1e+09");
    check_format(1e15, "1e+15");
    check_format(DBL_MAX, "1.79769313e+308");
    check_format(-DBL_MIN, "-2.22507386e-308");
    check_format((double)NAN, "?");
    check_format((double)INFINITY, "?");
}

/* The C library in the C locale is the world that %.9g is checked against. */
static void format_agrees_with_printf(void **state)
{
    uint64_t seed = SEED;

    (void)state;
    print_message("seed %d\n", SEED);
    for (int i = 0; i < ROUNDS; i++) {
        char memory[64], want[64];
        struct strbuf buf = STRBUF(memory);
        uint64_t bits = next_random(&seed);
        double value;

        if (i % 2)
            value = ldexp((double)(bits >> 12), (int)(bits % 90) - 75);
        else
            memcpy(&value, &bits, sizeof(value));
        if (!isfinite(value) || value == 0.0)
            continue;
        num_format(value, &buf);
        snprintf(want, sizeof(want), "%.9g", value);
        assert_string_equal(memory, want);
    }
}

static void fixed_rounds_and_drops(void **state)
{
    (void)state;
    check_fixed(0.013, 3, true, ".013");
    check_fixed(0.013, 3, false, "0.013");
    check_fixed(-0.007, 3, true, "-.007");
    check_fixed(1.25, 3, true, "1.250");
    check_fixed(10.25, 1, true, "10.2"); /* a tie goes to even */
    check_fixed(10.75, 1, true, "10.8");
    check_fixed(0.0, 3, true, ".000");
    check_fixed(-0.0, 2, false, "0.00");
    check_fixed(-0.0004, 3, true, ".000");
    check_fixed(-0.0006, 3, true, "-.001");
    check_fixed(0.9996, 3, true, "1.000");
    check_fixed(0.4, 0, true, "0");
    check_fixed(0.5, 0, true, "0");
    check_fixed(1.5, 0, true, "2");
    check_fixed(-3.7, 0, false, "-4");
    check_fixed(1.005, 2, false, "1.00"); /* the double is below 1.005 */
    check_fixed(1.0, 9, false, "1.000000000");
    check_fixed(1.0, 12, false, "1.000000000");
    check_fixed(1.6, -1, false, "2");
    check_fixed((double)NAN, 2, false, "?");
}

static void fixed_agrees_with_printf(void **state)
{
    uint64_t seed = SEED;

    (void)state;
    print_message("seed %d\n", SEED);
    for (int i = 0; i < ROUNDS; i++) {
        char memory[512], want[512];
        struct strbuf buf = STRBUF(memory);
        uint64_t bits = next_random(&seed);
        double value = ldexp((double)(bits >> 12), (int)(bits % 80) - 75);
        int decimals = (int)(bits % 10);

        num_format_fixed(value, decimals, false, &buf);
        snprintf(want, sizeof(want), "%.*f", decimals, value);
        assert_string_equal(memory, want);
    }
}

static void fixed_takes_the_largest_double(void **state)
{
    char memory[512];
    struct strbuf buf = STRBUF(memory);

    (void)state;
    num_format_fixed(-DBL_MAX, 9, true, &buf);
    assert_int_equal(buf.length, 1 + 309 + 1 + 9);
    assert_memory_equal(memory, "-179769313486231570", 19);
    assert_string_equal(memory + 310, ".000000000");
}

static void fraction_is_in_lowest_terms(void **state)
{
    (void)state;
    check_fraction(0.140625, 64, "9/64");
    check_fraction(1.5, 64, "1 1/2");
    check_fraction(0.0, 64, "0");
    check_fraction(-0.0, 64, "0");
    check_fraction(3.0, 64, "3");
    check_fraction(-1.5, 64, "-1 1/2");
    check_fraction(-9.0 / 64, 64, "-9/64");
    check_fraction(0.999, 64, "1");
    check_fraction(0.001, 64, "0");
    check_fraction(-0.001, 64, "0");
    check_fraction(1.0 / 128, 64, "1/64");   /* a tie, away from zero */
    check_fraction(-1.0 / 128, 64, "-1/64"); /* likewise */
    check_fraction(25.5, 1, "26");
    check_fraction(8.25, 4, "8 1/4");
    check_fraction(48.0 / 64, 64, "3/4");
    check_fraction(2147483647.0, 2, "2147483647");
    check_fraction(1e12, 2, "1e+12");
    check_fraction((double)NAN, 64, "?");
}

/* In a locale that writes a comma; skipped where the machine has none. */
static void locale_changes_nothing(void **state)
{
    static const char *const names[] = {"de_DE.UTF-8", "fr_FR.UTF-8", "es_ES.UTF-8", "it_IT.UTF-8",
                                        "pl_PL.UTF-8", "ps_AF.UTF-8", "ar_EG.UTF-8"};
    double value = 0.0;
    bool found = false;

    (void)state;
    for (size_t i = 0; i < sizeof(names) / sizeof(names[0]) && !found; i++)
        found = setlocale(LC_ALL, names[i]) && strcmp(localeconv()->decimal_point, ".") != 0;
    if (!found) {
        setlocale(LC_ALL, "C");
        skip();
    }
    check_format(1234.5, "1234.5");
    check_format(1.5e-12, "1.5e-12");
    check_fixed(1234.5, 2, false, "1234.50");
    check_fixed(0.013, 3, true, ".013");
    assert_int_equal(num_parse("1.5", QUANTITY_LENGTH, UNIT_MM, &value, NULL), STATUS_OK);
    assert_near(value, 1.5, 0.0);
    assert_int_equal(num_parse("1,5", QUANTITY_LENGTH, UNIT_MM, &value, NULL), STATUS_SYNTAX);
    setlocale(LC_ALL, "C");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(format_writes_nine_digits),
        cmocka_unit_test(format_agrees_with_printf),
        cmocka_unit_test(fixed_rounds_and_drops),
        cmocka_unit_test(fixed_agrees_with_printf),
        cmocka_unit_test(fixed_takes_the_largest_double),
        cmocka_unit_test(fraction_is_in_lowest_terms),
        cmocka_unit_test(locale_changes_nothing),
    };

    return cmocka_run_group_tests_name("num_format", tests, NULL, NULL) ? 1 : 0;
}
