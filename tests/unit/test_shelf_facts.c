/* SPDX-License-Identifier: MIT */
#include "model/survey/shelf_facts.h"

#include <stdio.h>
#include <string.h>

#include "build_record.h"
#include "model/common/day.h"
#include "model/survey/as_left.h"
#include "near.h"

static void make(const char *more, struct shelf_facts *ret_facts)
{
    struct record record;
    struct derived now;

    build_record(&record, build_record_full);
    build_record_add(&record, more);
    struct past past = past_of(&record);
    derive_measured(place_current(&record), &past, &now);
    shelf_facts_make(&record, &now, &past, ret_facts);
    record_done(&record);
}

static double number(const struct shelf_facts *facts, enum fact_number id)
{
    return near_given(facts->number[id], "a fact", __FILE__, (int)id);
}

static int day(int year, int month, int of_month)
{
    return day_number(&(struct day){year, month, of_month});
}

static void expect_also(const struct record *record, const char *wanted)
{
    struct shelf_facts facts;

    shelf_facts_glance(record, &facts);
    assert_string_equal(shelf_facts_text(&facts, FACT_ALSO), wanted);
}

/* Years once each, the last first, as many as there is room for; the tuning by the table's name. */
static void it_is_found_by_its_tuning_and_years_too(void **state)
{
    struct record record;
    struct shelf_facts facts;
    char line[60];

    (void)state;
    build_record(&record, "visit.1 date = 2025-01-02\nvisit.2 date = 2026-03-04\n"
                          "visit.3 reason = buzz\n");
    expect_also(&record, " 2026 2025");
    record_done(&record);
    build_record(&record, "board strings = 4\nstring.4 note = E1\nstring.3 note = A1\n"
                          "string.2 note = D2\nstring.1 note = G2\n"
                          "visit.1 date = 2025-01-02\nvisit.2 date = 2025-03-04\n");
    expect_also(&record, "bass-four 2025");
    for (int visit = 3; visit < 80; visit++) {
        snprintf(line, sizeof line, "visit.%d date = %d-05-06\n", visit, 1950 + visit);
        build_record_add(&record, line);
    }
    shelf_facts_glance(&record, &facts);
    const char *also = shelf_facts_text(&facts, FACT_ALSO);
    assert_true(strncmp(also, "bass-four 2029 2028", 19) == 0);
    assert_in_range(strlen(also), 80, 95);
    record_done(&record);
}

/* Where somebody keeps a ticket, a promise or handing over, handing over alone ends it; where
 * nobody does, a month. */
static void in_the_house_is_what_was_not_handed_over(void **state)
{
    const int today = day(2026, 3, 10), later = day(2026, 12, 1);
    struct shelf_facts facts;

    (void)state;
    make("", &facts);
    assert_true(shelf_facts_in_house(&facts, today));
    assert_false(shelf_facts_in_house(&facts, later));
    make("visit.1 ticket = 4711\nvisit.1 promised = 2026-03-12\n", &facts);
    assert_true(shelf_facts_in_house(&facts, later));
    assert_string_equal(shelf_facts_text(&facts, FACT_TICKET), "4711");
    assert_near(number(&facts, FACT_PROMISED_DAY), day(2026, 3, 12), 0);
    assert_string_equal(shelf_facts_text(&facts, FACT_TO_DO), "rod, slots, saddle");
    make("visit.1 handed_over = 2026-03-04\n", &facts);
    assert_false(shelf_facts_in_house(&facts, today));
    make("visit.1 handed_over = 2026-03-04\nvisit.2 date = 2026-11-30\n", &facts);
    assert_true(shelf_facts_in_house(&facts, later));
    assert_false(shelf_facts_in_house(shelf_facts_blank(), today));
}

/* A visit begun in March is in the house again in December once something is read or marked in it;
 * times without a day of their own are the visit's. */
