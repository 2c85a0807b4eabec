/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bench_session.h"
#include "build_record.h"
#include "leaf/jobs/work_list.h"
#include "session/change.h"
#include "survey_record.h"

/* Setbacks as they are read in a pass, and as they are expected once a saddle was moved. */

#define ABSENT ((double)NAN)

static const char lines[] = "string.6 setback = 3 mm\nstring.5 setback = 2.5 mm\n"
                            "string.1 setback = 1.5 mm\n"
                            "visit.1 date = 2026-01-10\nvisit.1.pass.1 time = 10:00\n"
                            "visit.1.pass.1 cents.6.12 = 8\nvisit.1.pass.2 time = 11:00\n"
                            "visit.1.pass.2 cents.6.12 = 1\nvisit.2 date = 2026-02-10\n"
                            "visit.2.pass.1 time = 09:00\nvisit.2.pass.1 cents.6.12 = 2\n";

static void build(struct record *ret_record, const char *more)
{
    build_record(ret_record, build_record_full);
    build_record_add(ret_record, lines);
    build_record_add(ret_record, more);
}

static struct setback find_at(const struct record *record, int visit, int pass, int string)
{
    const struct place place = place_of(record, visit, pass);
    struct findings unused = {.count = 0};
    struct setup setup;

    setup_read(&setup, place, &unused);
    assert_true(setup.has_board);
    /* What all is worked out with. */
    assert_near(setup.board.contact_mm[string] - setup.board.scale_mm[string],
                setup.setback[string].about_mm, 1e-9);
    return setup.setback[string];
}

static void expect_at(const struct record *record, int visit, int pass, int string, double mm)
{
    const struct setback setback = find_at(record, visit, pass, string);

    assert_near(assert_given(setback.mm), mm, 1e-9);
    assert_false(setback.is_expected);
}

static void each_pass_has_the_last_that_was_said(void **state)
{
    struct record record;

    (void)state;
    build(&record, "visit.1.pass.2 setback.6 = 5 mm\nvisit.1.pass.3 relief = .01 in\n"
                   "visit.2.string.5 setback = 2.9 mm\nvisit.2.pass.2 setback.5 = 3.3 mm\n"
                   "visit.3.string.6 setback = absent\nvisit.3.pass.1 relief = .01 in\n"
                   "visit.3.pass.2 setback.6 = 4 mm\nvisit.4.pass.1 relief = .01 in\n");
    expect_at(&record, 1, 1, 6, 3);
    expect_at(&record, 1, 2, 6, 5);
    expect_at(&record, 1, 3, 6, 5);
    expect_at(&record, 2, 1, 6, 5);
    assert_false(find_at(&record, 3, 1, 6).mm.given);
    expect_at(&record, 3, 2, 6, 4);
    expect_at(&record, 4, 1, 6, 4);
    expect_at(&record, 1, 3, 5, 2.5);
    expect_at(&record, 2, 1, 5, 2.9);
    expect_at(&record, 2, 2, 5, 3.3);
    expect_at(&record, 4, 1, 5, 3.3);
    expect_at(&record, 4, 1, 1, 1.5);
    record_done(&record);
}

/* --- what is worked out with it --- */

/* On its targets in every pass that is named, with strings, so that only the tuner asks. */
static const char heights[] = "relief = .006 in\nnut_gap.1 = .012 in\nnut_gap.2 = .0132 in\n"
                              "nut_gap.3 = .0144 in\nnut_gap.4 = .0156 in\nnut_gap.5 = .0168 in\n"
                              "nut_gap.6 = .018 in\naction.1 = 4/64 in\naction.2 = 4.4/64 in\n"
                              "action.3 = 4.8/64 in\naction.4 = 5.2/64 in\naction.5 = 5.6/64 in\n"
                              "action.6 = 6/64 in\nexposure_bass = 5 mm\nexposure_treble = 5 mm\n";

static void add_heights(struct strbuf *out, int visit, int pass)
{
    for (const char *line = heights; *line; line += strcspn(line, "\n") + 1) {
        strbuf_addf(out, "visit.%d.pass.%d ", visit, pass);
        strbuf_add_bytes(out, line, strcspn(line, "\n") + 1);
    }
}

static void build_played(struct record *ret_record, int passes, const char *more)
{
    char memory[4000];
    struct strbuf text = STRBUF(memory);

    survey_record_build(ret_record, more);
    for (int pass = 1; pass <= passes; pass++)
        add_heights(&text, 1, pass);
    build_record_add(ret_record, memory);
}

