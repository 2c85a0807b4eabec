/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdio.h>

#include "build_record.h"
#include "model/survey/pulls_seen.h"
#include "model/survey/survey_pull.h"

/* A neck that was restrung in its second visit, with the relief read before and after. */

static const struct pull_answer prior = {.mm_per_n = 0.0007, .u_mm_per_n = 0.0003};

static const char restrung[] = "visit.1 date = 2026-01-19\n"
                               "visit.2 date = 2026-07-06\n"
                               "visit.2.pass.1 time = 10:00\n"
                               "visit.2.pass.1 relief = .010 in\n"
                               "visit.2.work.1 kind = restrung\n"
                               "visit.2.work.1 time = 11:00\n"
                               "visit.2.pass.2 time = 12:00\n"
                               "visit.2.pass.2 relief = .014 in\n";

/* Plain strings, thicker by a tenth from the second visit on: their pull goes with the square. */
static void make(struct record *record, const char *more)
{
    static const char *const notes[] = {"E4", "B3", "G3", "D3", "A2", "E2"};

    build_record(record, build_record_full);
    for (int s = 1; s <= 6; s++) {
        char lines[400];

        (void)snprintf(lines, sizeof lines,
                       "string.%d note = %s\nstring.%d build = plain\nstring.%d gauge = %g mm\n"
                       "string.%d core_material = steel\nvisit.2.string.%d gauge = %g mm\n",
                       s, notes[s - 1], s, s, 0.2 + 0.1 * s, s, s, 1.1 * (0.2 + 0.1 * s));
        build_record_add(record, lines);
    }
    build_record_add(record, restrung);
    build_record_add(record, more);
}

static int see(const char *more, struct pull_seen seen[PULLS_SEEN_MAX])
{
    struct record record;

    make(&record, more);
    const int count = pulls_seen_find(&record, &prior, seen);
    record_done(&record);
    return count;
}

static void a_restring_shows_what_the_neck_does(void **state)
{
    struct pull_seen seen[PULLS_SEEN_MAX];
    struct record record;
    struct derived old;

    (void)state;
    assert_int_equal(see("", seen), 1);
    make(&record, "");
    derive_pass(place_of(&record, 1, 1), &old);
    const double total_n = assert_given(figures_get(&old.figures, FIGURE_TENSION_TOTAL, 0));
    /* 1.1 squared is 1.21: Mersenne, T = mu (2 L f)^2, and mu goes with the section. */
    assert_near_relative(seen[0].pull_change_n, 0.21 * total_n, 1e-9);
    assert_near(seen[0].bend_change_mm, 0.004 * 25.4, 1e-9);
    assert_true(seen[0].u_mm > 0.001 * 25.4 / sqrt(6) - 1e-9);
    record_done(&record);
}

static void what_the_rod_moved_is_not_the_pull(void **state)
{
    struct pull_seen seen[PULLS_SEEN_MAX];

    (void)state;
    assert_int_equal(see("visit.2.pass.2 rod_turn = 1/8 turn\n", seen), 0);
    assert_int_equal(see("visit.2.work.2 kind = rod\nvisit.2.work.2 time = 11:30\n", seen), 0);
    assert_int_equal(see("visit.2.work.2 kind = rod\nvisit.2.work.2 time = 09:30\n", seen), 1);
    assert_int_equal(see("visit.2.work.2 kind = rod\nvisit.2.work.2 time = 13:00\n", seen), 1);
}

static void an_earlier_visit_does_not_know_it(void **state)
{
    struct pull_seen seen[PULLS_SEEN_MAX];
    struct record record;

    (void)state;
    make(&record, "");
    const struct record first = record_as_of(&record, 1);
    assert_int_equal(pulls_seen_find(&first, &prior, seen), 0);
    record_done(&record);
}

/* The prediction goes toward what was seen, and is surer than before. */
static void the_next_prediction_goes_by_it(void **state)
{
    const struct pull_change change = {
        .before_n = maybe_given(700), .after_n = maybe_given(800), .other_strings = true};
    struct survey_pull without, with;
    struct pull_seen seen[PULLS_SEEN_MAX];
    struct derived derived;
    struct record record;

    (void)state;
    assert_int_equal(see("", seen), 1);
    const double seen_mm = 100 * seen[0].bend_change_mm / seen[0].pull_change_n;
    make(&record, "visit.2.pass.2 rod_turn = 1/8 turn\n");
    derive_current(&record, &derived);
    survey_pull(&record, &derived, &change, &without);
    record_done(&record);
    make(&record, "");
    derive_current(&record, &derived);
    survey_pull(&record, &derived, &change, &with);
    record_done(&record);
    assert_int_equal(without.seen, 0);
    assert_int_equal(with.seen, 1);
    const double by_kind_mm = assert_given(without.bend_change_mm);
    const double now_mm = assert_given(with.bend_change_mm);
    assert_true((now_mm - by_kind_mm) * (seen_mm - by_kind_mm) > 0);
    assert_true(fabs(now_mm - seen_mm) < fabs(by_kind_mm - seen_mm));
    assert_true(with.bend_u_mm < without.bend_u_mm);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_restring_shows_what_the_neck_does),
        cmocka_unit_test(what_the_rod_moved_is_not_the_pull),
        cmocka_unit_test(an_earlier_visit_does_not_know_it),
        cmocka_unit_test(the_next_prediction_goes_by_it),
    };

    return cmocka_run_group_tests_name("pulls_seen", tests, NULL, NULL) ? 1 : 0;
}
