/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "build_record.h"
#include "sheet/sheet_cards.h"
#include "sheet/sheet_text.h"

/* The card for the bench: what it says against the moves and against the fret formula. */

static char *text_of(const char *more)
{
    const struct sheet_ask ask = {.visit = 1, .units = shop_units_inch()};
    struct record record;
    struct sheet sheet;
    char *text = NULL;

    build_record(&record, build_record_full);
    build_record_add(&record, more);
    assert_int_equal(sheet_cards_make(&record, &ask, &sheet), STATUS_OK);
    assert_int_equal(sheet_write_text(&sheet, true, &text), STATUS_OK);
    sheet_done(&sheet);
    record_done(&record);
    return text;
}

/* From the nut, L (1 - 2^(-n/12)): equal temperament, inches on the 24.9 in scale. */
static double fret_in(int n)
{
    return 24.9 * (1 - pow(2, -n / 12.0));
}

static void an_edge_rests_on_three_frets_and_no_other(void **state)
{
    char *text = text_of("");

    (void)state;
    for (int n = 2; n < 19; n++) {
        char head[16];
        double over = (double)NAN, under = (double)NAN;

        (void)snprintf(head, sizeof head, "\n%6d ", n);
        const char *row = strstr(strstr(text, "Fret rocker"), head);
        assert_non_null(row);
        const int read = sscanf(row + strlen(head), "%lf %lf", &over, &under);
        assert_true(over > fret_in(n + 1) - fret_in(n - 1));
        if (n + 2 > 19)
            continue;
        assert_int_equal(read, 2);
        assert_true(under > over);
        assert_true(under < fret_in(n + 2) - fret_in(n - 1));
        assert_true(n < 3 || under < fret_in(n + 1) - fret_in(n - 2));
    }
    free(text);
}

/* As the moves have it: what is to come off is what the gap is to lose once the action is right. */
static void a_slot_says_what_comes_off(void **state)
{
    const struct derived derived = build_derived(build_record_full, "");
    char *text = text_of("string.6 gauge = .046 in\n");

    (void)state;
    for (int s = 1; s <= 6; s++) {
        const struct move_amount *amount = &derived.moves.move[MOVE_SLOTS].string[s];
        char want[32];

        if (!amount->due)
            continue;
        assert_true(amount->value < 0);
        (void)snprintf(want, sizeof want, ".%03d ", (int)(-amount->value / 0.0254));
        if (!strstr(text, want))
            fail_msg("'%s' is not in:\n%s", want, text);
    }
    assert_non_null(strstr(text, ".046"));
    assert_non_null(strstr(text, ".049")); /* .046 in and 0.08 mm */
    free(text);
}

static void a_zero_fret_has_no_slots(void **state)
{
    char *text = text_of("nut kind = zero-fret\n");

    (void)state;
    assert_null(strstr(text, "Nut slots"));
    assert_non_null(strstr(text, "Fret rocker"));
    free(text);
}

/* A short string has no slot of its own on the card; a bare board nothing to rock; a bar neither.
 */
static void other_kinds_have_what_they_have(void **state)
{
    char *short_one = text_of("string.6 from_fret = 5\n"), *usual = text_of("");
    char *bare = text_of("board fretless = yes\n"), *bar = text_of("nut kind = raised\n");

    (void)state;
    assert_non_null(strstr(usual, "\n  6 "));
    assert_null(strstr(short_one, "\n  6 "));
    assert_non_null(strstr(short_one, "\n  5 "));
    assert_null(strstr(bare, "Fret rocker"));
    assert_non_null(strstr(bare, "Nut slots"));
    assert_null(strstr(bar, "Fret rocker"));
    assert_null(strstr(bar, "Nut slots"));
    free(short_one);
    free(usual);
    free(bare);
    free(bar);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_edge_rests_on_three_frets_and_no_other),
        cmocka_unit_test(a_slot_says_what_comes_off),
        cmocka_unit_test(a_zero_fret_has_no_slots),
        cmocka_unit_test(other_kinds_have_what_they_have),
    };

    return cmocka_run_group_tests_name("sheet_cards", tests, NULL, NULL) ? 1 : 0;
}