/* Whatever is read later, a pass is worked out with what was. */
static void cents_are_judged_by_their_own_setback(void **state)
{
    static const enum figure_id figures[] = {FIGURE_SETBACK_CHANGE, FIGURE_SETBACK_PREDICTED,
                                             FIGURE_TENSION, FIGURE_ACTION};
    struct derived before[2], after[2];
    struct record record;

    (void)state;
    build_played(&record, 2,
                 "string.6 setback = 3 mm\nvisit.1.pass.1 cents.6.12 = 8\n"
                 "visit.1.pass.2 cents.6.12 = 1\n");
    derive_pass(place_of(&record, 1, 1), &before[0]);
    derive_pass(place_of(&record, 1, 2), &before[1]);
    build_record_add(&record, "visit.1.pass.2 setback.6 = 9 mm\n");
    derive_pass(place_of(&record, 1, 1), &after[0]);
    derive_pass(place_of(&record, 1, 2), &after[1]);
    for (size_t i = 0; i < sizeof figures / sizeof figures[0]; i++) {
        const struct maybe was = figures_get(&before[0].figures, figures[i], 6);
        const struct maybe is = figures_get(&after[0].figures, figures[i], 6);

        assert_int_equal(was.given, is.given);
        assert_true(!was.given || was.value == is.value);
    }
    for (int n = 1; n <= 19; n++)
        assert_true(before[0].pitch[6].cents[n].value == after[0].pitch[6].cents[n].value);
    /* 6 mm farther back every fretted note is flatter, at fret 12 by the half of it that is left:
     * 1200/ln 2 * 6/L, of 24.9 in. */
    assert_near(before[1].pitch[6].cents[12].value - after[1].pitch[6].cents[12].value,
                1200 / log(2) * 6 / (24.9 * 25.4), 0.6);
    assert_near(assert_given(figures_get(&after[1].figures, FIGURE_SETBACK_CHANGE, 6)),
                (24.9 * 25.4 / 2 + 9) * 2 * log(2) / 1200, 0.05);
    record_done(&record);
}

static struct setback after_line(const char *kind, const char *amount, const char *more, int string)
{
    char memory[600];
    struct strbuf text = STRBUF(memory);
    struct record record;

    build(&record, more);
    strbuf_addf(&text,
                "visit.1.pass.1 setback.6 = 3 mm\nvisit.1.pass.1 setback.5 = 2 mm\n"
                "visit.1.pass.1 setback.1 = 1 mm\nvisit.1.work.1 kind = %s\n"
                "visit.1.work.1 time = 10:30\n",
                kind);
    if (amount)
        strbuf_addf(&text, "visit.1.work.1 amount = \"%s\"\n", amount);
    build_record_add(&record, memory);
    const struct setback found = find_at(&record, 1, 2, string);
    const struct setback later = find_at(&record, 2, 1, string);
    /* The pass before the work has what it read. */
    assert_near(assert_given(find_at(&record, 1, 1, 6).mm), 3, 1e-12);
    assert_int_equal(later.is_expected, found.is_expected);
    assert_near(later.about_mm, found.about_mm, 1e-12);
    record_done(&record);
    return found;
}

static void a_logged_move_gives_what_to_expect(void **state)
{
    static const struct {
        const char *amount, *more;
        double mm[3]; /* strings 6, 5, 1; NAN for not known */
    } cases[] = {
        {"saddle: string 6 back 2.2 mm", "", {5.2, 2, 1}},
        {"saddle: string 6 back 2.2, 5 forward .5 mm", "", {5.2, 1.5, 1}},
        {"string 6 back .1, 5 .05 in", "", {5.54, 3.27, 1}},
        {"string 6 +1, string 1 -0.25 mm", "", {4, 2, .75}},
        {"string 6 back 1/2, 1 forward 1 turns",
         "bridge intonation_thread = .5 mm\n",
         {3.25, 2, .5}},
        {"string 6 back 1/2 turn", "", {ABSENT, 2, 1}},
        {"bridge back 1 mm", "bridge floating = yes\n", {4, 3, 2}},
        {"bridge: bass back 1, treble forward 0.5 mm", "bridge floating = yes\n", {4, 2.7, .5}},
        {"back a little", "", {ABSENT, ABSENT, ABSENT}},
        {"back 1 mm", "", {ABSENT, ABSENT, ABSENT}}, /* nobody says on which string */
        {NULL, "", {ABSENT, ABSENT, ABSENT}},
    };
    static const int strings[] = {6, 5, 1};

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++)
        for (int k = 0; k < 3; k++) {
            const struct setback found =
                after_line("pitch", cases[i].amount, cases[i].more, strings[k]);
            const double wanted = cases[i].mm[k], read[] = {3, 2, 1};

            if (isnan(wanted) ? found.mm.given
                              : !found.mm.given || !near_is(found.mm.value, wanted, 1e-9))
                fail_msg("\"%s\" on string %d: %g", cases[i].amount ? cases[i].amount : "",
                         strings[k], found.mm.value);
            assert_int_equal(found.is_expected, !(wanted == read[k]));
            assert_near(found.about_mm, isnan(wanted) ? read[k] : wanted, 1e-9);
        }
    /* Other work moves no contact. */
    assert_false(after_line("saddle", "-1 mm", "", 6).is_expected);
    assert_false(after_line("slots", "string 6 -.1 mm", "", 6).is_expected);
}

