/* SPDX-License-Identifier: MIT */
#include "model/derive/asked.h"

#include "build_record.h"
#include "near.h"

/* Too little saddle in the first pass, a reset logged, and enough in the second. */
static const char reset[] =
    "visit.1.pass.1 time = 10:00\n"
    "visit.1.pass.1 relief = .006 in\nvisit.1.pass.1 exposure_bass = 0.3 mm\n"
    "visit.1.pass.1 exposure_treble = 0.3 mm\n"
    "visit.1.work.1 kind = reset\n"
    "visit.1.work.1 time = 11:00\n"
    "visit.1.pass.2 time = 12:00\n"
    "visit.1.pass.2 relief = .006 in\n"
    "visit.1.pass.2 action.1 = 4/64 in\n"
    "visit.1.pass.2 action.6 = 6/64 in\n"
    "visit.1.pass.2 nut_gap.1 = .018 in\n"
    "visit.1.pass.2 nut_gap.6 = .018 in\n"
    "visit.1.pass.2 exposure_bass = 6 mm\n"
    "visit.1.pass.2 exposure_treble = 6 mm\n";

/* The pass that asked, seen from one; 0 for none. */
static int asked_from(const char *more, int visit, int pass)
{
    struct place asked = {.pass = 0};
    struct derived derived;
    struct record record;

    build_record(&record, build_record_full);
    build_record_add(&record, more);
    if (asked_for_reset(place_of(&record, visit, pass), &asked, &derived)) {
        assert_int_equal(asked.visit, visit);
        assert_int_equal(derived.moves.move[MOVE_RESET].state, MOVE_DUE);
        assert_true(figures_get(&derived.figures, FIGURE_ANGLE, 0).given);
    }
    record_done(&record);
    return asked.pass;
}

static void the_plan_outlives_the_reset(void **state)
{
    (void)state;
    assert_int_equal(asked_from(reset, 1, 1), 1);
    assert_int_equal(asked_from(reset, 1, 2), 1);
}

static void the_last_one_that_asked_counts(void **state)
{
    (void)state;
    assert_int_equal(
        asked_from("visit.1.pass.1 relief = .006 in\nvisit.1.pass.1 exposure_bass = 0.3 mm\n"
                   "visit.1.pass.1 exposure_treble = 0.3 mm\n"
                   "visit.1.pass.2 relief = .006 in\n"
                   "visit.1.pass.2 action.1 = 5/64 in\n"
                   "visit.1.pass.2 action.6 = 8/64 in\n"
                   "visit.1.pass.2 nut_gap.1 = .018 in\n"
                   "visit.1.pass.2 nut_gap.6 = .018 in\n"
                   "visit.1.pass.2 exposure_bass = 0.2 mm\n"
                   "visit.1.pass.2 exposure_treble = 0.2 mm\n",
                   1, 2),
        2);
}

static void nobody_asked(void **state)
{
    (void)state;
    assert_int_equal(asked_from("visit.1.pass.1 exposure_bass = 9 mm\n"
                                "visit.1.pass.1 exposure_treble = 9 mm\n",
                                1, 1),
                     0);
    assert_int_equal(asked_from(reset, 1, 0), 0);
    /* Another visit's plan is not this one's. */
    assert_int_equal(asked_from(reset, 2, 1), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_plan_outlives_the_reset),
        cmocka_unit_test(the_last_one_that_asked_counts),
        cmocka_unit_test(nobody_asked),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
