/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "session/app.h"
#include "bench_session.h"
#include "build_record.h"
#include "profile_steps.h"
#include "tree.h"
#include "leaf/history/history_state.h"

/* Taking out passes and visits: the question, the numbers of those that stay, undo, and the
 * file. */

static const char visits[] = "board scale = 24.9 in\nboard strings = 6\nboard frets = 19\n"
                             "board join_fret = 14\n"
                             "visit.1 date = 2026-01-10\n"
                             "visit.1.pass.1 label = as found\nvisit.1.pass.1 time = 10:00\n"
                             "visit.1.pass.1 relief = .013 in\nvisit.1.pass.1 nut_gap.6 = .030 in\n"
                             "visit.1.pass.2 time = 10:30\nvisit.1.pass.2 rod_turn = 1/4 turn\n"
                             "visit.1.pass.2 relief = .010 in\n"
                             "visit.1.pass.3 label = as left\nvisit.1.pass.3 time = 11:00\n"
                             "visit.1.pass.3 relief = .006 in\n"
                             "visit.1.work.1 kind = rod\nvisit.1.work.1 time = 10:20\n"
                             "visit.2 date = 2026-02-20\nvisit.2 humidity = 45\n"
                             "visit.2.pass.1 relief = .008 in\n"
                             "visit.3 date = 2026-03-01\nvisit.3.pass.1 relief = .009 in\n";

/* The history leaf, looking at a pass. */
static struct app *look_at(const char *lines, int visit, int pass)
{
    struct app *app = bench_open(lines, "", LEAF_HISTORY);

    history_state(app)->pass = pass_place_of(visit, pass);
    return app;
}

static void expect_said(const struct app *app, const char *words)
{
    if (!strstr(app->message, words))
        fail_msg("\"%s\" is not said in \"%s\"", words, app->message);
}

static void the_question_says_what_would_go(void **state)
{
    struct app *app = look_at(visits, 1, 2);

    (void)state;
    assert_false(bench_press(app, "z").save);
    expect_said(app, "Visit 1, pass 2: 2 readings. Enter takes it out, Esc leaves it.");
    bench_press(app, "{Esc}");
    history_state(app)->pass.pass = 1;
    bench_press(app, "z");
    expect_said(app, "Visit 1, pass 1, as found: 2 readings.");
    bench_press(app, "{Esc}Z");
    expect_said(app, "Visit 1 of 2026-01-10: 3 passes, 1 work line, 5 readings.");
    bench_close(app);
}

/* Nothing but Enter takes anything out, and what else is pressed does nothing else. */
static void any_other_key_leaves_it(void **state)
{
    static const char *const others[] = {"{Esc}", "z", "x", "q", "{Left}", "{Tab}", "1"};

    (void)state;
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++) {
        struct app *app = look_at(visits, 1, 2);

        bench_press(app, "z");
        const struct app_effects effects = bench_press(app, others[i]);

        assert_false(effects.save || effects.quit);
        assert_int_equal(app->leaf, LEAF_HISTORY);
        expect_said(app, "Left as it is");
        assert_string_equal(bench_text(app, "visit.1.pass.2 relief"), ".010 in");
        bench_close(app);
    }
}

static void the_passes_behind_move_up(void **state)
{
    struct app *app = look_at(visits, 1, 2);

    (void)state;
    assert_true(bench_press(app, "z{Enter}").save);
    assert_int_equal(record_last_pass(&app->record, 1), 2);
    assert_string_equal(bench_text(app, "visit.1.pass.1 relief"), ".013 in");
    assert_string_equal(bench_text(app, "visit.1.pass.2 relief"), ".006 in");
    assert_string_equal(bench_text(app, "visit.1.pass.2 label"), "as left");
    assert_string_equal(bench_text(app, "visit.1.pass.2 time"), "11:00");
    assert_null(bench_text(app, "visit.1.pass.2 rod_turn"));
    /* Work and other visits are as they were. */
    assert_string_equal(bench_text(app, "visit.1.work.1 kind"), "rod");
    assert_string_equal(bench_text(app, "visit.2.pass.1 relief"), ".008 in");
    bench_close(app);
}

