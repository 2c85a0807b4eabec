/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "session/app.h"
#include "bench_session.h"
#include "build_record.h"
#include "leaf/bench/expected.h"
#include "model/setup/bench_goal.h"

static struct app *start(const char *marks)
{
    struct app *app = malloc(sizeof *app);
    struct record record;

    assert_non_null(app);
    build_record(&record, build_record_full);
    build_record_add(&record, "visit.1.pass.1 time = 10:00\n");
    build_record_add(&record, marks);
    bench_start_record(app, &record, false, false);
    bench_press(app, "p");
    assert_int_equal(app->pass, 2);
    return app;
}

static void end(struct app *app)
{
    app_done(app);
    free(app);
}

static double expected(const struct app *app, enum field_id field, int string)
{
    const struct reading_key key = reading_key_pass_at(field, 1, 2, string, 0);
    const int at = route_find(&app->route, &key);
    assert_true(at >= 0);
    return assert_given(app_expected(app, &app->route.cells[at]));
}

static const struct route_cell *relief_cell(const struct app *app)
{
    const struct reading_key key = reading_key_pass_at(FIELD_RELIEF, 1, 2, 0, 0);
    const int at = route_find(&app->route, &key);
    assert_true(at >= 0);
    return &app->route.cells[at];
}

static double figure(const struct app *app, enum figure_id id, int string)
{
    return assert_given(figures_get(&app->before.figures, id, string));
}

static const char *after(const struct app *app)
{
    static char memory[120];
    struct strbuf out = STRBUF(memory);

    strbuf_clear(&out);
    bench_add_expected_after(app, &out);
    return memory;
}

#define MARK(n, name) "visit.1.work." n " kind = " name "\nvisit.1.work." n " time = 10:2" n "\n"

/* Heights of a straight string over a curve add up: a slot lifts the string at x by 1 - x/L of
 * its change, the saddle by x/L (plane geometry). */
static void check_lifts(const struct app *app, double action_mm, double gap_mm, bool slots,
                        bool saddle)
{
    const struct board *board = &app->before.setup.board;
    const double length = board->contact_mm[6], x1 = board->station_mm[6][1],
                 xk = board->station_mm[6][board->action_fret];
    const struct move *move = app->before.moves.move;
    const double slot = slots ? move[MOVE_SLOTS].string[6].value : 0;
    const double bone = saddle ? move[MOVE_SADDLE].string[6].value : 0;

    assert_near(expected(app, FIELD_ACTION, 6),
                action_mm + slot * (1 - xk / length) + bone * xk / length, 1e-6);
    assert_near(expected(app, FIELD_NUT_GAP, 6),
                gap_mm + slot * (1 - x1 / length) + bone * x1 / length, 1e-6);
}

/* A turn whose answer is not known yet leaves the neck anywhere, until the relief is read. Half of
 * the way from .013 to .006 in takes the heights half of theirs. */
static void a_first_turn_foretells_by_the_relief_read(void **state)
{
    struct app *app = start("visit.1.work.1 kind = rod\nvisit.1.work.1 time = 10:30\n"
                            "visit.1.pass.2 rod_turn = 1/4 turn\n");
    const struct reading_key action = reading_key_pass_at(FIELD_ACTION, 1, 2, 6, 0);
    const int at = route_find(&app->route, &action);

    (void)state;
    assert_true(at >= 0);
    assert_false(app_expected(app, relief_cell(app)).given);
    assert_false(app_expected(app, &app->route.cells[at]).given);
    bench_press(app, ".0095{Enter}");
    assert_near(
        expected(app, FIELD_ACTION, 6),
        (app->before.moves.action[6].mm.value + figure(app, FIGURE_ACTION_AFTER_ROD, 6)) / 2, .01);
    end(app);
}

/* A rod alone was turned: no slot is cut by .015 in meanwhile. What is typed so is asked about, and
 * filed by a second Enter. Where the slots are marked, or nothing is, it may have been. */
static void what_no_move_could_have_done_is_asked_about(void **state)
{
    static const struct {
        const char *marks;
        bool asks;
    } cases[] = {{"visit.1.work.1 kind = rod\nvisit.1.work.1 time = 10:30\n", true},
                 {"visit.1.work.1 kind = slots\nvisit.1.work.1 time = 10:30\n", false},
                 {"", false}};

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char lines[400];

        snprintf(lines, sizeof lines,
                 "%svisit.1.pass.1 nut_gap.6 = .028 in\nvisit.1.pass.1 nut_gap.5 = .027 in\n"
                 "visit.1.pass.1 nut_gap.4 = .025 in\nvisit.1.pass.1 nut_gap.3 = .024 in\n"
                 "visit.1.pass.1 nut_gap.2 = .022 in\nvisit.1.pass.1 nut_gap.1 = .021 in\n",
                 cases[i].marks);
        struct app *app = start(lines);
        const struct reading_key gap = reading_key_pass_at(FIELD_NUT_GAP, 1, 2, 6, 0);

        bench_press(app, ".0095{Enter}.010{Enter}");
        assert_int_equal(record_text(&app->record, &gap) == NULL, cases[i].asks);
        bench_press(app, cases[i].asks ? "{Enter}" : "");
        assert_non_null(record_text(&app->record, &gap));
        end(app);
    }
}