static double doubt_of(const char *more)
{
    struct derived derived;
    struct record record;

    build_played(&record, 2, more);
    derive_pass(place_of(&record, 1, 2), &derived);
    derive_predicted_u(place_of(&record, 1, 2), &derived);
    record_done(&record);
    return derived.pitch[6].cents_u[12];
}

/* What is expected is less sure than what is read. */
static void its_doubt_is_that_of_a_hand(void **state)
{
    static const char read[] = "visit.1.pass.1 time = 10:00\nvisit.1.pass.1 setback.6 = 3 mm\n"
                               "visit.1.pass.2 time = 11:00\nvisit.1.pass.2 cents.6.12 = 1\n";
    static const char moved[] = "visit.1.work.1 kind = pitch\nvisit.1.work.1 time = 10:30\n"
                                "visit.1.work.1 amount = string 6 back 0.1 mm\n";
    char memory[600];
    struct strbuf both = STRBUF(memory);

    (void)state;
    strbuf_add(&both, read);
    const double sure = doubt_of(memory);
    strbuf_add(&both, moved);
    const double expected = doubt_of(memory);

    assert_true(sure > 0);
    assert_true(expected > sure * 1.001);
    strbuf_add(&both, "visit.1.pass.2 setback.6 = 3.1 mm\n");
    assert_near(doubt_of(memory), sure, sure / 200);
}

/* From a setback that no pass read nothing is expected: it may be of before or after the move. */
static void an_old_file_says_what_it_said(void **state)
{
    static const char moved[] = "visit.1.work.1 kind = pitch\nvisit.1.work.1 time = 10:30\n"
                                "visit.1.work.1 amount = saddle: string 6 back 2 mm\n";
    struct record record;

    (void)state;
    build(&record, moved);
    expect_at(&record, 1, 2, 6, 3);
    expect_at(&record, 2, 1, 6, 3);
    record_done(&record);
}

static void a_bad_one_is_kept_and_not_used(void **state)
{
    static const char *const bad[] = {"nan", "1e999 mm", "-inf mm", "3", "81 mm", "%1B[2J", ""};

    (void)state;
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        const struct reading_key key = reading_key_pass_at(FIELD_SETBACK_READ, 1, 2, 6, 0);
        struct record record;

        build(&record, "");
        (void)record_put(&record, &key, bad[i], true, NULL);
        assert_string_equal(record_text(&record, &key), bad[i]);
        expect_at(&record, 1, 1, 6, 3);
        const struct setback found = find_at(&record, 1, 2, 6);
        assert_false(found.mm.given);
        assert_near(found.about_mm, 0, 0);
        assert_true(record_remove(&record, &key));
        expect_at(&record, 1, 2, 6, 3);
        record_done(&record);
    }
}

/* A course is read on its first string, a string with its own by itself. */
static void a_course_moves_as_one(void **state)
{
    struct record record;

    (void)state;
    build(&record, "board courses = 3\nvisit.1.pass.2 setback.5 = 4 mm\n"
                   "visit.2.pass.1 setback.4 = 6 mm\n");
    build_record_drop(&record, "string.6 setback");
    expect_at(&record, 1, 1, 6, 2.5);
    expect_at(&record, 1, 2, 6, 4);
    expect_at(&record, 2, 1, 4, 6);
    record_done(&record);
}

/* --- in a session --- */

static void expect_words(const struct app *app, const char *wanted)
{
    char memory[80];
    struct strbuf words = STRBUF(memory);

    change_add_words(app, &app_cell(app)->key, &words);
    assert_string_equal(memory, wanted);
}

