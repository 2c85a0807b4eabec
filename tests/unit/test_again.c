/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bench_session.h"
#include "build_record.h"
#include "session/again.h"

/* The last values of cells: where they are offered, where not, and that they are no readings until
 * they are filed. */

/* A guitar that left as it should be. */
static const char left[] =
    "board scale = 24.9 in\nboard strings = 6\nboard frets = 19\nboard join_fret = 14\n"
    "targets relief = .006 in\ntargets action_bass = 6/64 in\ntargets action_treble = 4/64 in\n"
    "targets nut_gap_bass = .018 in\ntargets nut_gap_treble = .012 in\n"
    "visit.1 date = 2026-01-10\n"
    "visit.1.pass.1 time = 11:00\nvisit.1.pass.1 relief = 6 th\n"
    "visit.1.pass.1 nut_gap.6 = .018 in\nvisit.1.pass.1 nut_gap.5 = .017 in\n"
    "visit.1.pass.1 nut_gap.4 = .016 in\nvisit.1.pass.1 nut_gap.3 = .014 in\n"
    "visit.1.pass.1 nut_gap.2 = .013 in\nvisit.1.pass.1 nut_gap.1 = .012 in\n"
    "visit.1.pass.1 action.6 = 6/64 in\nvisit.1.pass.1 action.5 = 5.5/64 in\n"
    "visit.1.pass.1 action.4 = 5/64 in\nvisit.1.pass.1 action.3 = 5/64 in\n"
    "visit.1.pass.1 action.2 = 4.5/64 in\nvisit.1.pass.1 action.1 = 4/64 in\n"
    "visit.1.pass.1 exposure_bass = 4.4 mm\nvisit.1.pass.1 exposure_treble = 4.3 mm\n"
    "visit.1.pass.1 cents.6.12 = 2\n";

static const struct route_cell *cell_of(const struct app *app, enum field_id field, int string)
{
    for (int i = 0; i < app->route.count; i++)
        if (app->route.cells[i].key.field == field &&
            (string == 0 || app->route.cells[i].key.string == string))
            return &app->route.cells[i];
    fail_msg("no such cell");
    return NULL;
}

/* What is offered for a cell; NULL for nothing. */
static const char *offered(const struct app *app, enum field_id field, int string)
{
    const struct reading *last = again_find(app, cell_of(app, field, string));

    return last ? last->text : NULL;
}

static void expect_offered(const struct app *app, bool relief, bool gap, bool action, bool exposure)
{
    assert_int_equal(offered(app, FIELD_RELIEF, 0) != NULL, relief);
    assert_int_equal(offered(app, FIELD_NUT_GAP, 3) != NULL, gap);
    assert_int_equal(offered(app, FIELD_ACTION, 3) != NULL, action);
    assert_int_equal(offered(app, FIELD_EXPOSURE_BASS, 0) != NULL, exposure);
}

static void expect_said(const struct app *app, const char *words)
{
    if (!strstr(app->message, words))
        fail_msg("\"%s\" is not said in \"%s\"", words, app->message);
}

static void enter_files_it_as_it_was_typed(void **state)
{
    struct app *app = bench_open(left, "", LEAF_BENCH);

    (void)state;
    bench_press(app, "v");
    expect_offered(app, true, true, true, true);
    assert_true(bench_press(app, "{Enter}").save);
    assert_string_equal(bench_text(app, "visit.2.pass.1 relief"), "6 th");
    assert_string_equal(bench_text(app, "visit.2 date"), "2026-03-02");
    assert_string_equal(bench_text(app, "visit.2.pass.1 time"), "10:42");
    bench_press(app, "u");
    assert_null(bench_text(app, "visit.2.pass.1 relief"));
    assert_int_equal(record_last_visit(&app->record), 1);
    bench_close(app);
}

/* With all of them on the screen, the record and every figure are those of an empty pass. */
static void no_figure_rests_on_it(void **state)
{
    struct app *app = bench_open(left, "", LEAF_BENCH);
    struct derived nothing;

    (void)state;
    bench_press(app, "v");
    expect_offered(app, true, true, true, true);
    derive_pass(place_of(&app->record, 9, 1), &nothing);
    for (int id = 0; id < FIGURE_COUNT_; id++)
        for (int s = 0; s <= STRINGS_MAX; s++)
            assert_int_equal(app_shown(app)->figures.at[id][s].known,
                             nothing.figures.at[id][s].known);
    assert_int_equal(move_set_verdict(&app_shown(app)->moves), MOVES_MEASURE);
    assert_false(app->previewing);
    bench_close(app);
}

