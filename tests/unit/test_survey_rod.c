/* SPDX-License-Identifier: MIT */
#include "model/setup/survey_rod.h"

#include <math.h>
#include <stdio.h>

#include "near.h"
#include "survey_record.h"

/* Only reliefs and turns; the rest of the record is build_record_full, whose first pass reads
 * .013 in and whose target is .006 in. */

static struct survey_rod survey(const char *more, struct findings *findings)
{
    struct survey_rod rod;
    struct record record;

    build_record(&record, build_record_full);
    build_record_add(&record, more);
    *findings = (struct findings){.count = 0};
    survey_rod(place_of(&record, 0, 0), &rod, findings);
    record_done(&record);
    return rod;
}

/* .002 in a quarter turn, twice: .008 in a turn, and .003 in still to go is 3/8 of a turn, of
 * which a quarter comes first. */
static void test_two_quarters(void **state)
{
    struct findings findings;
    const struct survey_rod rod = survey("visit.1.pass.2 rod_turn = 0.25\n"
                                         "visit.1.pass.2 relief = .011 in\n"
                                         "visit.1.pass.3 rod_turn = 0.25\n"
                                         "visit.1.pass.3 relief = .009 in",
                                         &findings);

    (void)state;
    assert_true(rod.known);
    assert_int_equal(rod.fit.count, 2);
    assert_near(rod.fit.per_turn_mm, -0.008 * 25.4, 1e-12);
    assert_near(rod.fit.left_mm, 0, 1e-12);
    assert_int_equal(rod.answer, ROD_ANSWERS);
    assert_near(rod.turns_to_target.value, 0.375, 1e-9);
    assert_near(rod.next_turn.value, ROD_TURN_AT_ONCE, 0);
    assert_true(rod.turns_to_target_u.value > 0);
    assert_int_equal(findings.count, 0);
}

#define HALF_TURN                                                                                  \
    "visit.1.pass.2 rod_turn = 0.5\n"                                                              \
    "visit.1.pass.2 relief = .010 in\n"

/* .006 in a turn, within 0.0012 or so: .009 in takes 1.5 turns, on top of the half that it stands
 * tighter than it was found. */
static void test_far_beyond_what_rods_have(void **state)
{
    struct findings findings;
    const struct survey_rod rod = survey(HALF_TURN, &findings);
    double turns = 0, most = 0;

    (void)state;
    assert_near(rod.stands, 0.5, 1e-12);
    assert_true(rod.fit.per_turn_u_mm > 0);
    assert_false(survey_rod_is_far(&rod, -0.009 * 25.4, &turns, &most));
    assert_true(survey_rod_is_far(&rod, -0.024 * 25.4, &turns, &most));
    assert_near(turns, 4.5, 1e-9);
    assert_near(most, ROD_TURNS_USUAL, 0);
    /* Slackened it goes from where it stands tightest. */
    assert_true(survey_rod_is_far(&rod, 0.024 * 25.4, &turns, &most));
    assert_near(turns, 4, 1e-9);
}

/* Three turns were seen, so that it has three. */
/* By hand: half a turn for .006 in is .012 in a turn, so a bend of .018 in is one and a half. */
static void test_turns_that_it_holds(void **state)
{
    struct findings findings;
    const struct survey_rod rod = survey(HALF_TURN, &findings), none = survey("", &findings);
    const double per_turn = -rod.fit.per_turn_mm;
    double turns = 0, u = 0;

    (void)state;
    assert_true(survey_rod_turns_held(&rod, 1.5 * per_turn, 0.1, &turns, &u));
    assert_near(turns, 1.5, 1e-12);
    assert_near(u * per_turn, sqrt(0.1 * 0.1 + 2.25 * pow(rod.fit.per_turn_u_mm, 2)), 1e-12);
    assert_false(survey_rod_turns_held(&none, 0.1, 0.1, &turns, &u));
    assert_false(survey_rod_turns_held(&rod, (double)NAN, 0.1, &turns, &u));
    assert_false(survey_rod_turns_held(&rod, 0.1, (double)INFINITY, &turns, &u));
}