static const char *filed(const struct app *app, enum field_id field, int visit, int pass)
{
    const struct reading_key key = field == FIELD_SETBACK
                                       ? reading_key_string(field, 6)
                                       : reading_key_pass_at(field, visit, pass, 6, 0);
    const struct reading *reading = record_find(&app->record, &key);

    return reading ? reading->text : "-";
}

static void go_to_setback(struct app *app)
{
    const struct reading_key key = reading_key_string(FIELD_SETBACK, 6);

    app->at = route_find(&app->route, &key);
    assert_true(app->at >= 0);
    bench_press(app, "{Left}{Right}");
    app->at = route_find(&app->route, &key);
}

static const enum leaf leaves_with_it[] = {LEAF_PITCH, LEAF_STRINGS};

static void it_is_filed_in_the_pass_in_hand(void **state)
{
    (void)state;
    for (int i = 0; i < 2; i++) {
        char memory[2000];
        struct record before;

        (void)snprintf(memory, sizeof memory, "%s%s", build_record_full, lines);
        struct app *app = bench_open(memory, "", leaves_with_it[i]);
        assert_int_equal(record_copy(&app->record, &before), STATUS_OK);
        assert_int_equal(app->visit, 2);
        go_to_setback(app);
        expect_words(app, ", from this pass on");
        assert_true(bench_press(app, ".2{Enter}").save);
        assert_string_equal(filed(app, FIELD_SETBACK_READ, 2, 1), ".2 in");
        assert_string_equal(filed(app, FIELD_SETBACK, 0, 0), "3 mm");
        /* Older programs would take the 3 mm for what holds. */
        assert_string_equal(bench_text(app, "profile format"), "2");
        assert_string_equal(bench_text(app, "string.6 setback"), ".2 in");
        bench_press(app, "<");
        assert_int_equal(app->visit, 1);
        assert_int_equal(app->pass, 2);
        assert_string_equal(bench_text(app, "string.6 setback"), "3 mm");
        /* Undo goes to the cell, in its pass. */
        bench_press(app, ">*1");
        assert_int_equal(app->visit, 2);
        assert_int_equal(app_cell(app)->key.field, FIELD_SETBACK);
        assert_true(record_equal(&app->record, &before));
        /* What an earlier visit said goes only there. */
        go_to_setback(app);
        bench_press(app, "{Del}");
        assert_non_null(strstr(app->message, "read earlier"));
        assert_true(record_equal(&app->record, &before));
        record_done(&before);
        bench_close(app);
    }
}

static void a_slip_is_corrected_where_it_was_said(void **state)
{
    struct app *app;
    char memory[2000];

    (void)state;
    (void)snprintf(memory, sizeof memory, "%s%s", build_record_full, lines);
    app = bench_open(memory, "visit.1.pass.2 setback.6 = 5 mm\n", LEAF_PITCH);
    go_to_setback(app);
    bench_press(app, "=");
    expect_words(app, ", correction: of visit 1, pass 2");
    bench_press(app, "4 mm{Enter}");
    if (app->held != HELD_NO)
        bench_press(app, "{Enter}");
    assert_string_equal(filed(app, FIELD_SETBACK_READ, 1, 2), "4 mm");
    assert_string_equal(filed(app, FIELD_SETBACK_READ, 2, 1), "-");
    bench_close(app);
}

/* What was said at first, or in an earlier pass, can be taken out from a later visit: as a
 * correction. */
static void an_earlier_one_is_taken_out_as_a_correction(void **state)
{
    static const char *const more[] = {
        "visit.2 date = 2026-03-01\nvisit.2.pass.1 relief = .01 in\n",
        "visit.1.pass.2 setback.6 = 5 mm\nvisit.2 date = "
        "2026-03-01\nvisit.2.pass.1 relief = .01 in\n"};
    char memory[2000];

    (void)state;
    (void)snprintf(memory, sizeof memory, "%s%s", build_record_full, lines);
    for (int i = 0; i < 2; i++) {
        struct app *app = bench_open(memory, more[i], LEAF_PITCH);

        go_to_setback(app);
        bench_press(app, "{Del}");
        assert_non_null(strstr(app->message, "= (* 0 0 1), then Del"));
        assert_true(bench_press(app, "={Del}").save);
        assert_string_equal(filed(app, FIELD_SETBACK_READ, 1, 2), "-");
        assert_string_equal(filed(app, FIELD_SETBACK, 0, 0), i == 0 ? "-" : "3 mm");
        bench_close(app);
    }
}