static void other_keys_pass_it(void **state)
{
    static const char *const keys[] = {"{Right}", "{Down}", "{Up}", "{End}", "{Tab}", "{Esc}"};

    (void)state;
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        struct app *app = bench_open(left, "", LEAF_BENCH);

        bench_press(app, "v{Down}");
        assert_false(bench_press(app, keys[i]).save);
        assert_int_equal(record_last_visit(&app->record), 1);
        bench_close(app);
    }
}

static void a_typed_reading_replaces_it(void **state)
{
    struct app *app = bench_open(left, "", LEAF_BENCH);

    (void)state;
    bench_press(app, "v7{Enter}");
    assert_string_equal(bench_text(app, "visit.2.pass.1 relief"), "7 th");
    /* A leaf more is what a hand may read: the neck counts as it was. */
    expect_offered(app, false, true, true, true);
    bench_close(app);
}

static void read_only_is_shown_and_not_filed(void **state)
{
    struct record record;
    struct app *app = malloc(sizeof *app);

    (void)state;
    assert_non_null(app);
    build_record(&record, left);
    build_record_add(&record, "visit.2 date = 2026-02-10\nvisit.2.pass.1 relief = .006 in\n");
    bench_start_record(app, &record, false, true);
    bench_press(app, "{Down}");
    assert_string_equal(offered(app, FIELD_NUT_GAP, 6), ".018 in");
    assert_null(again_in_hand(app));
    assert_false(bench_press(app, "{Enter}s").save);
    assert_null(bench_text(app, "visit.2.pass.1 nut_gap.6"));
    bench_close(app);
}

/* --- where something changed it --- */

static void what_work_changed_is_not_offered(void **state)
{
    static const struct {
        const char *line;
        bool relief, gap, action, exposure;
    } cases[] = {
        {"visit.1.work.1 kind = rod\nvisit.1.work.1 time = 11:30\n", false, false, false, true},
        {"visit.1.work.1 kind = slots\nvisit.1.work.1 time = 11:30\n", true, false, false, true},
        {"visit.1.work.1 kind = saddle\nvisit.1.work.1 time = 11:30\n", true, false, false, false},
        {"visit.1.work.1 kind = reset\nvisit.1.work.1 time = 11:30\n", false, false, false, false},
        {"visit.1.work.1 kind = pitch\nvisit.1.work.1 time = 11:30\n", true, true, true, true},
        {"visit.1.work.1 kind = frets\nvisit.1.work.1 time = 11:30\n", false, false, false, true},
        {"visit.1.work.1 kind = strap button\nvisit.1.work.1 time = 11:30\n", true, true, true,
         true},
        /* It was done before the pass that proved it. */
        {"visit.1.work.1 kind = reset\nvisit.1.work.1 time = 10:30\n", true, true, true, true},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct app *app = bench_open(left, cases[i].line, LEAF_BENCH);

        bench_press(app, "v");
        expect_offered(app, cases[i].relief, cases[i].gap, cases[i].action, cases[i].exposure);
        bench_press(app, "{Esc}");
        bench_close(app);
    }
}

/* Work that names a string leaves the others as they were read. */
static void work_on_one_string_is_asked_of_that_string(void **state)
{
    static const struct {
        const char *kind, *amount;
        bool gap, action; /* of the string that is named are still offered */
    } cases[] = {
        {"slots", "file +-.001 in; string 6 -.008", false, false},
        {"slots", "string 6 -.008 in", false, false},
        {"saddle", "turns +-1/8, + raises; string 6 -1/2", false, false},
        {"saddle", "string 6 -.3 mm", false, false},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char lines[200];

        snprintf(lines, sizeof lines,
                 "bridge kind = screw\nvisit.1.work.1 kind = %s\nvisit.1.work.1 amount = %s\n"
                 "visit.1.work.1 time = 11:30\n",
                 cases[i].kind, cases[i].amount);
        struct app *app = bench_open(left, lines, LEAF_BENCH);
        bench_press(app, "p");
        expect_offered(app, true, true, true, strcmp(cases[i].kind, "slots") == 0);
        assert_int_equal(offered(app, FIELD_NUT_GAP, 6) != NULL, cases[i].gap);
        assert_int_equal(offered(app, FIELD_ACTION, 6) != NULL, cases[i].action);
        bench_close(app);
    }
}