static void test_as_far_as_it_was_seen_to_go(void **state)
{
    struct findings findings;
    const struct survey_rod rod = survey("visit.1.pass.2 rod_turn = 1.5\n"
                                         "visit.1.pass.2 relief = .006 in\n"
                                         "visit.1.pass.3 rod_turn = -3\n"
                                         "visit.1.pass.3 relief = .020 in",
                                         &findings);
    const double per_turn = rod.fit.per_turn_mm, sure = fabs(per_turn) + rod.fit.per_turn_u_mm;
    double turns = 0, most = 0;

    (void)state;
    assert_int_equal(rod.answer, ROD_ANSWERS);
    assert_near(rod.stands, -1.5, 1e-12);
    assert_false(survey_rod_is_far(&rod, -2.99 * sure, &turns, &most));
    assert_true(survey_rod_is_far(&rod, -3.01 * sure, &turns, &most));
    assert_near(turns, 3.01 * sure / fabs(per_turn), 1e-9);
    assert_near(most, 3, 1e-12);
}

static void test_nothing_is_far_while_the_answer_is_not_known(void **state)
{
    struct findings findings;
    const struct survey_rod none = survey("", &findings);
    const struct survey_rod silent = survey("visit.1.pass.2 rod_turn = 0.5\n"
                                            "visit.1.pass.2 relief = .013 in",
                                            &findings);
    double turns, most;

    (void)state;
    assert_false(survey_rod_is_far(&none, -1, &turns, &most));
    assert_false(survey_rod_is_far(&silent, -1, &turns, &most));
}

static void test_the_other_way(void **state)
{
    struct findings findings;
    const struct survey_rod rod = survey("visit.1.pass.2 rod_turn = 0.5\n"
                                         "visit.1.pass.2 relief = .003 in",
                                         &findings);

    (void)state;
    /* .010 in for half a turn; .003 in back is 0.15 of a turn, slackened. */
    assert_near(rod.turns_to_target.value, -0.15, 1e-9);
    assert_near(rod.next_turn.value, -0.15, 1e-9);
}

static void test_close_enough(void **state)
{
    struct findings findings;
    const struct survey_rod rod = survey("visit.1.pass.2 rod_turn = 0.5\n"
                                         "visit.1.pass.2 relief = .007 in",
                                         &findings);

    (void)state;
    /* On the edge of the tolerance of .001 in. */
    assert_true(rod.known);
    assert_false(rod.turns_to_target.given || rod.turns_to_target_u.given || rod.next_turn.given);
}

static void test_uncertainty(void **state)
{
    struct findings findings;
    const struct survey_rod rod = survey("visit.1.pass.2 rod_turn = 0.5\n"
                                         "visit.1.pass.2 relief = .009 in",
                                         &findings);
    /* turns = (r* - r)/p; p from one step of half a turn carries two readings, each with its step
     * and a hand's 0.008 mm. */
    const double U = 2 * hypot(0.0254 / sqrt(12), 0.008), p = -0.008 * 25.4, turns = 0.375;
    const double U_p = sqrt(2) * U / 0.5;

    (void)state;
    assert_near(rod.turns_to_target.value, turns, 1e-9);
    assert_near_relative(rod.turns_to_target_u.value,
                         sqrt(U * U + turns * turns * U_p * U_p) / fabs(p), 1e-9);
}

static void test_silent(void **state)
{
    struct findings findings;
    const struct survey_rod rod = survey("visit.1.pass.2 rod_turn = 0.25\n"
                                         "visit.1.pass.2 relief = .009 in\n"
                                         "visit.1.pass.3 rod_turn = 0.25\n"
                                         "visit.1.pass.3 relief = .009 in",
                                         &findings);

    (void)state;
    assert_int_equal(rod.answer, ROD_ANSWERS_NO_LONGER);
    assert_string_equal(survey_rod_answer_name(rod.answer), "no-longer");
    assert_true(survey_record_found(&findings, FINDING_ROD_SILENT, 0));
    assert_false(rod.next_turn.given);
}

/* A rod that does nothing, and readings that fall on one mark or on the next: no answer, neither
 * the right way nor the wrong one. */
static void test_a_step_is_no_answer(void **state)
{
    static const char *const steps[] = {"0.001 in", "0.05 mm"};
    static const char *const marks[2][2] = {{".010 in", ".009 in"}, {"0.25 mm", "0.20 mm"}};
    static const char *const turns[] = {"0.25", "0.25", "0.25", "-0.25", "0.25"};
    static const int reads[] = {0, 1, 0, 1, 0};

    (void)state;
    for (int metric = 0; metric < 2; metric++) {
        char lines[600];
        struct findings findings;
        int length =
            snprintf(lines, sizeof lines, "model feeler_step = %s\nvisit.1.pass.1 relief = %s",
                     steps[metric], marks[metric][0]);

        for (int i = 0; i < 5; i++) {
            length += snprintf(lines + length, sizeof lines - (size_t)length,
                               "\nvisit.1.pass.%d rod_turn = %s\nvisit.1.pass.%d relief = %s",
                               i + 2, turns[i], i + 2, marks[metric][reads[i]]);
            const struct survey_rod rod = survey(lines, &findings);
            assert_false(rod.sure);
            assert_true(rod.answer != ROD_ANSWERS && rod.answer != ROD_ANSWERS_BACKWARDS);
        }
    }
}