static void work_in_an_old_visit_brings_it_into_the_house(void **state)
{
    const int later = day(2026, 12, 1);
    struct shelf_facts facts;

    (void)state;
    make("visit.1.pass.2 relief = .007 in\nvisit.1.pass.2 time = 15:40\n", &facts);
    assert_false(shelf_facts_in_house(&facts, later));
    assert_near(number(&facts, FACT_WORKED_DAY), day(2026, 3, 2), 0);
    make("visit.1.pass.2 relief = .007 in\nvisit.1.pass.2 time = 2026-11-27T15:40\n", &facts);
    assert_true(shelf_facts_in_house(&facts, later));
    assert_near(number(&facts, FACT_WORKED_DAY), day(2026, 11, 27), 0);
    assert_near(number(&facts, FACT_LAST_DAY), day(2026, 3, 2), 0);
    make("visit.1.work.1 kind = rod\nvisit.1.work.1 time = 2026-11-27T15:41\n", &facts);
    assert_true(shelf_facts_in_house(&facts, later));
    make("visit.1.pass.2 time = 2026-11-27T15:40\nvisit.1 handed_over = 2026-11-27\n", &facts);
    assert_false(shelf_facts_in_house(&facts, later));
    make("visit.2 date = 2026-05-01\nvisit.1.pass.2 time = 2026-11-27T15:40\n", &facts);
    assert_false(shelf_facts_in_house(&facts, later));
}

static const char second_visit[] =
    "visit.1 handed_over = 2026-03-04\n"
    "visit.1.pass.2 relief = .007 in\nvisit.1.pass.2 action.1 = 4/64 in\n"
    "visit.2 date = 2026-11-30\nvisit.2.pass.1 relief = .020 in\n"
    "visit.2.pass.1 action.6 = 9/64 in\nvisit.2.pass.1 exposure_bass = 3.1 mm\n"
    "visit.2.pass.1 exposure_treble = 3.4 mm\n";

/* What is in the house now is as found, not as left. What was not read again in the last pass was
 * left as it was read before. */
static void as_left_is_the_last_visit_that_is_over(void **state)
{
    struct shelf_facts facts;

    (void)state;
    make(second_visit, &facts);
    assert_near(number(&facts, FACT_LEFT_DAY), day(2026, 3, 2), 0);
    assert_near(number(&facts, FACT_LEFT_RELIEF), .007 * 25.4, 1e-6);
    assert_near(number(&facts, FACT_LEFT_ACTION_TREBLE), 4 / 64.0 * 25.4, 1e-6);
    assert_near(number(&facts, FACT_LEFT_ACTION_BASS), 8.25 / 64 * 25.4, 1e-6);
    assert_near(number(&facts, FACT_WANTED_ACTION_BASS), 6 / 64.0 * 25.4, 1e-6);
    assert_near(number(&facts, FACT_LAST_DAY), day(2026, 11, 30), 0);
}

/* Strings, targets and readings as they were by then; a visit on the very day counts, and one whose
 * readings nobody took still has its strings. */
static void an_earlier_visit_is_told_as_it_was_left(void **state)
{
    struct shelf_facts first = *shelf_facts_blank(), second = first, described = first;
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    build_record_add(&record, "string.1 gauge = .012 in\nstring.2 gauge = .016 in\n");
    build_record_add(&record, second_visit);
    build_record_add(&record, "visit.2.string.1 gauge = .011 in\nvisit.3 date = 2027-02-01\n"
                              "visit.3.string.1 gauge = .010 in\n");
    assert_int_equal(as_left_by(&record, day(2026, 3, 1)), 0);
    assert_int_equal(as_left_by(&record, day(2026, 3, 2)), 1);
    assert_int_equal(as_left_by(&record, day(2026, 11, 29)), 1);
    assert_int_equal(as_left_by(&record, day(2030, 1, 1)), 3);
    assert_int_equal(as_left_step(&record, 2, -1), 1);
    assert_int_equal(as_left_step(&record, 2, 1), 3);
    assert_int_equal(as_left_step(&record, 1, -1), 0);
    assert_int_equal(as_left_step(&record, 3, 1), 0);
    assert_true(as_left_is_over(&record, 2));
    assert_false(as_left_is_over(&record, 3));
    as_left_make(&record, 1, &first);
    as_left_make(&record, 2, &second);
    as_left_make(&record, 0, &described);
    assert_string_equal(shelf_facts_text(&first, FACT_GAUGES), ".016 .012 in");
    assert_string_equal(shelf_facts_text(&second, FACT_GAUGES), ".016 .011 in");
    assert_near(number(&first, FACT_LEFT_RELIEF), .007 * 25.4, 1e-6);
    assert_near(number(&second, FACT_LEFT_RELIEF), .020 * 25.4, 1e-6);
    assert_near(number(&second, FACT_LEFT_DAY), day(2026, 11, 30), 0);
    assert_false(second.number[FACT_LEFT_ACTION_TREBLE].given);
    assert_false(described.number[FACT_LEFT_DAY].given);
    as_left_make(&record, 3, &second);
    assert_string_equal(shelf_facts_text(&second, FACT_GAUGES), ".016 .010 in");
    assert_false(second.number[FACT_LEFT_RELIEF].given);
    record_done(&record);
}

