/* SPDX-License-Identifier: MIT */
#include "near.h"

#include "model/reading/work_amount.h"

/* How much a line of work says was done. Expected: by hand. */

static struct work_amount find(const char *text)
{
    struct work_amount amount;

    work_amount_find(text, 6, &amount);
    return amount;
}

static void one_amount_is_all_strings(void **state)
{
    const struct work_amount mm = find("took off .8 mm"), inch = find("-.020 in"),
                             turn = find("1/4 turn"), mixed = find("tightened 1 1/4 turns");

    (void)state;
    assert_int_equal(mm.unit, WORK_AMOUNT_MM);
    assert_true(mm.is_said[0]);
    assert_false(mm.has_sign[0]);
    assert_near(mm.value[0], 0.8, 1e-12);
    assert_true(inch.has_sign[0]);
    assert_near(inch.value[0], -0.508, 1e-12);
    assert_int_equal(turn.unit, WORK_AMOUNT_TURNS);
    assert_near(turn.value[0], 0.25, 1e-12);
    assert_near(mixed.value[0], 1.25, 1e-12);
}

static void strings_are_named(void **state)
{
    const struct work_amount amount = find("file; string 6 -.008, 5 -.007 in");

    (void)state;
    assert_true(amount.is_said[6] && amount.is_said[5]);
    assert_false(amount.is_said[4] || amount.is_said[0]);
    assert_near(amount.value[6], -.008 * 25.4, 1e-12);
    assert_near(amount.value[5], -.007 * 25.4, 1e-12);
}

static void bass_and_treble_are_a_straight_cut(void **state)
{
    const struct work_amount amount = find("all six down: 1 3/4 turns bass, 1 1/2 turns treble");

    (void)state;
    assert_near(amount.value[6], 1.75, 1e-12);
    assert_near(amount.value[1], 1.5, 1e-12);
    assert_near(amount.value[3], 1.6, 1e-12);
}

static void what_is_no_amount_says_nothing(void **state)
{
    static const char *const texts[] = {"",
                                        "done",
                                        "about right",
                                        ".8",
                                        "filed .004 to .006 in",
                                        "6 strings",
                                        "1/0 turn",

                                        "string 6",
                                        "3 mm of 4 in and 2 turns",
                                        ("99999999999999999999999999999999999999999999999999"
                                         "99999999999999999999999999999999999999 mm")};

    (void)state;
    assert_int_equal(find(NULL).unit, WORK_AMOUNT_NONE);
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        if (find(texts[i]).unit != WORK_AMOUNT_NONE)
            fail_msg("an amount in: %s", texts[i]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_amount_is_all_strings),
        cmocka_unit_test(strings_are_named),
        cmocka_unit_test(bass_and_treble_are_a_straight_cut),
        cmocka_unit_test(what_is_no_amount_says_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