static void test_backwards(void **state)
{
    struct findings findings;
    const struct survey_rod rod = survey("visit.1.pass.2 rod_turn = 0.25\n"
                                         "visit.1.pass.2 relief = .017 in",
                                         &findings);

    (void)state;
    assert_int_equal(rod.answer, ROD_ANSWERS_BACKWARDS);
    assert_true(survey_record_found(&findings, FINDING_ROD_BACKWARDS, 0));
    assert_false(rod.next_turn.given);
}

/* Visits apart in time, turns without a relief, turns of 0: no step. */
static void test_what_is_no_step(void **state)
{
    struct findings findings;

    (void)state;
    assert_false(survey("", &findings).known);
    assert_false(survey("visit.1.pass.1 rod_turn = 0.25", &findings).known);
    assert_false(survey("visit.1.pass.2 rod_turn = 0.25", &findings).known);
    assert_false(
        survey("visit.1.pass.2 rod_turn = 0\nvisit.1.pass.2 relief = .010 in", &findings).known);
    assert_false(
        survey("visit.2.pass.1 rod_turn = 0.25\nvisit.2.pass.1 relief = .010 in", &findings).known);
    assert_false(survey("visit.1.pass.2 rod_turn = 0.25\n"
                        "visit.1.pass.2 action.1 = 5/64 in\n"
                        "visit.1.pass.3 relief = .010 in",
                        &findings)
                     .known);
    /* The relief of another fret does as well. */
    assert_true(
        survey("visit.1.pass.2 rod_turn = 0.25\nvisit.1.pass.2 relief.5 = .010 in", &findings)
            .known);
}

/* A turn that was not followed by a reading, and a further one: half a turn for .004 in. What was
 * logged and not read since is known by the answer, .008 in a turn, and else not at all. */
static void test_turns_alone(void **state)
{
    static const char turned[] = "visit.1.pass.2 rod_turn = 0.25\n"
                                 "visit.1.pass.3 rod_turn = 0.25\n"
                                 "visit.1.pass.3 relief = .009 in\n"
                                 "visit.1.pass.4 rod_turn = -0.125\n";
    struct findings findings;
    const struct survey_rod rod = survey(turned, &findings);
    struct record record;

    (void)state;
    assert_int_equal(rod.fit.count, 1);
    assert_near(rod.fit.per_turn_mm, -0.008 * 25.4, 1e-12);
    build_record(&record, build_record_full);
    build_record_add(&record, turned);
    assert_near(assert_given(survey_rod_since(place_of(&record, 1, 3))), 0.001 * 25.4, 1e-12);
    assert_false(survey_rod_since(place_of(&record, 1, 1)).given);
    assert_near(assert_given(survey_rod_since(place_of(&record, 1, 4))), 0, 0);
    record_done(&record);
}

/* What a later pass taught was not known in an earlier one. */
static void test_up_to_a_pass(void **state)
{
    struct findings findings = {.count = 0};
    struct survey_rod rod;
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    build_record_add(&record, HALF_TURN "visit.2.pass.1 relief = .011 in\n"
                                        "visit.2.pass.2 rod_turn = 0.5\n"
                                        "visit.2.pass.2 relief = .009 in\n");
    survey_rod(place_of(&record, 1, 1), &rod, &findings);
    assert_false(rod.known);
    survey_rod(place_of(&record, 1, 2), &rod, &findings);
    assert_near(rod.fit.per_turn_mm, -0.006 * 25.4, 1e-12);
    survey_rod(place_of(&record, 2, 1), &rod, &findings);
    assert_int_equal(rod.fit.count, 1);
    survey_rod(place_of(&record, 2, 2), &rod, &findings);
    assert_near(rod.fit.per_turn_mm, -0.005 * 25.4, 1e-12);
    record_done(&record);
}