static void a_visit_goes_with_all_its_own_and_no_other_changes_its_number(void **state)
{
    struct app *app = look_at(visits, 2, 1);

    (void)state;
    assert_true(bench_press(app, "Z{Enter}").save);
    assert_null(bench_text(app, "visit.2 date"));
    assert_null(bench_text(app, "visit.2.pass.1 relief"));
    assert_string_equal(bench_text(app, "visit.1.pass.3 relief"), ".006 in");
    assert_string_equal(bench_text(app, "visit.3.pass.1 relief"), ".009 in");
    assert_int_equal(app->visit, 3);
    bench_close(app);
}

/* The pass in hand is the one that it was, under its new number, or the one before it. */
static void the_pass_in_hand_follows(void **state)
{
    static const struct {
        int in_hand, out, then;
    } cases[] = {{3, 2, 2}, {3, 3, 2}, {1, 2, 1}, {2, 2, 2}, {1, 1, 1}};

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct app *app = bench_open(visits, "", LEAF_BENCH);

        while (app->visit != 1 || app->pass != cases[i].in_hand)
            bench_press(app, "<");
        bench_press(app, "{F8}");
        history_state(app)->pass = pass_place_of(1, cases[i].out);
        bench_press(app, "z{Enter}");
        assert_int_equal(app->visit, 1);
        assert_int_equal(app->pass, cases[i].then);
        bench_close(app);
    }
}

static void the_last_of_all_leaves_an_empty_bench(void **state)
{
    struct app *app = look_at("board strings = 6\nvisit.1.pass.1 relief = .01 in\n", 1, 1);

    (void)state;
    bench_press(app, "z{Enter}");
    assert_int_equal(record_last_visit(&app->record), 0);
    assert_int_equal(app->visit, 1);
    assert_int_equal(app->pass, 1);
    bench_press(app, "z");
    expect_said(app, "no pass here");
    bench_press(app, "{Home}Z");
    expect_said(app, "nothing to take out");
    bench_close(app);
}

/* A visit that has no pass stands on Intake. */
static void a_visit_without_a_pass_is_taken_out_on_intake(void **state)
{
    struct app *app = bench_open(visits, "", LEAF_BENCH);

    (void)state;
    bench_press(app, "v{F1}{Home}{Down}{Down}{Down}{Down}50{Enter}");
    assert_string_equal(bench_text(app, "visit.4 humidity"), "50 %");
    bench_press(app, "*009");
    expect_said(app, "0 passes, 0 readings.");
    assert_true(bench_press(app, "{Enter}").save);
    assert_null(bench_text(app, "visit.4 humidity"));
    assert_int_equal(app->visit, 3);
    bench_close(app);
}

static void undo_brings_all_back(void **state)
{
    static const char *const ways[] = {"z{Enter}", "Z{Enter}"};

    (void)state;
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        struct app *app = look_at(visits, 1, 2);
        struct record was, out;

        /* A text that would be refused today goes along as it is. */
        build_record_add(&app->record, "visit.1.pass.3 nut_gap.1 = .02 in\n");
        const struct reading_key bad = steps_key("visit.1.pass.3", "nut_gap.1");
        assert_int_not_equal(record_put(&app->record, &bad, "a hair", true, NULL), STATUS_OK);
        assert_int_equal(record_copy(&app->record, &was), STATUS_OK);
        bench_press(app, ways[i]);
        assert_false(record_equal(&app->record, &was));
        assert_int_equal(record_copy(&app->record, &out), STATUS_OK);
        assert_true(bench_press(app, "u").save);
        assert_true(record_equal(&app->record, &was));
        bench_press(app, "r");
        assert_true(record_equal(&app->record, &out));
        record_done(&was);
        record_done(&out);
        bench_close(app);
    }
}

static void a_profile_that_may_only_be_read_is_not_asked_about(void **state)
{
    struct record record;
    struct app *app = malloc(sizeof *app);

    (void)state;
    assert_non_null(app);
    build_record(&record, visits);
    bench_start_record(app, &record, false, true);
    bench_press(app, "{F8}z");
    expect_said(app, "nothing was changed");
    assert_false(bench_press(app, "{Enter}").save);
    bench_close(app);
}

/* What a paste brings along is no answer. */
static void a_paste_answers_nothing(void **state)
{
    struct app *app = look_at(visits, 1, 2);

    (void)state;
    bench_press(app, "z");
    bench_key(app, SILLET_KEY_PASTE_BEGIN);
    bench_press(app, "{Enter}");
    bench_key(app, SILLET_KEY_PASTE_END);
    bench_press(app, "{Esc}");
    assert_string_equal(bench_text(app, "visit.1.pass.2 relief"), ".010 in");
    bench_close(app);
}