/* Two posts carry the inner strings along, and a shim all of them. */
static void work_on_all_strings_names_none(void **state)
{
    struct app *app = bench_open(left,
                                 "bridge kind = post\nvisit.1.work.1 kind = saddle\n"
                                 "visit.1.work.1 amount = string 6 -1/2, 1 -1/2 turns\n"
                                 "visit.1.work.1 time = 11:30\n",
                                 LEAF_BENCH);

    (void)state;
    bench_press(app, "p");
    expect_offered(app, true, false, false, false);
    bench_close(app);
    app = bench_open(left,
                     "visit.1.work.1 kind = slots\nvisit.1.work.1 amount = raise the nut, shim "
                     "+.010 in, or a new one; string 6 +.010\nvisit.1.work.1 time = 11:30\n",
                     LEAF_BENCH);
    bench_press(app, "p");
    expect_offered(app, true, false, false, true);
    bench_close(app);
}

/* One slot is high: it alone is filed, read again and asked for. */
static void one_slot_is_one_string_s_work(void **state)
{
    struct app *app = bench_open(left, "visit.1.pass.1 nut_gap.6 = .024 in\n", LEAF_BENCH);

    (void)state;
    assert_int_equal(app->now.moves.move[MOVE_SLOTS].state, MOVE_DUE);
    bench_press(app, "{F7} {F2}p");
    assert_string_equal(bench_text(app, "visit.1.work.1 kind"), "slots");
    expect_offered(app, true, true, true, true);
    assert_null(offered(app, FIELD_NUT_GAP, 6));
    assert_null(offered(app, FIELD_ACTION, 6));
    bench_press(app, "{Enter}");
    assert_int_equal(app->now.moves.move[MOVE_SLOTS].state, MOVE_UNKNOWN);
    assert_string_equal(app->moves[MOVE_SLOTS].amount,
                        "may have moved: read the nut gap of string 6 again");
    bench_press(app, "18{Enter}{Left}{Down}6{Enter}");
    assert_non_null(bench_text(app, "visit.1.pass.2 action.6"));
    assert_null(bench_text(app, "visit.1.pass.2 action.5"));
    assert_int_equal(app->now.moves.move[MOVE_SLOTS].state, MOVE_GOOD);
    assert_int_equal(app->now.moves.move[MOVE_SADDLE].state, MOVE_GOOD);
    assert_int_equal(move_set_verdict(&app->now.moves), MOVES_READY);
    bench_press(app, "{End}{Enter}");
    expect_said(app, "all cells done; nothing is due: it can go back");
    bench_close(app);
}

static void work_in_later_visits_counts_too(void **state)
{
    struct app *app = bench_open(left,
                                 "visit.2 date = 2026-02-01\nvisit.2.work.1 kind = saddle\n"
                                 "visit.3 date = 2026-02-10\nvisit.3.pass.1 relief = .006 in\n"
                                 "visit.3.pass.2 rod_turn = 0 turn\n",
                                 LEAF_BENCH);

    (void)state;
    expect_offered(app, false, false, false, false);
    bench_close(app);
    app = bench_open(left,
                     "visit.2 date = 2026-02-01\nvisit.2.pass.1 label = as found\n"
                     "visit.2.pass.1 relief = .006 in\nvisit.2.pass.2 rod_turn = 1/4 turn\n"
                     "visit.3 date = 2026-02-10\nvisit.3.pass.1 note = x\n",
                     LEAF_BENCH);
    expect_offered(app, false, false, false, true);
    bench_close(app);
}

static void a_moved_neck_moved_its_strings(void **state)
{
    struct app *app = bench_open(left, "", LEAF_BENCH);

    (void)state;
    bench_press(app, "v8{Enter}");
    assert_string_equal(bench_text(app, "visit.2.pass.1 relief"), "8 th");
    expect_offered(app, false, false, false, true);
    bench_close(app);
}

static void gaps_read_another_way_are_not_offered(void **state)
{
    struct app *app = bench_open(left, "visit.1.pass.1 nut_method = held-3\n", LEAF_BENCH);

    (void)state;
    bench_press(app, "v");
    expect_offered(app, true, false, true, true);
    bench_press(app, "*8");
    expect_offered(app, true, true, true, true);
    bench_close(app);
}

/* After a move that is due or marked, the next pass shows what to expect, and Enter goes on. */
static void what_is_due_is_expected_and_not_offered(void **state)
{
    struct app *app = bench_open(left, "visit.1.pass.1 relief = .013 in\n", LEAF_BENCH);

    (void)state;
    bench_press(app, "p");
    expect_offered(app, false, false, false, false);
    assert_false(bench_press(app, "{Enter}").save);
    assert_int_equal(app->at, 1 + app->route.cells[1].aside);
    bench_close(app);
}