/* The visit, its passes and its work, and handing over; each day once, the last first. */
static void days_of_work_are_kept(void **state)
{
    const int first = day(2026, 3, 2), over = day(2026, 3, 4), second = day(2026, 11, 30);
    struct shelf_facts facts;

    (void)state;
    make(second_visit, &facts);
    assert_near(assert_given(shelf_facts_day_before(&facts, 1000000)), second, 0);
    assert_near(assert_given(shelf_facts_day_before(&facts, second)), over, 0);
    assert_near(assert_given(shelf_facts_day_before(&facts, over)), first, 0);
    assert_false(shelf_facts_day_before(&facts, first).given);
    assert_near(assert_given(shelf_facts_day_from(&facts, 0)), first, 0);
    assert_near(assert_given(shelf_facts_day_from(&facts, first + 1)), over, 0);
    assert_false(shelf_facts_day_from(&facts, second + 1).given);
    assert_true(shelf_facts_may_have_done(&facts, first, first + 1));
    assert_false(shelf_facts_may_have_done(&facts, first + 1, over));
    assert_true(shelf_facts_may_have_done(&facts, first + 1, second));
    assert_false(shelf_facts_may_have_done(&facts, 0, first));
    assert_false(shelf_facts_may_have_done(shelf_facts_blank(), 0, 1000000));
}

/* Of more days than there is room for, the oldest may be any. */
static void the_oldest_days_may_be_any(void **state)
{
    enum { COUNT = 100 };
    struct shelf_facts facts = *shelf_facts_blank();
    int days[COUNT];

    (void)state;
    for (int i = 0; i < COUNT; i++)
        days[i] = 740000 - 10 * i;
    shelf_facts_put_days(&facts, days, COUNT);
    assert_true(shelf_facts_may_have_done(&facts, 740000, 740001));
    assert_false(shelf_facts_may_have_done(&facts, 739991, 740000));
    assert_true(shelf_facts_may_have_done(&facts, 700000, 700001));
    assert_near(assert_given(shelf_facts_day_before(&facts, 740000)), 739990, 0);
    shelf_facts_put_days(&facts, days, 3);
    assert_false(shelf_facts_may_have_done(&facts, 700000, 700001));
}

/* The saddle of now counts, and the lower end of it. */
static void a_saddle_is_low_by_its_lower_end(void **state)
{
    struct shelf_facts facts;

    (void)state;
    make(second_visit, &facts);
    assert_near(number(&facts, FACT_SADDLE_OVER_LEAST), 0.1, 1e-6);
    assert_near(number(&facts, FACT_SADDLE_LOW), 1, 0);
    make("visit.1.pass.1 exposure_bass = 9 mm\nvisit.1.pass.1 exposure_treble = 8 mm\n", &facts);
    assert_near(number(&facts, FACT_SADDLE_OVER_LEAST), 5, 1e-6);
    assert_near(number(&facts, FACT_SADDLE_LOW), 0, 0);
}

static void strings_are_told_from_bass_to_treble(void **state)
{
    struct shelf_facts facts;

    (void)state;
    make("string.1 gauge = .012 in\nstring.2 gauge = .016 in\nstring.6 gauge = 1.35 mm\n"
         "string.6 note = D2\nstring.1 note = E4\n",
         &facts);
    assert_string_equal(shelf_facts_text(&facts, FACT_GAUGES), "1.35 mm .016 in .012 in");
    make("string.1 gauge = .012 in\nstring.2 gauge = .016 in\nstring.6 gauge = .053 in\n", &facts);
    assert_string_equal(shelf_facts_text(&facts, FACT_GAUGES), ".053 .016 .012 in");
}