static void nothing_marked_means_the_rod_alone(void **state)
{
    struct app *app = start("");

    (void)state;
    /* What a turn of it does is not known: it is turned until the relief is right. */
    assert_near(app_expected(app, relief_cell(app)).value, 0.1524, 1e-9);
    check_lifts(app, figure(app, FIGURE_ACTION_AFTER_ROD, 6), figure(app, FIGURE_GAP_AFTER_ROD, 6),
                false, false);
    assert_near(expected(app, FIELD_EXPOSURE_BASS, 0), 5, 1e-6);
    assert_string_equal(after(app), "after rod, if done (Work marks it)");
    end(app);
}

static void marks_say_what_was_done(void **state)
{
    struct app *app = start(MARK("1", "rod") MARK("2", "slots"));

    (void)state;
    assert_string_equal(after(app), "after rod, slots, as marked on Work");
    check_lifts(app, figure(app, FIGURE_ACTION_AFTER_ROD, 6), figure(app, FIGURE_GAP_AFTER_ROD, 6),
                true, false);
    assert_near(expected(app, FIELD_EXPOSURE_BASS, 0), 5, 1e-6);
    end(app);
    /* All done without measuring in between: what is wanted. */
    app = start(MARK("1", "rod") MARK("2", "slots") MARK("3", "saddle"));
    assert_near(expected(app, FIELD_ACTION, 6), 6 * 25.4 / 64, 1e-6);
    /* The slot was cut short of it by what is not known. */
    assert_near(expected(app, FIELD_NUT_GAP, 6), 0.018 * 25.4, 0.03);
    assert_true(expected(app, FIELD_NUT_GAP, 6) > 0.018 * 25.4);
    assert_near(expected(app, FIELD_EXPOSURE_BASS, 0),
                5 + app->before.moves.move[MOVE_SADDLE].string[6].value, 1e-6);
    end(app);
}

#define SAID(n, text) "visit.1.work." n " amount = " text "\n"

/* What was logged differently from the plan was done so. */
static void amounts_that_are_said_are_foretold(void **state)
{
    struct app *app = start(MARK("1", "saddle") SAID("1", ".5 mm bass; .2 treble"));
    const struct board *board = &app->before.setup.board;
    const double lifted = -0.5 * board->station_mm[6][board->action_fret] / board->contact_mm[6];

    (void)state;
    assert_near(expected(app, FIELD_ACTION, 6), 8.25 * 25.4 / 64 + lifted, 1e-6);
    assert_near(expected(app, FIELD_EXPOSURE_BASS, 0), 4.5, 1e-6);
    assert_string_equal(after(app), "after saddle, as marked on Work");
    end(app);
    app = start(MARK("1", "slots") SAID("1", "string 6 -.002 in"));
    assert_near(expected(app, FIELD_NUT_GAP, 6),
                25.4 * (0.030 - .002 * (1 - app->before.setup.board.station_mm[6][1] /
                                                app->before.setup.board.contact_mm[6])),
                1e-6);
    end(app);
    /* What makes no sense is taken as planned, and said to be. */
    app = start(MARK("1", "slots") SAID("1", "-.002-.003"));
    assert_string_equal(after(app), "after slots; amount not understood");
    check_lifts(app, 8.25 * 25.4 / 64, 0.030 * 25.4, true, false);
    end(app);
}

/* Of a rod that answers by .008 in a turn; a work line says the turns. */
static void turns_that_are_said_are_foretold(void **state)
{
    struct app *app = start(MARK("1", "rod") SAID("1", "tightened 3/8 turn"));
    struct move *rod = &app->before.moves.move[MOVE_ROD];

    (void)state;
    rod->turns = maybe_given(0.875);
    rod->per_turn = maybe_given(-0.008 * 25.4);
    assert_near(expected(app, FIELD_RELIEF, 0), 0.010 * 25.4, 0.001);
    end(app);
}