/* The first reading of a pass opens it, also when it is this one. */
static void it_opens_a_pass(void **state)
{
    struct app *app = bench_open(build_record_full, "", LEAF_PITCH);

    (void)state;
    bench_press(app, "v");
    go_to_setback(app);
    bench_press(app, ".1{Enter}");
    assert_string_equal(bench_text(app, "visit.2 date"), "2026-03-02");
    assert_string_equal(bench_text(app, "visit.2.pass.1 time"), "10:42");
    assert_string_equal(bench_text(app, "visit.2.pass.1 setback.6"), ".1 in");
    bench_press(app, "{Left}");
    go_to_setback(app);
    bench_press(app, "{Del}");
    assert_null(bench_text(app, "visit.2.pass.1 setback.6"));
    bench_close(app);
}

/* From the plan over the mark on Work to what the next pass shows. */
static void a_move_that_is_marked_is_expected(void **state)
{
    static const struct app_clock at_ten = {"2026-03-02", "10:00:00"};
    static const struct app_clock at_eleven = {"2026-03-02", "11:00:00"};
    const struct reading_key key = reading_key_string(FIELD_SETBACK, 6);
    struct record record;
    struct app app;

    (void)state;
    build_played(&record, 1,
                 "visit.1.pass.1 time = 09:00\nvisit.1.pass.1 setback.6 = .100 in\n"
                 "visit.1.pass.1 setback.1 = .050 in\n"
                 "visit.1.pass.1 cents.6.12 = 8\nvisit.1.pass.1 cents.1.12 = -7\n");
    bench_start_record(&app, &record, false, false);
    const struct move pitch = app.now.moves.move[MOVE_PITCH];
    assert_int_equal(pitch.state, MOVE_DUE);
    bench_press_at(&app, "{F7}", &at_ten);
    for (int i = 0; i < app.route.count; i++) {
        app.at = i;
        if (work_move_in_hand(&app) == MOVE_PITCH)
            break;
    }
    bench_press_at(&app, " ", &at_ten);
    assert_string_equal(bench_text(&app, "visit.1.work.1 kind"), "pitch");
    bench_press_at(&app, "{F2}p.006{Enter}{F4}", &at_eleven);
    assert_int_equal(app.pass, 2);
    /* A contact is set to less than asked for, by steps of .005 in. */
    for (int s = 1; s <= 6; s += 5) {
        const struct setback *found = &app.now.setup.setback[s];
        const double was = s == 6 ? .1 * 25.4 : .05 * 25.4;

        assert_true(pitch.string[s].due);
        assert_true(found->is_expected);
        const double moved = assert_given(found->mm) - was;
        assert_true(moved * pitch.string[s].value > 0);
        assert_true(fabs(moved) <= fabs(pitch.string[s].value) + 1e-9);
        assert_true(fabs(moved) > fabs(pitch.string[s].value) - .0051 * 25.4);
    }
    /* The others stay as they were entered. */
    assert_false(app.now.setup.setback[5].is_expected);
    const int at = route_find(&app.route, &key);
    assert_true(at >= 0);
    assert_near(assert_given(app_expected(&app, &app.route.cells[at])),
                app.now.setup.setback[6].mm.value, 0);
    /* It is read again, and is then read. */
    app.at = at;
    bench_press_at(&app, ".19{Enter}", &at_eleven);
    assert_string_equal(bench_text(&app, "visit.1.pass.2 setback.6"), ".19 in");
    assert_false(app.now.setup.setback[6].is_expected);
    assert_true(app.now.setup.setback[1].is_expected);
    app_done(&app);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_pass_has_the_last_that_was_said),
        cmocka_unit_test(cents_are_judged_by_their_own_setback),
        cmocka_unit_test(a_logged_move_gives_what_to_expect),
        cmocka_unit_test(its_doubt_is_that_of_a_hand),
        cmocka_unit_test(an_old_file_says_what_it_said),
        cmocka_unit_test(a_bad_one_is_kept_and_not_used),
        cmocka_unit_test(a_course_moves_as_one),
        cmocka_unit_test(it_is_filed_in_the_pass_in_hand),
        cmocka_unit_test(a_slip_is_corrected_where_it_was_said),
        cmocka_unit_test(an_earlier_one_is_taken_out_as_a_correction),
        cmocka_unit_test(it_opens_a_pass),
        cmocka_unit_test(a_move_that_is_marked_is_expected),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
