/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "build_record.h"
#include "sheet/sheet_estimate.h"
#include "sheet/sheet_text.h"
#include "store/shop.h"
#include "store/shop_prices.h"
#include "tree.h"
#include "words/move_words.h"

/* The estimate, and the prices that it takes from the shop's settings. */

static char *text_at(int visit, const char *more, const struct prices *prices)
{
    const struct sheet_ask ask = {.visit = visit, .units = shop_units_inch()};
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

static char *text_of(const char *more, const struct prices *prices)
{
    return text_at(1, more, prices);
}

static void check_in(const char *text, const char *words)
{
    if (!strstr(text, words))
        fail_msg("'%s' is not in:\n%s", words, text);
}

/* Relief, gaps and action are high; all three moves are due, so intonation may follow. */
static void prices_are_added_up(void **state)
{
    struct prices prices = {.currency = "EUR"};
    char *text;

    (void)state;
    prices.row[MOVE_ROD] = maybe_given(25);
    prices.row[MOVE_SLOTS] = maybe_given(40.5);
    prices.row[MOVE_SADDLE] = maybe_given(30);
    text = text_of("", &prices);
    check_in(text, "Estimate");
    check_in(text, "tighten until the relief is");
    check_in(text, "25.00 EUR");
    check_in(text, "40.50 EUR");
    check_in(text, "95.50 EUR"); /* 25 + 40.50 + 30 */
    free(text);
}

/* No reading asks for them, and most set-ups end with them: they are in the larger sum. */
static void new_strings_may_follow(void **state)
{
    struct prices prices = {.currency = "EUR"};
    static const char on_target[] = "targets relief = .013 in\ntargets action_bass = 8.25/64 in\n"
                                    "targets action_treble = 6/64 in\n"
                                    "targets nut_gap_bass = .030 in\n"
                                    "targets nut_gap_treble = .020 in\n";
    char *text;

    (void)state;
    for (int row = 0; row < PRICE_COUNT_; row++)
        prices.row[row] = maybe_given(row == PRICE_STRINGS ? 18 : 30);
    text = text_of("", &prices);
    check_in(strstr(text, "Together"), "90.00 EUR\n"); /* rod, slots, saddle */
    check_in(text, "New strings  a set as on it, unless that is fresh");
    check_in(strstr(text, "At most"), "108.00 EUR");
    free(text);
    text = text_of("string.1 gauge = .012 in\nstring.2 gauge = .016 in\nstring.3 gauge = .024 in\n"
                   "string.4 gauge = .032 in\nstring.5 gauge = .042 in\nstring.6 gauge = .053 in\n",
                   &prices);
    check_in(text, "a set as on it, .053 to .012 in");
    free(text);
    /* Who wants nothing but strings gets a price for them, and no sum. */
    text = text_of(on_target, &prices);
    check_in(text, "nothing asks for work.");
    check_in(text, "18.00 EUR");
    assert_null(strstr(text, "Together"));
    assert_null(strstr(text, "At most"));
    free(text);
}

/* What was heard after the work is no state as found. */
static void what_was_heard_later_is_not_as_found(void **state)
{
    const struct prices prices = {.currency = "EUR"};
    char *text = text_of("visit.1.pass.1 buzz.3 = 4\n"
                         "visit.1.pass.2 relief = .006 in\nvisit.1.pass.2 clean.3 = 4\n",
                         &prices);

    (void)state;
    check_in(text, "string 3 buzzed at fret 4");
    assert_null(strstr(text, "afterwards"));
    free(text);
}

static void what_has_no_price_is_a_line_to_fill_in(void **state)
{
    struct prices prices = {.currency = ""};
    char *text;

    (void)state;
    prices.row[MOVE_ROD] = maybe_given(25);
    text = text_of("", &prices);
    check_in(text, "25.00\n");
    check_in(text, "............");
    const char *together = strstr(text, "Together");
    assert_non_null(together);
    assert_memory_equal(strchr(together, '.'), "............", 12);
    free(text);
}

/* Two percent and more drier, and the strings have come down with it: nobody is billed for that. */
static void the_season_is_not_billed(void **state)
{
    static const char lines[] =
        "neck rod = none\nvisit.1 humidity = 56\nvisit.1 temperature = 21 C\n"
        "visit.2 date = 2026-04-14\nvisit.2 humidity = %s\nvisit.2 temperature = 21 C\n"
        "visit.2.pass.1 relief = .009 in\nvisit.2.pass.1 nut_gap.1 = .012 in\n"
        "visit.2.pass.1 nut_gap.6 = .018 in\nvisit.2.pass.1 action.1 = 2/64 in\n"
        "visit.2.pass.1 action.6 = 4/64 in\n";
    static const char *const air[] = {"36", "57"};
    struct prices prices = {.currency = "EUR"};

    (void)state;
    prices.row[MOVE_SADDLE] = maybe_given(30);
    for (int i = 0; i < 2; i++) {
        char more[sizeof lines + 8];

        snprintf(more, sizeof more, lines, air[i]);
        char *text = text_at(2, more, &prices);
        if (i == 0)
            check_in(text, "It settles in normal air first");
        assert_int_equal(strstr(text, "30.00 EUR") != NULL, i);
        free(text);
    }
}

/* It is what the owner agreed to: later passes and work do not change it. */
static void it_stays_as_it_was_given(void **state)
{
    const struct prices prices = {.currency = ""};
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
    const struct prices prices = {.currency = ""};
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
    const struct prices prices = {.currency = ""};
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
    const struct prices prices = {.currency = ""};
    char *text = text_of("targets nut_gap_bass = .021 in\ntargets nut_gap_treble = .015 in\n"
                         "visit.1.pass.1 relief = .006 in\n",
                         &prices);

    (void)state;
    /* 4.5 mm of saddle are over 3 mm until the action comes down. */
    check_in(text, "good now");
    check_in(text, "Good now, high now: what is still to be done changes it");
    free(text);
    text = text_of("bridge exposure_min = 1.6 mm\nvisit.1.pass.1 exposure_bass = 8 mm\n"
                   "visit.1.pass.1 exposure_treble = 8 mm\n",
                   &prices);
    check_not_in(text, "good now");
    check_not_in(text, "what is still to be done changes it");
    free(text);
}

/* The smallest and the largest cut of the slots as Work says them, without a sign. */
static void find_on_work(const struct record *record, const struct shop_units *units,
                         struct strbuf *ret_range)
{
    struct move_words words;
    struct derived derived;
    int least = 0, most = 0;

    derive_pass(place_of(record, 1, 1), &derived);
    move_words_make(&derived, MOVE_SLOTS, units, &words);
    for (int s = 1; s <= 6; s++) {
        const double amount = strtod(words.string[s], NULL);

        if (amount < 0 && (!least || amount > strtod(words.string[least], NULL)))
            least = s;
        if (amount < 0 && (!most || amount < strtod(words.string[most], NULL)))
            most = s;
    }
    assert_true(least > 0 && most != least);
    strbuf_addf(ret_range, "%s to %s", words.string[least] + 1, words.string[most] + 1);
}

static bool has_cell(const struct sheet_table *table, const char *words)
{
    for (int i = 0; table && i < table->rows * table->columns; i++)
        if (table->cells[i].text && strstr(table->cells[i].text, words))
            return true;
    return false;
}

/* What is said to the owner is what is then filed. */
static void amounts_are_those_of_work(void **state)
{
    const struct prices prices = {.currency = ""};

    (void)state;
    for (int metric = 0; metric <= 1; metric++) {
        const struct sheet_ask ask = {.visit = 1,
                                      .units = metric ? shop_units_metric() : shop_units_inch()};
        char memory[60];
        struct strbuf words = STRBUF(memory);
        struct record record;
        struct sheet sheet;
        bool found = false;

        build_record(&record, build_record_full);
        build_record_add(&record,
                         "targets nut_gap_bass = .010 in\nvisit.1.pass.1 relief = .006 in\n"
                         "targets nut_gap_treble = .008 in\n");
        strbuf_add(&words, "file deeper by ");
        find_on_work(&record, &ask.units, &words);
        strbuf_add(&words, metric ? " mm" : " in");
        assert_int_equal(sheet_estimate_make(&record, &ask, &prices, &sheet), STATUS_OK);
        for (size_t i = 0; i < sheet.count; i++)
            found = found || has_cell(sheet.blocks[i].table, memory);
        if (!found)
            fail_msg("'%s' is not said", memory);
        sheet_done(&sheet);
        record_done(&record);
    }
}

/* Where the numbers beside it are good, what is due is small. */
static void what_is_good_is_off_by_a_touch(void **state)
{
    const struct prices prices = {.currency = ""};
    char heights[900] = "targets action_tolerance = .05 mm\nvisit.1.pass.1 relief = .006 in\n";

    (void)state;
    for (int s = 1; s <= 6; s++) {
        const size_t length = strlen(heights);

        snprintf(heights + length, sizeof heights - length,
                 "visit.1.pass.1 nut_gap.%d = %.4f in\nvisit.1.pass.1 action.%d = %.2f/64 in\n", s,
                 .0108 + .0012 * s, s, 3.6 + .4 * s + .48);
    }
    char *text = text_of(heights, &prices);
    check_in(text, "a touch high: lower by .015 in");
    check_not_in(text, "stand high");
    check_not_in(text, " high  ");
    check_not_in(text, "good now");
    free(text);
}

/* Work that was marked done since then does not take "now" off the states. */
static void marked_work_leaves_the_states(void **state)
{
    static const char found[] = "visit.1.pass.1 time = 09:00\nvisit.1.pass.1 relief = .006 in\n"
                                "targets nut_gap_bass = .021 in\n"
                                "targets nut_gap_treble = .015 in\n";
    const struct prices prices = {.currency = ""};
    char marked[600];

    (void)state;
    snprintf(marked, sizeof marked,
             "%svisit.1.work.1 kind = slots\nvisit.1.work.1 time = 11:10\n"
             "visit.1.work.2 kind = saddle\nvisit.1.work.2 time = 11:20\n",
             found);
    char *before = text_of(found, &prices), *after = text_of(marked, &prices);
    check_in(before, "good now");
    assert_string_equal(before, after);
    free(before);
    free(after);
}

static void settings_hold_prices_by_move(void **state)
{
    const char *path = tree_path(*state, "shop.ini");
    struct prices prices;

    tree_write_text(
        path, "[prices]\ncurrency = kr\nrod = 25\nslots = 40.50\nsaddle = much\nreset = -1\n");
    assert_int_equal(shop_prices_read(path, &prices), STATUS_OK);
    assert_string_equal(prices.currency, "kr");
    assert_near(prices.row[MOVE_ROD].value, 25, 1e-12);
    assert_near(prices.row[MOVE_SLOTS].value, 40.5, 1e-12);
    assert_false(prices.row[MOVE_SADDLE].given);
    assert_false(prices.row[MOVE_RESET].given);
    assert_false(prices.row[MOVE_PITCH].given);
}

static char *file_of(const char *path)
{
    size_t length;

    return tree_read(path, &length);
}

/* What else is in the file stays, and so do the other prices. */
static void a_price_is_written_by_itself(void **state)
{
    const char *path = tree_path(*state, "shop.ini");
    struct prices prices = {.currency = "kr"};

    prices.row[MOVE_ROD] = maybe_given(25);
    prices.row[PRICE_STRINGS] = maybe_given(18.5);
    tree_write_text(path, "# mine\n[prices]\nslots = 40.50 ; ask\nrod = 20\n[shop]\nname = Q\n");
    for (int row = 0; row < PRICE_ROWS_; row++)
        if (row == MOVE_ROD || row == PRICE_STRINGS || row == PRICE_CURRENCY)
            assert_int_equal(shop_prices_write(path, &prices, row), STATUS_OK);
    char *file = file_of(path);
    check_in(file, "# mine\n[prices]\n");
    check_in(file, "\nslots = 40.50 ; ask\nrod = 25\n[shop]\nname = Q\n");
    check_in(file, "strings = 18.50\n");
    check_in(file, "currency = kr\n");
    free(file);
    prices.row[MOVE_ROD] = maybe_absent();
    assert_int_equal(shop_prices_write(path, &prices, MOVE_ROD), STATUS_OK);
    file = file_of(path);
    check_in(file, "\nslots = 40.50 ; ask\n[shop]\nname = Q\n");
    free(file);
    assert_int_equal(shop_prices_read(path, &prices), STATUS_OK);
    assert_false(prices.row[MOVE_ROD].given);
    assert_near(prices.row[PRICE_STRINGS].value, 18.5, 1e-12);
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
        cmocka_unit_test(new_strings_may_follow),
        cmocka_unit_test(what_was_heard_later_is_not_as_found),
        cmocka_unit_test(what_has_no_price_is_a_line_to_fill_in),
        cmocka_unit_test(the_season_is_not_billed),
        cmocka_unit_test(it_stays_as_it_was_given),
        cmocka_unit_test(it_has_a_part_to_keep),
        cmocka_unit_test(what_is_due_says_why),
        cmocka_unit_test(amounts_are_those_of_work),
        cmocka_unit_test(what_is_good_is_off_by_a_touch),
        cmocka_unit_test(marked_work_leaves_the_states),
        cmocka_unit_test(a_state_that_will_change_says_now),
        cmocka_unit_test_setup_teardown(settings_hold_prices_by_move, tree_setup, tree_teardown),
        cmocka_unit_test_setup_teardown(a_price_is_written_by_itself, tree_setup, tree_teardown),
        cmocka_unit_test_setup_teardown(what_is_no_price_is_said, tree_setup, tree_teardown),
    };

    return cmocka_run_group_tests_name("sheet_estimate", tests, NULL, NULL) ? 1 : 0;
}
