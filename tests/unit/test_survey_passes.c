/* SPDX-License-Identifier: MIT */
#include "model/survey/survey_passes.h"

#include <math.h>
#include <string.h>

#include "near.h"
#include "seeded.h"
#include "survey_record.h"

/* Finds a pass, which must exist. */
static struct survey_pass find(const struct record *record, int visit, int number)
{
    struct survey_pass pass;

    memset(&pass, 0, sizeof pass);
    do
        if (!survey_pass_next(record, &pass))
            fail_msg("no pass %d of visit %d", number, visit);
    while (pass.visit != visit || pass.pass != number);
    return pass;
}

static double figure(const struct derived *derived, enum figure_id id, int string)
{
    const struct maybe figure = figures_get(&derived->figures, id, string);

    if (!figure.given)
        fail_msg("absent: %s", figure_info(id)->name);
    return figure.value;
}

/* The readings that the first pass says will come after the rod. */
static void test_after_the_rod(void **state)
{
    struct derived derived;
    struct record record;

    (void)state;
    survey_record_derive(&record, "", &derived);
    build_record_add(&record, "visit.1.pass.2 rod_turn = 0.5\nvisit.1.pass.2 relief = .006 in");
    for (int s = 1; s <= 6; s += 5)
        build_record_put_mm(&record, reading_key_pass_at(FIELD_ACTION, 1, 2, s, 0),
                            figure(&derived, FIGURE_ACTION_AFTER_ROD, s));
    const struct survey_pass first = find(&record, 1, 1), pass = find(&record, 1, 2);
    assert_int_equal(first.before, 0);
    assert_false(first.action[1].known);
    assert_int_equal(pass.before, 1);
    assert_true(pass.after_rod);
    for (int s = 1; s <= 6; s += 5) {
        const struct pass_action *action = &pass.action[s];

        assert_true(action->known && action->off.within);
        assert_near(action->off.off_mm, 0, 1e-9);
        assert_near(action->predicted_u_mm, derived.figures.at[FIGURE_ACTION_AFTER_ROD][s].u, 0);
        assert_near(action->read_u_mm, 2 * 25.4 / 128 / sqrt(12), 1e-12);
        /* The relief came out as wanted, so both predictions are one. */
        assert_true(action->at_relief_mm.given);
        assert_near(action->at_relief_mm.value, action->predicted_mm, 1e-9);
    }
    /* Not read on these: nothing is made up. */
    assert_false(pass.action[3].known);
    record_done(&record);
}

/* Half the turn that was needed: what is predicted for the relief read lies between the action
 * before and the one after the whole turn. */
static void test_short_turn(void **state)
{
    struct derived derived;
    struct record record;

    (void)state;
    survey_record_derive(&record,
                         "visit.1.pass.2 rod_turn = 0.25\nvisit.1.pass.2 relief = .0095 in\n"
                         "visit.1.pass.2 action.6 = 8/64 in",
                         &derived);
    const struct survey_pass pass = find(&record, 1, 2);
    const double before = 8.25 / 64 * 25.4, after = pass.action[6].predicted_mm;
    assert_true(after < before);
    assert_near(pass.action[6].at_relief_mm.value, (before + after) / 2, 1e-6);
    record_done(&record);
}

/* All moves made: the targets are what the gauges should read. */
static void test_after_all(void **state)
{
    struct record record;

    (void)state;
    survey_record_build(&record, "visit.1.pass.2 relief = .006 in\n"
                                 "visit.1.pass.2 action.1 = 4/64 in\n"
                                 "visit.1.pass.2 action.6 = 7/64 in");
    const struct survey_pass pass = find(&record, 1, 2);
    assert_false(pass.after_rod);
    assert_near(pass.action[1].predicted_mm, 4.0 / 64 * 25.4, 1e-9);
    assert_true(pass.action[1].off.within);
    assert_false(pass.action[1].at_relief_mm.given);
    /* A 64th too high is more than both gauges are unsure of. */
    assert_near(pass.action[6].predicted_mm, 6.0 / 64 * 25.4, 1e-9);
    assert_near(pass.action[6].off.off_mm, 25.4 / 64, 1e-9);
    assert_false(pass.action[6].off.within);
    record_done(&record);
}

/* With the saddle marked done as well, the rod alone would foretell the wrong action. */
static void test_marked_after_the_rod(void **state)
{
    struct record record;

    (void)state;
    survey_record_build(&record, "visit.1.pass.1 time = 10:00\nvisit.1.work.1 kind = saddle\n"
                                 "visit.1.work.1 time = 10:20\nvisit.1.pass.2 time = 10:40\n"
                                 "visit.1.pass.2 rod_turn = 0.25\nvisit.1.pass.2 relief = .006 in\n"
                                 "visit.1.pass.2 action.1 = 4/64 in");
    const struct survey_pass pass = find(&record, 1, 2);
    assert_false(pass.after_rod);
    assert_near(pass.action[1].predicted_mm, 4.0 / 64 * 25.4, 1e-9);
    record_done(&record);
}

