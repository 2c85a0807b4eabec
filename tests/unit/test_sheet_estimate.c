/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "build_record.h"
#include "sheet/sheet_estimate.h"
#include "sheet/sheet_text.h"
#include "store/shop.h"
#include "store/shop_prices.h"
#include "tree.h"

/* The estimate, and the prices that it takes from the shop's settings. */

static char *text_of(const char *more, const struct move_prices *prices)
{
    const struct sheet_ask ask = {.visit = 1, .units = shop_units_inch()};
    struct record record;
    struct sheet sheet;
    char *text = NULL;

    build_record(&record, build_record_full);
    build_record_add(&record, more);
    assert_int_equal(sheet_estimate_make(&record, &ask, prices, &sheet), STATUS_OK);
    assert_int_equal(sheet_write_text(&sheet, true, &text), STATUS_OK);
    sheet_done(&sheet);
    record_done(&record);
    return text;
}

static void check_in(const char *text, const char *words)
{
    if (!strstr(text, words))
        fail_msg("'%s' is not in:\n%s", words, text);
}

/* Relief, gaps and action are high; all three moves are due, so intonation may follow. */
static void prices_are_added_up(void **state)
{
    struct move_prices prices = {.currency = "EUR"};
    char *text;

    (void)state;
    prices.move[MOVE_ROD] = maybe_given(25);
    prices.move[MOVE_SLOTS] = maybe_given(40.5);
    prices.move[MOVE_SADDLE] = maybe_given(30);
    text = text_of("", &prices);
    check_in(text, "Estimate");
    check_in(text, "tighten until the relief is");
    check_in(text, "25.00 EUR");
    check_in(text, "40.50 EUR");
    check_in(text, "95.50 EUR"); /* 25 + 40.50 + 30 */
    free(text);
}

static void what_has_no_price_is_a_line_to_fill_in(void **state)
{
    struct move_prices prices = {.currency = ""};
    char *text;

    (void)state;
    prices.move[MOVE_ROD] = maybe_given(25);
    text = text_of("", &prices);
    check_in(text, "25.00\n");
    check_in(text, "............");
    const char *together = strstr(text, "Together");
    assert_non_null(together);
    assert_memory_equal(strchr(together, '.'), "............", 12);
    free(text);
}

/* It is what the owner agreed to: later passes and work do not change it. */
static void it_stays_as_it_was_given(void **state)
{
    const struct move_prices prices = {.currency = ""};
    char *before, *after;

    (void)state;
    before = text_of("", &prices);
    after = text_of("visit.1.pass.2 time = 12:00\nvisit.1.pass.2 relief = .002 in\n"
                    "visit.1.work.1 kind = rod\nvisit.1.work.1 time = 11:00\n",
                    &prices);
    assert_string_equal(before, after);
    free(before);
    free(after);
}

static void check_not_in(const char *text, const char *words)
{
    if (strstr(text, words))
        fail_msg("'%s' is in:\n%s", words, text);
}

/* The owner leaves with the ticket's number and the day; without a ticket there is no part to keep.
 */
static void it_has_a_part_to_keep(void **state)
{
    const struct move_prices prices = {.currency = ""};
    char *text = text_of("visit.1 ticket = 1043\nvisit.1 promised = 2026-03-09\n"
                         "instrument name = Parlour\n",
                         &prices);

    (void)state;
    check_in(text, "ticket        1043");
    check_in(text, "promised for  9 March 2026");
    const char *part = strstr(text, "Ticket 1043");
    assert_non_null(part);
    check_in(part, "left with us  2 March 2026");
    check_in(part, "promised for  9 March 2026");
    free(text);
    text = text_of("visit.1 promised = 2026-03-09\n", &prices);
    check_in(text, "promised for");
    check_not_in(text, "icket");
    free(text);
}

/* In words for an owner: why, and what is done; and what was promised, not when it went. */
static void what_is_due_says_why(void **state)
{
    const struct move_prices prices = {.currency = ""};
    char *text = text_of("bridge kind = blank\nvisit.1 promised = 2026-03-09\n"
                         "visit.1 handed_over = 2026-03-11\n",
                         &prices);

    (void)state;
    check_in(text, "the neck bows too far: tighten until");
    check_in(text, "hard to press at the first frets: file deeper");
    check_in(text, "the strings stand high: lower by");
    check_in(text, "promised for  9 March 2026");
    check_not_in(text, "handed over");
    check_not_in(text, ".000 to");
    free(text);
}

/* A state is what an owner sees who compares the numbers, and says where it will change. */
static void a_state_that_will_change_says_now(void **state)
{
    const struct move_prices prices = {.currency = ""};
    char *text = text_of("targets nut_gap_bass = .021 in\ntargets nut_gap_treble = .015 in\n"
                         "visit.1.pass.1 relief = .006 in\n",
                         &prices);

    (void)state;
    /* 4.5 mm of saddle are over 3 mm until the action comes down. */
    check_in(text, "good now");
    check_in(text, "Now: it changes with what is still to be done");
    free(text);
    text = text_of("bridge exposure_min = 1.6 mm\nvisit.1.pass.1 exposure_bass = 8 mm\n"
                   "visit.1.pass.1 exposure_treble = 8 mm\n",
                   &prices);
    check_not_in(text, "good now");
    check_not_in(text, "Now: it");
    free(text);
}

static void settings_hold_prices_by_move(void **state)
{
    const char *path = tree_path(*state, "shop.ini");
    struct move_prices prices;

    tree_write_text(
        path, "[prices]\ncurrency = kr\nrod = 25\nslots = 40.50\nsaddle = much\nreset = -1\n");
    assert_int_equal(shop_prices_read(path, &prices), STATUS_OK);
    assert_string_equal(prices.currency, "kr");
    assert_near(prices.move[MOVE_ROD].value, 25, 1e-12);
    assert_near(prices.move[MOVE_SLOTS].value, 40.5, 1e-12);
    assert_false(prices.move[MOVE_SADDLE].given);
    assert_false(prices.move[MOVE_RESET].given);
    assert_false(prices.move[MOVE_PITCH].given);
}

static void what_is_no_price_is_said(void **state)
{
    const char *path = tree_path(*state, "shop.ini");
    struct problems problems;
    struct shop_units units;

    tree_write_text(path,
                    "[prices]\ncurrency = kr\nrod = 25\nsaddle = 1e9\nreset = \"\\x1b[2J\"\n");
    problems_init(&problems);
    assert_int_equal(shop_read(path, &problems, &units), STATUS_OK);
    assert_int_equal(problems.count, 2);
    problems_done(&problems);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(prices_are_added_up),
        cmocka_unit_test(what_has_no_price_is_a_line_to_fill_in),
        cmocka_unit_test(it_stays_as_it_was_given),
        cmocka_unit_test(it_has_a_part_to_keep),
        cmocka_unit_test(what_is_due_says_why),
        cmocka_unit_test(a_state_that_will_change_says_now),
        cmocka_unit_test_setup_teardown(settings_hold_prices_by_move, tree_setup, tree_teardown),
        cmocka_unit_test_setup_teardown(what_is_no_price_is_said, tree_setup, tree_teardown),
    };

    return cmocka_run_group_tests_name("sheet_estimate", tests, NULL, NULL) ? 1 : 0;
}