/* Two passes at the same rod: the first turn teaches, the second is expected by it; 0.25 turn took
 * out .004 in, so another one is expected at .005 in, and .005 in was read. */
static void a_turn_is_checked_by_the_turns_before_it(void **state)
{
    struct shelf_facts facts;

    (void)state;
    make("visit.1.pass.1 time = 09:00\nvisit.1.work.1 kind = rod\nvisit.1.work.1 time = 09:10\n"
         "visit.1.pass.2 time = 09:20\nvisit.1.pass.2 rod_turn = 1/4\n"
         "visit.1.pass.2 relief = .009 in\n",
         &facts);
    assert_string_equal(shelf_facts_text(&facts, FACT_PROOF_ROD), "");
    make("visit.1.pass.1 time = 09:00\nvisit.1.work.1 kind = rod\nvisit.1.work.1 time = 09:10\n"
         "visit.1.pass.2 time = 09:20\nvisit.1.pass.2 rod_turn = 1/4\n"
         "visit.1.pass.2 relief = .009 in\nvisit.1.work.2 kind = rod\n"
         "visit.1.work.2 time = 09:30\nvisit.1.pass.3 time = 09:40\n"
         "visit.1.pass.3 rod_turn = 1/4\nvisit.1.pass.3 relief = .005 in\n",
         &facts);
    const char *proof = shelf_facts_text(&facts, FACT_PROOF_ROD);
    assert_int_equal(strlen(proof), 1);
    assert_int_equal(shelf_facts_level(proof[0]), 0);
    assert_int_equal(shelf_facts_level('!'), -1);
}

/* How far it was meant to go, nobody knows, so that nothing is expected of a height after it. */
static void after_a_rod_that_was_not_due_no_height_is_checked(void **state)
{
    const char passes[] = "visit.1.pass.1 time = 09:00\nvisit.1.work.1 kind = rod\n"
                          "visit.1.work.1 time = 09:10\nvisit.1.pass.2 time = 09:20\n"
                          "visit.1.pass.2 relief = .009 in\nvisit.1.pass.2 action.6 = 8/64 in\n";
    char lines[sizeof passes + 40];
    struct shelf_facts facts;

    (void)state;
    make(passes, &facts);
    assert_int_equal(strlen(shelf_facts_text(&facts, FACT_PROOF_ROD)), 1);
    snprintf(lines, sizeof lines, "targets relief = .0135 in\n%s", passes);
    make(lines, &facts);
    assert_string_equal(shelf_facts_text(&facts, FACT_PROOF_ROD), "");
}

/* One that never was measured has no facts that could be wrong. */
static void an_empty_record_has_blank_facts(void **state)
{
    struct shelf_facts facts;
    struct record record;
    struct derived now;

    (void)state;
    record_init(&record);
    struct past past = past_of(&record);
    derive_measured(place_current(&record), &past, &now);
    shelf_facts_make(&record, &now, &past, &facts);
    for (int i = 0; i < FACT_NUMBERS_; i++)
        assert_false(facts.number[i].given);
    for (int i = 0; i < FACT_TEXTS_; i++)
        assert_string_equal(shelf_facts_text(&facts, (enum fact_text)i), "");
    record_done(&record);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(it_is_found_by_its_tuning_and_years_too),
        cmocka_unit_test(in_the_house_is_what_was_not_handed_over),
        cmocka_unit_test(work_in_an_old_visit_brings_it_into_the_house),
        cmocka_unit_test(as_left_is_the_last_visit_that_is_over),
        cmocka_unit_test(an_earlier_visit_is_told_as_it_was_left),
        cmocka_unit_test(days_of_work_are_kept),
        cmocka_unit_test(the_oldest_days_may_be_any),
        cmocka_unit_test(a_saddle_is_low_by_its_lower_end),
        cmocka_unit_test(strings_are_told_from_bass_to_treble),
        cmocka_unit_test(a_turn_is_checked_by_the_turns_before_it),
        cmocka_unit_test(after_a_rod_that_was_not_due_no_height_is_checked),
        cmocka_unit_test(an_empty_record_has_blank_facts),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
