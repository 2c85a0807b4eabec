/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <string.h>

#include "model/common/day.h"

static const struct day today = {2026, 11, 26};

static void check_read(const char *typed, enum day_way way, const char *kept)
{
    char memory[16];
    struct strbuf text = STRBUF(memory);
    struct day_fault fault;
    struct day day;

    if (day_read(typed, &today, way, &day, &fault) != STATUS_OK)
        fail_msg("\"%s\" was refused: %s", typed, fault.words);
    day_add(&day, &text);
    if (strcmp(memory, kept) != 0)
        fail_msg("\"%s\" was taken as %s, not %s", typed, memory, kept);
}

static void check_taken(const char *typed, const char *kept)
{
    check_read(typed, DAY_LAST, kept);
}

static void check_refused(const char *typed, enum status status, const char *words)
{
    struct day_fault fault;
    struct day day = {1, 1, 1};
    const enum status got = day_read(typed, &today, DAY_LAST, &day, &fault);

    if (got != status)
        fail_msg("\"%s\" gave status %d", typed, (int)got);
    if (!strstr(fault.words, words))
        fail_msg("\"%s\" was refused with \"%s\"", typed, fault.words);
    assert_int_equal(day.year, 1);
    /* It has to find room in a line of 80 columns. */
    assert_true(strlen(fault.words) <= 78);
}

static void words_and_days_back(void **state)
{
    (void)state;
    check_taken("today", "2026-11-26");
    check_taken("TODAY", "2026-11-26");
    check_taken("t", "2026-11-26");
    check_taken("yesterday", "2026-11-25");
    check_taken("yest", "2026-11-25");
    check_taken("0", "2026-11-26");
    check_taken("-1", "2026-11-25");
    check_taken("-26", "2026-10-31");
    check_taken("-365", "2025-11-26");
    check_refused("tomorrow", STATUS_SYNTAX, "a day is wanted");
    check_refused("-", STATUS_SYNTAX, "a day is wanted");
    check_refused("-99999", STATUS_SYNTAX, "a day is wanted");
}

static void days_in_every_order_that_is_clear(void **state)
{
    static const char *const clear[] = {
        "2026-06-24", "2026-6-24",   "2026.6.24", "2026/6/24",   "20260624",      "24.6.2026",
        "24.06.2026", "24,6,2026",   "24.6.26",   "24.6.",       "24.6",          "24. 6. 2026",
        "6/24/2026",  "24/6/2026",   "6/24/26",   "24-6-2026",   "24 June 2026",  "24 jun 26",
        "june 24",    "Jun 24 2026", "24.jun",    "2026 jun 24", "June 24, 2026",
    };

    (void)state;
    for (size_t i = 0; i < sizeof clear / sizeof clear[0]; i++)
        check_taken(clear[i], "2026-06-24");
    check_taken("5/5/2026", "2026-05-05");
    check_taken("29.2.2024", "2024-02-29");
    check_taken("26.11.2026", "2026-11-26");
}

/* A date without its year is of the year that was: visits are not in the future. */
static void without_a_year_it_is_the_last_one(void **state)
{
    (void)state;
    check_taken("26.11.", "2026-11-26");
    check_taken("27.11.", "2025-11-27");
    check_taken("24 dec", "2025-12-24");

    const struct day new_year = {2028, 1, 10};
    struct day_fault fault;
    struct day day;

    /* 2027 has no such day. */
    assert_int_equal(day_read("29.2.", &new_year, DAY_LAST, &day, &fault), STATUS_RANGE);
}

/* What is promised lies ahead. 2026-11-26 is a Thursday. */
static void days_to_come_count_on(void **state)
{
    (void)state;
    check_read("tomorrow", DAY_NEXT, "2026-11-27");
    check_read("Tom", DAY_NEXT, "2026-11-27");
    check_read("today", DAY_NEXT, "2026-11-26");
    check_read("to", DAY_NEXT, "2026-11-26");
    check_read("0", DAY_NEXT, "2026-11-26");
    check_read("1", DAY_NEXT, "2026-11-27");
    check_read("+7", DAY_NEXT, "2026-12-03");
    check_read("14", DAY_NEXT, "2026-12-10");
    check_read("-1", DAY_NEXT, "2026-11-25");
    check_read("26.11.", DAY_NEXT, "2026-11-26");
    check_read("27.11.", DAY_NEXT, "2026-11-27");
    check_read("24 june", DAY_NEXT, "2027-06-24");
    check_read("24.6.2026", DAY_NEXT, "2026-06-24");
    check_read("20261204", DAY_NEXT, "2026-12-04");
    check_refused("1", STATUS_SYNTAX, "a day is wanted");
    check_refused("+1", STATUS_SYNTAX, "a day is wanted");
}

