/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <string.h>

#include "bench_session.h"
#include "model/reading/record_access.h"
#include "session/app.h"
#include "session/hand_over.h"

/* When a job is promised, and handed over. The clock of these sessions stands at 2 March 2026. */

static const char job[] = "board scale = 24.9 in\nboard strings = 6\nboard frets = 19\n"
                          "board join_fret = 14\n"
                          "visit.1 date = 2026-03-01\nvisit.1.pass.1 relief = .013 in\n";

#define RELIEF_WANTED "targets relief = .006 in\ntargets relief_tolerance = .001 in\n"

#define ACTIONS                                                                                    \
    "visit.1.pass.1 action.6 = 6/64 in\nvisit.1.pass.1 action.5 = 6/64 in\n"                       \
    "visit.1.pass.1 action.4 = 6/64 in\nvisit.1.pass.1 action.2 = 5/64 in\n"                       \
    "visit.1.pass.1 action.1 = 5/64 in\n"

#define SADDLE_CUT "visit.1.work.1 kind = saddle\nvisit.1.work.1 time = 10:00\n"

static const char *of_visit(const struct app *app, enum field_id field)
{
    const struct reading_key key = reading_key_visit(field, 1);
    const char *text = record_text(&app->record, &key);

    return text ? text : "";
}

static void expect_said(const struct app *app, const char *words)
{
    if (!strstr(app->message, words))
        fail_msg("\"%s\" is not said in \"%s\"", words, app->message);
}

static void go_to(struct app *app, enum field_id field)
{
    for (app->at = 0; app_cell(app) && app_cell(app)->key.field != field;)
        app->at++;
    assert_non_null(app_cell(app));
}

/* From the number pad: a week from today. */
static void promised_is_typed_in_days(void **state)
{
    struct app *app = bench_open(job, "", LEAF_INTAKE);

    (void)state;
    go_to(app, FIELD_VISIT_PROMISED);
    bench_press(app, "7");
    assert_string_equal(app->entry_view.words, "Monday, 9 March 2026");
    bench_press(app, "{Enter}");
    assert_string_equal(of_visit(app, FIELD_VISIT_PROMISED), "2026-03-09");
    bench_close(app);
}

/* A visit that is written down later: the clock stands at March. */
static void a_promise_without_a_year_goes_by_the_visit(void **state)
{
    struct app *app = bench_open(job, "visit.1 date = 2025-09-25\n", LEAF_INTAKE);

    (void)state;
    go_to(app, FIELD_VISIT_PROMISED);
    bench_press(app, "1.10.{Enter}");
    assert_string_equal(of_visit(app, FIELD_VISIT_PROMISED), "2025-10-01");
    bench_close(app);
}

static void what_is_promised_too_early_is_asked_about(void **state)
{
    struct app *app = bench_open(job, "", LEAF_INTAKE);

    (void)state;
    go_to(app, FIELD_VISIT_PROMISED);
    bench_press(app, "-2{Enter}");
    assert_string_equal(of_visit(app, FIELD_VISIT_PROMISED), "");
    assert_non_null(strstr(app->doubt_words, "2026-02-28 is before the day of the visit"));
    bench_press(app, "{Enter}");
    assert_string_equal(of_visit(app, FIELD_VISIT_PROMISED), "2026-02-28");
    bench_close(app);
}

static void handing_over_is_one_step(void **state)
{
    static const enum leaf leaves[] = {LEAF_INTAKE, LEAF_BENCH, LEAF_WORK};

    (void)state;
    for (size_t i = 0; i < sizeof leaves / sizeof leaves[0]; i++) {
        struct app *app = bench_open(job, "", leaves[i]);
        const struct app_effects effects = bench_press(app, "*003");

        assert_true(effects.save);
        assert_int_equal(effects.paper, PAPER_HANDED_OVER);
        assert_string_equal(of_visit(app, FIELD_VISIT_HANDED_OVER), "2026-03-02");
        assert_false(hand_over_can(app));
        bench_press(app, "*1");
        assert_string_equal(of_visit(app, FIELD_VISIT_HANDED_OVER), "");
        assert_true(hand_over_can(app));
        bench_close(app);
    }
}

static void what_cannot_be_handed_over_is_not_offered(void **state)
{
    struct app *app = bench_open("board scale = 24.9 in\n", "", LEAF_WORK);
    struct turn turn = {.app = app};

    (void)state;
    assert_false(hand_over_can(app));
    hand_over_do(&turn);
    expect_said(app, "Nothing of this visit is on file yet.");
    assert_int_equal(turn.effects.paper, PAPER_NONE);
    bench_close(app);
}

