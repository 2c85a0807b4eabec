/* SPDX-License-Identifier: MIT */
#include "near.h"

#include "model/reading/work_amount.h"

/* How much a line of work says was done. Expected: by hand. */

static struct work_amount find(const char *text)
{
    const struct outfit outfit = outfit_plain(6);
    struct work_amount amount;

    work_amount_find(text, &outfit, &amount);
    return amount;
}

/* Four courses of two: what is said of one holds for both its strings. */
static void courses_are_read(void **state)
{
    struct outfit outfit = outfit_plain(8);
    struct work_amount amount;

    (void)state;
    outfit.courses = 4;
    for (int s = 1; s <= 8; s++) {
        outfit.course[s] = (s + 1) / 2;
        outfit.read_as[s] = s - (s + 1) % 2;
    }
    work_amount_find("file +-.001 in; course 4 -.2, 1 -.1, string 3 -.3 mm", &outfit, &amount);
    assert_false(amount.is_said[3]);
    work_amount_find("course 4 -.2, 1 -.1, string 3 -.3 mm", &outfit, &amount);
    assert_near(amount.value[8], -0.2, 1e-12);
    assert_near(amount.value[7], -0.2, 1e-12);
    assert_near(amount.value[2], -0.1, 1e-12);
    assert_near(amount.value[3], -0.3, 1e-12);
    assert_false(amount.is_said[4]);
    work_amount_find("-.4 -.3 -.2 -.1 mm", &outfit, &amount);
    assert_near(amount.value[8], -0.4, 1e-12);
    assert_near(amount.value[2], -0.1, 1e-12);
    work_amount_find("-.4 mm bass, -.1 mm treble", &outfit, &amount);
    assert_near(amount.value[7], -0.4, 1e-12);
    assert_near(amount.value[6], -0.3, 1e-12);
    assert_near(amount.value[1], -0.1, 1e-12);
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

/* As a hand writes it. */
static void a_unit_holds_for_what_follows_it(void **state)
{
    const struct work_amount sides = find("0.8 mm off the bottom, bass; 1.1 treble"),
                             turned = find("1.1 treble, 0.8 mm bass"),
                             strings = find("string 6 -.2 mm, 5 -.15");

    (void)state;
    assert_near(sides.value[6], 0.8, 1e-12);
    assert_near(sides.value[1], 1.1, 1e-12);
    assert_near(turned.value[6], 0.8, 1e-12);
    assert_near(turned.value[1], 1.1, 1e-12);
    assert_near(strings.value[5], -0.15, 1e-12);
    assert_int_equal(find("string 6 -.2 mm, 2 strokes").unit, WORK_AMOUNT_NONE);
    assert_int_equal(find("string 6 -.2 mm, 5 -.008 in").unit, WORK_AMOUNT_NONE);
}

static void signed_numbers_stand_as_the_strings_lie(void **state)
{
    const struct work_amount amount = find("-.002-.003-.004-.005-.006-.007 in");

    (void)state;
    assert_near(amount.value[6], -.002 * 25.4, 1e-12);
    assert_near(amount.value[1], -.007 * 25.4, 1e-12);
    assert_int_equal(find("-.002-.003-.004-.005-.006 in").unit, WORK_AMOUNT_NONE);
    assert_int_equal(find("6 .008 5 .007 4 .006 in").unit, WORK_AMOUNT_NONE);
}

/* Numbers that make no sense are told from no numbers, and from what the program itself writes. */
static void what_cannot_be_read_is_known(void **state)
{
    (void)state;
    assert_true(find("-.002-.003-.004").unread);
    assert_true(find("filed .004 to .006 in").unread);
    assert_false(find("done").unread);
    assert_false(find(NULL).unread);
    assert_false(find(".8 mm").unread);
    assert_false(find("file +-.001 in; string 6 -.007, 5 -.006").unread);
    assert_false(find("tighten 1/4 turn, then read: relief -.007 +-.001 in").unread);
    assert_false(find("raise the nut, shim .020 in, or a new one; string 6 .02").unread);
    assert_int_equal(find("file +-.001 in; string 6 -.007, 5 -.006").unit, WORK_AMOUNT_NONE);
    assert_int_equal(find("height +-.05 mm; string 6 -.95, 1 -1.30").unit, WORK_AMOUNT_NONE);
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
        cmocka_unit_test(courses_are_read),
        cmocka_unit_test(one_amount_is_all_strings),
        cmocka_unit_test(strings_are_named),
        cmocka_unit_test(bass_and_treble_are_a_straight_cut),
        cmocka_unit_test(a_unit_holds_for_what_follows_it),
        cmocka_unit_test(signed_numbers_stand_as_the_strings_lie),
        cmocka_unit_test(what_cannot_be_read_is_known),
        cmocka_unit_test(what_is_no_amount_says_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