/* --- the file --- */

static const char filed[] = "[profile]\nformat = 1\n[board]\nscale = 24.9 in\nstrings = 6\n"
                            "[visit.1]\ndate = 2026-01-10\n"
                            "[visit.1.pass.1]\n; found so\nrelief = .013 in\n"
                            "[visit.1.pass.2]\n; typed by mistake\nrelief = .013 in\n"
                            "of_another_program = kept\n"
                            "[visit.1.pass.3]\nlabel = as left\nrelief = .006 in\n";

static void the_file_says_the_same(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct record record;

    steps_write_whole(path, filed);
    struct profile *profile = steps_open_to_change(path, &record);
    struct app *app = malloc(sizeof *app);
    assert_non_null(app);
    bench_start_record(app, &record, false, false);
    bench_press(app, "{F8}");
    history_state(app)->pass = pass_place_of(1, 2);
    assert_true(bench_press(app, "z{Enter}").save);
    steps_save(profile, &app->record);
    profile_close(profile);
    profile = steps_open(path);
    assert_true(record_equal(profile_record(profile), &app->record));
    assert_int_equal(record_last_pass(&app->record, 1), 2);
    assert_string_equal(bench_text(app, "visit.1.pass.2 label"), "as left");
    profile_close(profile);
    /* Lines that are no readings of ours stay. */
    char *text = tree_read(path, NULL);
    assert_non_null(strstr(text, "; typed by mistake"));
    assert_non_null(strstr(text, "of_another_program = kept"));
    assert_null(strstr(text, "label = as left\nrelief = .013"));
    free(text);
    bench_close(app);
}

static const char in_order[] = "[profile]\nformat = 1\n\n[board]\nscale = 24.9 in\nstrings = 6\n"
                               "\n[visit.1]\ndate = 2026-01-10\n"
                               "\n[visit.1.pass.1]\ntime = 10:00\nrelief = .013 in\n"
                               "\n[visit.1.pass.2]\ntime = 11:00\nrelief = .006 in\n"
                               "\n[visit.1.work.1]\nkind = rod\ntime = 10:20\n"
                               "\n[visit.2]\ndate = 2026-03-10\n"
                               "\n[visit.2.pass.1]\ntime = 9:00\nrelief = .007 in\n\n";

/* What undo brings back is written as it was, byte for byte. */
static void undo_brings_the_file_back(void **state)
{
    static const char *const ways[] = {"z{Enter}", "Z{Enter}"};
    const char *path = tree_path(*state, "b.ini");

    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        struct record record;
        size_t length;

        steps_write_whole(path, in_order);
        struct profile *profile = steps_open_to_change(path, &record);
        struct app *app = malloc(sizeof *app);
        assert_non_null(app);
        steps_save(profile, &record);
        bench_start_record(app, &record, false, false);
        char *before = tree_read(path, &length);
        bench_press(app, "{F8}");
        history_state(app)->pass = pass_place_of(1, 2);
        bench_press(app, ways[i]);
        steps_save(profile, &app->record);
        char *out = tree_read(path, NULL);
        assert_null(strstr(out, "relief = .006 in"));
        bench_press(app, "u");
        steps_save(profile, &app->record);
        tree_assert_holds(path, before, length);
        profile_close(profile);
        free(out);
        free(before);
        bench_close(app);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_question_says_what_would_go),
        cmocka_unit_test(any_other_key_leaves_it),
        cmocka_unit_test(the_passes_behind_move_up),
        cmocka_unit_test(a_visit_goes_with_all_its_own_and_no_other_changes_its_number),
        cmocka_unit_test(the_pass_in_hand_follows),
        cmocka_unit_test(the_last_of_all_leaves_an_empty_bench),
        cmocka_unit_test(a_visit_without_a_pass_is_taken_out_on_intake),
        cmocka_unit_test(undo_brings_all_back),
        cmocka_unit_test(a_profile_that_may_only_be_read_is_not_asked_about),
        cmocka_unit_test(a_paste_answers_nothing),
        cmocka_unit_test_setup_teardown(the_file_says_the_same, tree_setup, tree_teardown),
        cmocka_unit_test_setup_teardown(undo_brings_the_file_back, tree_setup, tree_teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