/* A neck that was reset is another neck: no forecast reaches across it, the rod's least of all. */
static void test_marked_reset(void **state)
{
    static const char turned[] =
        "visit.1.pass.1 time = 10:00\nvisit.1.pass.2 time = 10:40\n"
        "visit.1.pass.2 rod_turn = 0.25\nvisit.1.pass.2 relief = .006 in\n"
        "visit.1.pass.2 action.1 = 4/64 in\nvisit.1.pass.3 time = 10:50\n"
        "visit.1.pass.3 relief = .006 in\nvisit.1.pass.3 action.1 = 4/64 in";
    struct record record;

    (void)state;
    survey_record_build(&record, turned);
    assert_true(find(&record, 1, 2).after_rod);
    assert_true(find(&record, 1, 2).action[1].known);
    build_record_add(&record, "visit.1.work.1 kind = reset\nvisit.1.work.1 time = 10:20");
    assert_int_equal(find(&record, 1, 2).before, 0);
    assert_false(find(&record, 1, 2).after_rod);
    assert_false(find(&record, 1, 2).action[1].known);
    /* The pass after that is compared with its predecessor again. */
    assert_int_equal(find(&record, 1, 3).before, 2);
    record_done(&record);
}

/* A rod within its tolerance is not due, whatever is logged. */
static void test_rod_not_due(void **state)
{
    struct record record;

    (void)state;
    survey_record_build(&record, "visit.1.pass.1 relief = .006 in\n"
                                 "visit.1.pass.2 rod_turn = 0.1\n"
                                 "visit.1.pass.2 relief = .005 in\n"
                                 "visit.1.pass.2 action.1 = 4/64 in");
    assert_false(find(&record, 1, 2).after_rod);
    record_done(&record);
}

/* A visit's first pass follows months, not moves. */
static void test_visits_apart(void **state)
{
    struct record record;

    (void)state;
    survey_record_build(&record, "visit.2.pass.1 relief = .009 in\n"
                                 "visit.2.pass.1 action.1 = 5/64 in");
    const struct survey_pass pass = find(&record, 2, 1);
    assert_int_equal(pass.before, 0);
    assert_false(pass.action[1].known);
    record_done(&record);
}

/*
 * The saddle's move worked out from misread gauges and made on the instrument as it is: the
 * spread of what comes out is what the ± says. Readings off by up to half a step either way.
 */
static void test_uncertainty_by_drawing(void **state)
{
    struct seeded seeded = seeded_start("survey_passes");
    const double step = 25.4 / 128, truth = 8.25 / 64 * 25.4;
    double squares = 0, u = 0;
    enum { DRAWS = 1000 };

    (void)state;
    for (int i = 0; i < DRAWS; i++) {
        struct derived derived;
        struct record record;
        const double misread = seeded_between(&seeded, -step / 2, step / 2);

        /* Rod and slots are left alone, so that the saddle alone carries the misreading. */
        survey_record_build(&record, "visit.1.pass.1 relief = .006 in\n"
                                     "targets nut_gap_tolerance = 1 mm\n"
                                     "visit.1.pass.2 action.6 = 6/64 in");
        build_record_put_mm(&record, reading_key_pass_at(FIELD_ACTION, 1, 1, 6, 0),
                            truth + misread);
        derive_pass(place_of(&record, 1, 1), &derived);
        /* Action at 12 follows the saddle by x_12/Ls. */
        const double share =
            derived.setup.board.station_mm[6][12] / derived.setup.board.contact_mm[6];
        const struct survey_pass pass = find(&record, 1, 2);
        const double real = truth + figure(&derived, FIGURE_SADDLE_CHANGE, 6) * share;
        squares += (real - pass.action[6].predicted_mm) * (real - pass.action[6].predicted_mm);
        u = pass.action[6].predicted_u_mm;
        record_done(&record);
    }
    assert_near_relative(u, 2 * sqrt(squares / DRAWS), 0.08);
}

static void test_absent(void **state)
{
    struct survey_pass pass = {.visit = 0};
    struct record record;

    (void)state;
    build_record(&record, "");
    assert_false(survey_pass_next(&record, &pass));
    record_done(&record);
    /* No board, no targets: passes without a comparison. */
    build_record(&record, "visit.1.pass.1 action.1 = 5/64 in\nvisit.1.pass.2 action.1 = 4/64 in");
    pass = find(&record, 1, 2);
    assert_int_equal(pass.strings, 0);
    assert_false(pass.action[1].known);
    record_done(&record);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_after_the_rod),
        cmocka_unit_test(test_short_turn),
        cmocka_unit_test(test_after_all),
        cmocka_unit_test(test_rod_not_due),
        cmocka_unit_test(test_marked_after_the_rod),
        cmocka_unit_test(test_marked_reset),
        cmocka_unit_test(test_visits_apart),
        cmocka_unit_test(test_uncertainty_by_drawing),
        cmocka_unit_test(test_absent),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