static void cents_are_offered_on_pitch(void **state)
{
    struct app *app = bench_open(left, "", LEAF_BENCH);

    (void)state;
    bench_press(app, "v{F4}");
    assert_true(bench_press(app, "{Enter}").save);
    assert_string_equal(bench_text(app, "visit.2.pass.1 cents.6.12"), "2 cents");
    assert_false(bench_press(app, "{Enter}").save); /* string 5 has none */
    bench_close(app);
    app =
        bench_open(left, "visit.1.work.1 kind = pitch\nvisit.1.work.1 time = 11:30\n", LEAF_BENCH);
    bench_press(app, "v{F4}");
    assert_null(again_in_hand(app));
    bench_close(app);
}

/* --- a row --- */

static void a_row_is_one_step_of_undo(void **state)
{
    struct app *app = bench_open(left, "", LEAF_BENCH);

    (void)state;
    bench_press(app, "v{Enter}{Right}20{Enter}");
    assert_string_equal(bench_text(app, "visit.2.pass.1 nut_gap.5"), "20 th");
    bench_press(app, "s");
    expect_said(app, "5 readings filed as they were");
    assert_string_equal(bench_text(app, "visit.2.pass.1 nut_gap.5"), "20 th");
    assert_string_equal(bench_text(app, "visit.2.pass.1 nut_gap.6"), ".018 in");
    assert_string_equal(bench_text(app, "visit.2.pass.1 nut_gap.1"), ".012 in");
    assert_int_equal(app_cell(app)->key.field, FIELD_ACTION);
    bench_press(app, "u");
    assert_null(bench_text(app, "visit.2.pass.1 nut_gap.6"));
    assert_null(bench_text(app, "visit.2.pass.1 nut_gap.1"));
    assert_string_equal(bench_text(app, "visit.2.pass.1 nut_gap.5"), "20 th");
    bench_close(app);
}