/* Turns typed as what was done are kept with the pass after, and make the line's sense. */
static void a_bare_fraction_of_the_rod_is_understood(void **state)
{
    struct app *app =
        start(MARK("1", "rod") SAID("1", "1/4") "visit.1.pass.2 rod_turn = 0.25 turn\n");

    (void)state;
    assert_string_equal(after(app), "after rod, as marked on Work");
    end(app);
}

static void a_rod_that_was_left_leaves_the_curve(void **state)
{
    struct app *app = start(MARK("1", "slots"));

    (void)state;
    assert_near(expected(app, FIELD_RELIEF, 0), 0.013 * 25.4, 1e-6);
    check_lifts(app, 8.25 * 25.4 / 64, 0.030 * 25.4, true, false);
    end(app);
}

/* What the rod, the slots and the saddle leave is what is wanted, read as the gaps were. */
static void a_gap_held_down_is_expected_held_down(void **state)
{
    struct app *app = start("visit.1.pass.1 nut_method = held-3\n" MARK("1", "rod")
                                MARK("2", "slots") MARK("3", "saddle"));
    const struct bench_row *row = bench_row_get(ROW_GAP);
    struct setup held = app->before.setup;

    (void)state;
    assert_int_equal(app_nut_method(app), NUT_HELD_3);
    /* A new pass wants what it expects, before anything is read in it. */
    assert_int_equal(app->now.setup.nut_method, NUT_HELD_3);
    for (int s = 1; s <= 6; s++) {
        const double wanted = assert_given(bench_goal_read(row, &app->record, &held, s));

        assert_true(wanted < 0.25);
        assert_near(expected(app, FIELD_NUT_GAP, s), wanted, 0.06);
    }
    /* Only the way of reading changes: the open gap. */
    bench_press(app, "*o");
    assert_int_equal(app_nut_method(app), NUT_OPEN);
    assert_near(expected(app, FIELD_NUT_GAP, 6), 0.018 * 25.4, 0.12);
    end(app);
}

static void after_a_reset_nothing_is_foretold(void **state)
{
    struct app *app = start(MARK("1", "reset"));

    (void)state;
    for (int i = 0; i < app->route.count; i++)
        assert_false(app_expected(app, &app->route.cells[i]).given);
    end(app);
}

/* A turn takes .008 in; .007 have to go. A quarter is asked for at once, and takes .002. */
static void a_part_of_the_way_is_foretold_as_such(void **state)
{
    struct app *app = start("");
    struct move *rod = &app->before.moves.move[MOVE_ROD];

    (void)state;
    rod->turns = maybe_given(0.875);
    rod->per_turn = maybe_given(-0.008 * 25.4);
    assert_near(expected(app, FIELD_RELIEF, 0), 0.011 * 25.4, 0.001);
    const double whole = assert_given(rod->action_then[6]);
    const double now = assert_given(app->before.moves.action[6].mm);
    assert_near(expected(app, FIELD_ACTION, 6), now + (whole - now) * 2 / 7, 1e-3);
    build_record_add(&app->record, "visit.1.pass.2 rod_turn = .375 turn\n");
    assert_near(expected(app, FIELD_RELIEF, 0), 0.010 * 25.4, 0.001);
    end(app);
}

/* Relief is high, so the rod is tightened: turns typed beside the relief are doubted as those on
 * Work are. */
static void turns_the_other_way_are_doubted_here_too(void **state)
{
    const struct reading_key key = reading_key_pass(FIELD_ROD_TURN, 1, 2);
    struct app *app = start("");

    (void)state;
    app->at = route_find(&app->route, &key);
    assert_true(app->at >= 0);
    bench_press(app, "-1/4");
    assert_int_equal(app->doubt.kind, DOUBT_SIGN);
    bench_press(app, "{Esc}1/4");
    assert_int_equal(app->doubt.kind, DOUBT_NONE);
    end(app);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_first_turn_foretells_by_the_relief_read),
        cmocka_unit_test(what_no_move_could_have_done_is_asked_about),
        cmocka_unit_test(nothing_marked_means_the_rod_alone),
        cmocka_unit_test(marks_say_what_was_done),
        cmocka_unit_test(amounts_that_are_said_are_foretold),
        cmocka_unit_test(turns_that_are_said_are_foretold),
        cmocka_unit_test(a_bare_fraction_of_the_rod_is_understood),
        cmocka_unit_test(a_rod_that_was_left_leaves_the_curve),
        cmocka_unit_test(a_gap_held_down_is_expected_held_down),
        cmocka_unit_test(after_a_reset_nothing_is_foretold),
        cmocka_unit_test(a_part_of_the_way_is_foretold_as_such),
        cmocka_unit_test(turns_the_other_way_are_doubted_here_too),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