/* A reset or a saddle cut may be forgotten; what was decided is kept with one more key. */
static void work_that_is_left_is_asked_about(void **state)
{
    static const char *const jobs[][2] = {
        {RELIEF_WANTED, "1 move due: rod"},
        {RELIEF_WANTED "visit.1.work.1 kind = rod\nvisit.1.work.1 time = 23:00\n",
         "not measured since the work: rod"},
        {"visit.1.pass.1 action.6 = 6/64 in\n",
         "5 cells not read: action, string 5 at fret 12 and"},
        {ACTIONS, "1 cell not read: action, string 3 at fret 12. Hand"},
        {ACTIONS "visit.1.pass.1 action.3 = 5/64 in\nvisit.1.pass.1 time = 09:00\n" SADDLE_CUT
                 "visit.1.pass.2 relief = .013 in\nvisit.1.pass.2 time = 11:00\n"
                 "visit.1.pass.2 action.6 = 5/64 in\n",
         "5 cells not read: action, string 5"},
        {ACTIONS "visit.1.pass.1 action.3 = 5/64 in\nvisit.1.pass.1 time = 09:00\n"
                 "visit.1.pass.1 cents.6.12 = 9\n" SADDLE_CUT
                 "visit.1.pass.2 time = 11:00\nvisit.1.pass.2 action.6 = 5/64 in\n"
                 "visit.1.pass.2 action.5 = 5/64 in\nvisit.1.pass.2 action.4 = 5/64 in\n"
                 "visit.1.pass.2 action.3 = 5/64 in\nvisit.1.pass.2 action.2 = 5/64 in\n"
                 "visit.1.pass.2 action.1 = 5/64 in\n",
         "not heard or tuned since the work: pitch. Hand"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof jobs / sizeof jobs[0]; i++) {
        struct app *app = bench_open(job, jobs[i][0], LEAF_WORK);
        struct app_effects effects = bench_press(app, "*003");

        assert_false(effects.save);
        assert_int_equal(effects.paper, PAPER_NONE);
        expect_said(app, jobs[i][1]);
        bench_press(app, "{Esc}");
        assert_string_equal(of_visit(app, FIELD_VISIT_HANDED_OVER), "");
        bench_press(app, "*003");
        effects = bench_press(app, "{Enter}");
        assert_int_equal(effects.paper, PAPER_HANDED_OVER);
        assert_string_equal(of_visit(app, FIELD_VISIT_HANDED_OVER), "2026-03-02");
        bench_close(app);
    }
}

/* All rows that were begun are read, or still hold: of the second pass the relief alone is new. */
static void what_was_read_is_not_asked_for(void **state)
{
    struct app *app = bench_open(job,
                                 ACTIONS "visit.1.pass.1 action.3 = 5/64 in\n"
                                         "visit.1.pass.1 time = 09:00\n"
                                         "visit.1.pass.2 relief = .013 in\n",
                                 LEAF_WORK);

    (void)state;
    assert_int_equal(bench_press(app, "*003").paper, PAPER_HANDED_OVER);
    bench_close(app);
}

/* The next number is offered where the shop has numbered tickets, on the shelf or in the record,
 * and Enter files it; nothing is filed in a shop that has none. */
static void the_next_ticket_is_offered(void **state)
{
    struct app *app = bench_open(job, "", LEAF_INTAKE);
    const struct ticket shelf = {.number = 1043, .digits = 4};

    (void)state;
    go_to(app, FIELD_VISIT_TICKET);
    bench_press(app, "{Enter}");
    assert_string_equal(of_visit(app, FIELD_VISIT_TICKET), "");
    app_take_ticket(app, &shelf);
    go_to(app, FIELD_VISIT_TICKET);
    assert_true(bench_press(app, "{Enter}").save);
    assert_string_equal(of_visit(app, FIELD_VISIT_TICKET), "1044");
    assert_string_equal(app->ticket_text, "1045");
    bench_close(app);
    app = bench_open(job, "visit.1 ticket = 77\nvisit.2 date = 2026-03-01\n", LEAF_INTAKE);
    assert_string_equal(app->ticket_text, "78");
    bench_close(app);
    app = bench_open(job, "visit.1 ticket = A-0123\n", LEAF_INTAKE);
    bench_press(app, "*.4");
    go_to(app, FIELD_VISIT_TICKET);
    assert_true(bench_press(app, "{Enter}").save);
    assert_string_equal(bench_text(app, "visit.2 ticket"), "A-0124");
    bench_close(app);
    app = bench_open(job, "visit.1 ticket = blue tag\n", LEAF_INTAKE);
    assert_string_equal(app->ticket_text, "");
    bench_close(app);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(promised_is_typed_in_days),
        cmocka_unit_test(a_promise_without_a_year_goes_by_the_visit),
        cmocka_unit_test(what_is_promised_too_early_is_asked_about),
        cmocka_unit_test(handing_over_is_one_step),
        cmocka_unit_test(work_that_is_left_is_asked_about),
        cmocka_unit_test(what_was_read_is_not_asked_for),
        cmocka_unit_test(the_next_ticket_is_offered),
        cmocka_unit_test(what_cannot_be_handed_over_is_not_offered),
    };

    return cmocka_run_group_tests_name("hand_over", tests, NULL, NULL) ? 1 : 0;
}