static void test_rod_that_does_not_turn(void **state)
{
    struct findings findings;
    const struct survey_rod rod = survey("neck rod = fixed\n"
                                         "visit.1.pass.2 rod_turn = 0.25\n"
                                         "visit.1.pass.2 relief = .011 in",
                                         &findings);

    (void)state;
    assert_true(rod.known);
    assert_false(rod.next_turn.given);
}

/* More steps than are kept: the last ones count. */
static void test_very_many(void **state)
{
    struct findings findings = {.count = 0};
    struct survey_rod rod;
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    for (int visit = 2; visit <= 4; visit++)
        for (int pass = 1; pass <= 600; pass++) {
            const struct reading_key turn = reading_key_pass(FIELD_ROD_TURN, visit, pass);
            const struct reading_key relief = reading_key_pass(FIELD_RELIEF, visit, pass);
            /* In the first visit the rod did twice as much. */
            const double step = visit == 2 ? 0.2 : 0.1;

            assert_int_equal(record_put(&record, &turn, pass % 2 ? "0.5" : "-0.5", false, NULL),
                             STATUS_OK);
            build_record_put_mm(&record, relief, pass % 2 ? 0.3 - step : 0.3);
        }
    survey_rod(place_of(&record, 0, 0), &rod, &findings);
    assert_true(rod.known);
    assert_int_equal(rod.fit.count, ROD_STEPS_MAX);
    assert_near(rod.fit.per_turn_mm, -0.2, 1e-9);
    record_done(&record);
}

/* A walk from visit to visit, and back to the first again, knows what each survey alone does. */
static void test_visit_after_visit(void **state)
{
    struct findings findings = {.count = 0};
    struct survey_rod alone, after;
    struct record record;
    int known = 0;

    (void)state;
    build_record(&record, build_record_full);
    for (int visit = 2; visit <= 9; visit++)
        for (int pass = 1; pass <= 3; pass++) {
            const struct reading_key turn = reading_key_pass(FIELD_ROD_TURN, visit, pass);

            build_record_put_mm(&record, reading_key_pass(FIELD_RELIEF, visit, pass),
                                0.3 - 0.01 * visit * (pass - 1));
            /* Logged alone, after the visit's last reading: it belongs to no step. */
            build_record_add(&record, visit == 6 ? "visit.6.pass.4 rod_turn = 0.5" : "");
            if (visit > 4)
                assert_int_equal(record_put(&record, &turn, "0.125", false, NULL), STATUS_OK);
        }
    const struct reading_key target = reading_key_as_of(reading_key_one(FIELD_TARGET_RELIEF), 7);

    build_record_put_mm(&record, target, 0.2); /* a change: of the visits from then on */
    struct rod_walk walk = rod_walk_of(&record);
    for (int at = 2; at < 18; at++) {
        const struct place last = place_of(&record, at < 10 ? at : at - 8, PASSES_MAX);

        survey_rod(last, &alone, &findings);
        survey_rod_after(&walk, last, &after, &findings);
        assert_int_equal(alone.known, after.known);
        known += alone.known;
        assert_near(alone.stands, after.stands, 0);
        assert_near(alone.fit.per_turn_mm, after.fit.per_turn_mm, 0);
        assert_int_equal(alone.fit.count, after.fit.count);
        assert_int_equal(alone.answer, after.answer);
        assert_int_equal(alone.next_turn.given, after.next_turn.given);
        assert_near(alone.next_turn.value, after.next_turn.value, 0);
    }
    assert_int_equal(known, 2 * 5);
    record_done(&record);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_two_quarters),
        cmocka_unit_test(test_the_other_way),
        cmocka_unit_test(test_close_enough),
        cmocka_unit_test(test_uncertainty),
        cmocka_unit_test(test_silent),
        cmocka_unit_test(test_a_step_is_no_answer),
        cmocka_unit_test(test_backwards),
        cmocka_unit_test(test_what_is_no_step),
        cmocka_unit_test(test_turns_alone),
        cmocka_unit_test(test_up_to_a_pass),
        cmocka_unit_test(test_rod_that_does_not_turn),
        cmocka_unit_test(test_very_many),
        cmocka_unit_test(test_visit_after_visit),
        cmocka_unit_test(test_far_beyond_what_rods_have),
        cmocka_unit_test(test_turns_that_it_holds),
        cmocka_unit_test(test_as_far_as_it_was_seen_to_go),
        cmocka_unit_test(test_nothing_is_far_while_the_answer_is_not_known),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