static void a_row_is_refused(void **state)
{
    static const struct {
        const char *more, *keys, *said;
    } cases[] = {
        {"", "v{Up}s", "The relief is filed by itself"},
        {"", "v{Down}s", "Read the relief first"},
        {"", "v8{Enter}s", "no last value in this row"},
        {"visit.1.work.1 kind = refret\nvisit.1.work.1 time = 11:30\n", "v{Enter}s",
         "Work of your own was logged since"},
        {"", "v{Enter}1*9", "Enter takes what is typed"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct app *app = bench_open(left, cases[i].more, LEAF_BENCH);

        bench_press(app, cases[i].keys);
        expect_said(app, cases[i].said);
        assert_null(bench_text(app, "visit.2.pass.1 nut_gap.3"));
        bench_close(app);
    }
}

/* What was doubted when it was typed is doubted again, and no row takes it along. */
static void an_unusual_one_is_asked_about(void **state)
{
    static const char odd[] = "visit.1.pass.1 nut_gap.4 = .034 in\n";
    struct app *app = bench_open(left, odd, LEAF_BENCH);

    (void)state;
    bench_press(app, "v{Enter}s");
    expect_said(app, "5 readings filed as they were; this one is unusual: look again.");
    assert_null(bench_text(app, "visit.2.pass.1 nut_gap.4"));
    assert_int_equal(app_cell(app)->key.string, 4);
    assert_false(bench_press(app, "{Enter}").save);
    expect_said(app, "Held: ");
    assert_null(bench_text(app, "visit.2.pass.1 nut_gap.4"));
    assert_true(bench_press(app, "{Enter}").save);
    assert_string_equal(bench_text(app, "visit.2.pass.1 nut_gap.4"), ".034 in");
    bench_close(app);
}

/* --- the visit's earlier passes hold --- */

static void a_tuner_asks_for_no_height_again(void **state)
{
    struct app *app = bench_open(left, "", LEAF_BENCH);

    (void)state;
    assert_int_equal(move_set_verdict(&app->now.moves), MOVES_READY);
    bench_press(app, "p{F4}1{Enter}");
    assert_string_equal(bench_text(app, "visit.1.pass.2 cents.6.12"), "1 cents");
    assert_int_equal(move_set_verdict(&app->now.moves), MOVES_READY);
    assert_int_equal(app->now.moves.move[MOVE_RESET].state, MOVE_GOOD);
    bench_close(app);
    /* What was worked on since has to be read all the same. */
    app =
        bench_open(left, "visit.1.work.1 kind = slots\nvisit.1.work.1 time = 11:30\n", LEAF_BENCH);
    bench_press(app, "p{F4}1{Enter}");
    assert_int_equal(app->now.moves.move[MOVE_SLOTS].state, MOVE_UNKNOWN);
    assert_int_equal(move_set_verdict(&app->now.moves), MOVES_MEASURE);
    bench_close(app);
    /* And a saddle that was lowered may have too little left. */
    app =
        bench_open(left, "visit.1.work.1 kind = saddle\nvisit.1.work.1 time = 11:30\n", LEAF_BENCH);
    bench_press(app, "p{F4}1{Enter}");
    assert_int_equal(app->now.moves.move[MOVE_RESET].state, MOVE_UNKNOWN);
    bench_close(app);
}

static void the_pass_ends_without_what_still_holds(void **state)
{
    struct app *app = bench_open(left, "", LEAF_BENCH);

    (void)state;
    bench_press(app, "p{Enter}{End}{Enter}");
    expect_said(app, "all cells done; nothing is due: it can go back");
    assert_null(bench_text(app, "visit.1.pass.2 action.3"));
    bench_close(app);
}

/* Bench, at the pass's end, says what the verdict says, which Work, shelf and sheet spell. */
static void expect_end(struct app *app, enum move_verdict verdict, const char *words)
{
    bench_press(app, "{F2}{End}{Enter}");
    expect_said(app, words);
    assert_int_equal(move_set_verdict(&app->now.moves), verdict);
}

/* A gap that fits no other was confirmed, and the next passes read something else: it is asked for
 * in all of them, until it is read. */
static void what_is_questioned_is_asked_for_until_it_is_read(void **state)
{
    struct app *app = bench_open(left, "visit.1.pass.1 nut_gap.4 = .034 in\n", LEAF_BENCH);

    (void)state;
    assert_int_equal(move_set_verdict(&app->now.moves), MOVES_MEASURE);
    for (int pass = 2; pass <= 3; pass++) {
        bench_press(app, "p6{Enter}");
        assert_int_equal(app->pass, pass);
        assert_null(offered(app, FIELD_NUT_GAP, 4));
        expect_end(app, MOVES_MEASURE, "Not read yet: nut gap, string 4");
        assert_int_equal(app_cell(app)->key.string, 4);
    }
    bench_press(app, "16{Enter}");
    assert_string_equal(bench_text(app, "visit.1.pass.3 nut_gap.4"), "16 th");
    expect_end(app, MOVES_READY, "all cells done; nothing is due: it can go back");
    bench_close(app);
}

/* A relief that reads a little otherwise, within its tolerance, or a change to gaps held down, asks
 * for nothing of the strings. */
static void the_pass_s_end_asks_for_no_more_than_the_verdict(void **state)
{
    struct app *app = bench_open(left,
                                 "visit.1.pass.2 time = 12:00\n"
                                 "visit.1.pass.2 relief = 7.3 th\n",
                                 LEAF_BENCH);

    (void)state;
    assert_null(offered(app, FIELD_NUT_GAP, 3));
    expect_end(app, MOVES_READY, "all cells done; nothing is due: it can go back");
    bench_close(app);
    app = bench_open(left,
                     "visit.1.pass.2 time = 12:00\nvisit.1.pass.2 nut_method = held-3\n"
                     "visit.1.pass.2 relief = 6 th\n",
                     LEAF_BENCH);
    assert_null(offered(app, FIELD_NUT_GAP, 3));
    expect_end(app, MOVES_READY, "all cells done; nothing is due: it can go back");
    bench_close(app);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(enter_files_it_as_it_was_typed),
        cmocka_unit_test(no_figure_rests_on_it),
        cmocka_unit_test(other_keys_pass_it),
        cmocka_unit_test(a_typed_reading_replaces_it),
        cmocka_unit_test(read_only_is_shown_and_not_filed),
        cmocka_unit_test(what_work_changed_is_not_offered),
        cmocka_unit_test(work_on_one_string_is_asked_of_that_string),
        cmocka_unit_test(work_on_all_strings_names_none),
        cmocka_unit_test(one_slot_is_one_string_s_work),
        cmocka_unit_test(work_in_later_visits_counts_too),
        cmocka_unit_test(a_moved_neck_moved_its_strings),
        cmocka_unit_test(gaps_read_another_way_are_not_offered),
        cmocka_unit_test(what_is_due_is_expected_and_not_offered),
        cmocka_unit_test(cents_are_offered_on_pitch),
        cmocka_unit_test(a_row_is_one_step_of_undo),
        cmocka_unit_test(a_row_is_refused),
        cmocka_unit_test(an_unusual_one_is_asked_about),
        cmocka_unit_test(a_tuner_asks_for_no_height_again),
        cmocka_unit_test(the_pass_ends_without_what_still_holds),
        cmocka_unit_test(what_is_questioned_is_asked_for_until_it_is_read),
        cmocka_unit_test(the_pass_s_end_asks_for_no_more_than_the_verdict),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