static void what_could_be_two_days_is_refused(void **state)
{
    (void)state;
    check_refused("6/7/2026", STATUS_SYNTAX, "can be two days; type 6.7.");
    check_refused("6-7", STATUS_SYNTAX, "can be two days");
    check_refused("26-6-24", STATUS_SYNTAX, "four digits");
    check_refused("24.6.226", STATUS_SYNTAX, "four digits");
}

static void what_is_no_day_is_refused(void **state)
{
    static const char *const bad[] = {
        "",      "June",       "24", "24 june june", "1.2.3.4",     "24.6/2026",  "soon",
        "2026-", "24 ju 2026", "..", "24..6",        "99999999999", "2026-6-24x", "\xC3\xA9"};

    (void)state;
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        check_refused(bad[i], STATUS_SYNTAX, " ");
    check_refused("31.6.2026", STATUS_RANGE, "no such day");
    check_refused("29.2.2026", STATUS_RANGE, "no such day");
    check_refused("2026-13-01", STATUS_RANGE, "no such day");
    check_refused("24/30/2026", STATUS_RANGE, "no such day");
    check_refused("0.6.2026", STATUS_RANGE, "no such day");
    check_refused("20261340", STATUS_RANGE, "no such day");
}

/* 29 February 2024 was a Thursday, 1 January 2000 a Saturday, 2 March 2026 a Monday (calendar). */
static void weekdays_are_the_calendar_s(void **state)
{
    static const struct {
        struct day day;
        const char *words;
    } known[] = {
        {{2024, 2, 29}, "Thursday, 29 February 2024"},
        {{2000, 1, 1}, "Saturday, 1 January 2000"},
        {{2026, 3, 2}, "Monday, 2 March 2026"},
        {{1900, 1, 1}, "Monday, 1 January 1900"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++) {
        char memory[40];
        struct strbuf words = STRBUF(memory);

        day_add_words(&known[i].day, &words);
        assert_string_equal(memory, known[i].words);
    }
}

/* Every day of eight centuries follows the one before, and its number leads back to it. */
static void days_are_counted_there_and_back(void **state)
{
    struct day day = {1600, 1, 1};
    int number = day_number(&day);

    (void)state;
    for (int i = 0; i < 292194; i++, number++) {
        char memory[16];
        struct strbuf text = STRBUF(memory);
        struct day again;

        day = day_of_number(number);
        day_add(&day, &text);
        assert_true(day_parse(memory, &again));
        assert_int_equal(day_number(&again), number);
    }
    assert_int_equal(day.year, 2399);
    assert_int_equal(day.month, 12);
    assert_int_equal(day.day, 31);
}

static void only_whole_days_of_a_profile_are_read(void **state)
{
    static const char *const bad[] = {"",           "2026-3-02", "2026-03-2",  "2026-02-29",
                                      "2026-00-01", "26-03-02",  "2026-03-32", "2026/03/02"};
    struct day day = {7, 7, 7};

    (void)state;
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        assert_false(day_parse(bad[i], &day));
    assert_int_equal(day.year, 7);
    assert_true(day_parse("2026-03-02T10:42", &day));
    assert_int_equal(day.month, 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(words_and_days_back),
        cmocka_unit_test(days_in_every_order_that_is_clear),
        cmocka_unit_test(without_a_year_it_is_the_last_one),
        cmocka_unit_test(days_to_come_count_on),
        cmocka_unit_test(what_could_be_two_days_is_refused),
        cmocka_unit_test(what_is_no_day_is_refused),
        cmocka_unit_test(weekdays_are_the_calendar_s),
        cmocka_unit_test(days_are_counted_there_and_back),
        cmocka_unit_test(only_whole_days_of_a_profile_are_read),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
