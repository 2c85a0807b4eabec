/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "build_record.h"
#include "sheet/sheet_say.h"

/* 1 in = 25.4 mm, 1 lb = 4.4482216152605 N, 1 kgf = 9.80665 N: exact by definition. */

typedef void say(struct strbuf *out, double value, const struct shop_units *units,
                 enum field_measure measure);

static void check_say(say *make, double mm, bool metric, enum field_measure measure,
                      const char *want)
{
    const struct shop_units units = metric ? shop_units_metric() : shop_units_inch();
    char memory[128];
    struct strbuf text = STRBUF(memory);

    make(&text, mm, &units, measure);
    assert_string_equal(memory, want);
}

static void lengths_stand_in_both_units(void **state)
{
    (void)state;
    check_say(sheet_say_length, 0.2794, false, MEASURE_FEELER, ".011 in (0.28 mm)");
    check_say(sheet_say_length, 0.2794, true, MEASURE_FEELER, "0.28 mm (.011 in)");
    check_say(sheet_say_length, 25.4 * 8.5 / 64, false, MEASURE_RULE,
              "8.5/64\xC2\xA0"
              "in (3.37 mm)");
    check_say(sheet_say_length, 25.4 * 6 / 64, false, MEASURE_RULE,
              "6/64\xC2\xA0"
              "in (2.38 mm)");
    check_say(sheet_say_length, 25.4 * 6 / 64, true, MEASURE_RULE,
              "2.38 mm (6/64\xC2\xA0"
              "in)");
    check_say(sheet_say_length, 4.4, false, MEASURE_DEPTH,
              "11.1/64\xC2\xA0"
              "in (4.40 mm)");
    check_say(sheet_say_length, 4.4, true, MEASURE_DEPTH, "4.40 mm (.173 in)");
    check_say(sheet_say_change, 0.1524, false, MEASURE_FEELER, "+.006 in (+0.15 mm)");
    check_say(sheet_say_change, -0.1524, true, MEASURE_FEELER, "-0.15 mm (-.006 in)");
}

/* As an owner reads them: the number in front, and the one in brackets. */
static void read_both(say *make, double mm, bool metric, double *ret_mm, double *ret_other_mm)
{
    const struct shop_units units = metric ? shop_units_metric() : shop_units_inch();
    char memory[128];
    struct strbuf text = STRBUF(memory);

    make(&text, mm, &units, MEASURE_FEELER);
    const double first = strtod(memory, NULL), second = strtod(strchr(memory, '(') + 1, NULL);
    *ret_mm = first * (metric ? 1 : 25.4);
    *ret_other_mm = second * (metric ? 25.4 : 1);
}

/* A small amount would else read .001 in (0.01 mm), and .001 in is 0.0254 mm. Larger ones differ by
 * half a step of each at the most. */
static void both_units_say_the_same(void **state)
{
    static say *const says[] = {sheet_say_length, sheet_say_change, sheet_say_bare};
    const double step_mm = 0.01, half_steps_mm = (step_mm + 0.0254) / 2;

    (void)state;
    for (int i = 5; i < 3000; i++)
        for (int k = 0; k < 6; k++) {
            const double mm = i / 1000.0;
            double first_mm, second_mm;

            read_both(says[k / 2], mm, k % 2, &first_mm, &second_mm);
            assert_near(first_mm, second_mm, mm < 0.05 ? 0.0076 : half_steps_mm + 1e-9);
        }
    check_say(sheet_say_length, 0.0127, false, MEASURE_FEELER, ".0005 in (0.01 mm)");
    check_say(sheet_say_length, 0.0254, false, MEASURE_FEELER, ".001 in (0.03 mm)");
    check_say(sheet_say_length, 0.0127, true, MEASURE_FEELER, "0.01 mm (.0005 in)");
}

static void columns_keep_their_zeros(void **state)
{
    (void)state;
    check_say(sheet_say_bare, 25.4 * 6 / 64, false, MEASURE_RULE, "6.0 (2.38)");
    check_say(sheet_say_bare, 0.254, false, MEASURE_FEELER, ".010 (0.25)");
    check_say(sheet_say_bare, 0.3, true, MEASURE_FEELER, "0.30 (.012)");
}

static void forces_and_temperatures_too(void **state)
{
    const struct shop_units inch = shop_units_inch(), metric = shop_units_metric();
    char memory[64];
    struct strbuf text = STRBUF(memory);

    (void)state;
    sheet_say_force(&text, 111.2055403815125, &inch); /* 25 lb */
    assert_string_equal(memory, "25.0 (111)");
    strbuf_clear(&text);
    sheet_say_force(&text, 98.0665, &metric); /* 10 kg */
    assert_string_equal(memory, "98 (10.0)");
    strbuf_clear(&text);
    sheet_say_temperature(&text, 20, &inch);
    assert_string_equal(memory, "68 F (20 C)");
    strbuf_clear(&text);
    sheet_say_scale(&text, 24.75 * 25.4, &inch);
    assert_string_equal(memory, "24.75 in (628.6 mm)");
    strbuf_clear(&text);
    sheet_say_scale(&text, 650, &metric);
    assert_string_equal(memory, "650 mm (25.591 in)");
}

static void dates_are_spelled_out(void **state)
{
    static const char *const pairs[][2] = {
        {"2026-07-06", "6 July 2026"},
        {"2026-12-31", "31 December 2026"},
        {"2026-13-01", "2026-13-01"},
        {"soon", "soon"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++) {
        char memory[64];
        struct strbuf text = STRBUF(memory);

        sheet_say_date(&text, pairs[i][0]);
        assert_string_equal(memory, pairs[i][1]);
    }
}

static void numbers_in_a_row_are_said_by_their_ends(void **state)
{
    static const struct {
        uint64_t set;
        bool down;
        const char *words;
    } cases[] = {
        {UINT64_C(1) << 3, true, "one 3"},
        {0x7C, true, "many 6 to 2"},
        {0x7C, false, "many 2 to 6"},
        {0x30, false, "many 4 and 5"},
        {0x230, false, "many 4, 5 and 9"},
        {0x230, true, "many 9, 5 and 4"},
        {UINT64_C(0x7F) << 30 | 1, false, "many 0 and 30 to 36"},
        {UINT64_C(0x7F) << 30 | 1, true, "many 36 to 30 and 0"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char memory[64];
        struct strbuf text = STRBUF(memory);

        sheet_say_numbers(&text, cases[i].set, cases[i].down, "one", "many");
        assert_string_equal(memory, cases[i].words);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lengths_stand_in_both_units),
        cmocka_unit_test(both_units_say_the_same),
        cmocka_unit_test(columns_keep_their_zeros),
        cmocka_unit_test(forces_and_temperatures_too),
        cmocka_unit_test(dates_are_spelled_out),
        cmocka_unit_test(numbers_in_a_row_are_said_by_their_ends),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
