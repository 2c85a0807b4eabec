/* SPDX-License-Identifier: MIT */
#include "build_record.h"
#include "course_record.h"
#include "kinds.h"

#include <string.h>

#include "model/reading/note_name.h"
#include "model/survey/survey_layout.h"
#include "session/cell_words.h"
#include "words/explain.h"
#include "words/pitch_plan.h"
#include "model/setup/setup_fill.h"

/* Strings in courses: twelve strings, mandolins. */

static const char twelve[] =
    "board scale = 25.5 in\nboard strings = 12\nboard courses = 6\nboard frets = 20\n"
    "board join_fret = 14\nbridge kind = blank\nneck rod = two-way\n" TARGETS
    "string.5 note = G3\nstring.5 gauge = .023 in\nstring.5 build = plain\n"
    "string.6 note = G4\nstring.6 gauge = .009 in\nstring.6 build = plain\n"
    "string.11 setback = 3 mm\nstring.9 setback = 2 mm\nstring.10 setback = 1 mm\n";

static void a_twelve_string_asks_for_six_courses(void **state)
{
    struct app *app = bench_open(twelve, "", LEAF_BENCH);

    (void)state;
    assert_int_equal(app->route.columns, 6);
    assert_int_equal(count_cells(app, FIELD_NUT_GAP), 6);
    assert_int_equal(count_cells(app, FIELD_ACTION), 6);
    assert_int_equal(app->route.cells[1].key.string, 11);
    app_take_leaf(app, LEAF_FRETS);
    assert_int_equal(count_cells(app, FIELD_BUZZ), 6);
    bench_close(app);
}

/* As found: course 1 high at the nut by .005 in, all actions over by a 64th. Afterwards all at the
 * targets: between .012 and .018 in, and 4 and 6 64ths, by fifths. */
static void a_twelve_string_is_set_up_by_course(void **state)
{
    struct app *app = bench_open(twelve, "", LEAF_BENCH);

    (void)state;
    bench_press(app, ".008{Enter}.019{Enter}.018{Enter}.016{Enter}.015{Enter}.014{Enter}.019{Enter}"
                     "7{Enter}6.6{Enter}6.2{Enter}5.8{Enter}5.4{Enter}5{Enter}");
    assert_int_equal(verdict(app), MOVES_WORK);
    const struct move *slots = &app->now.moves.move[MOVE_SLOTS];
    assert_true(slots->string[1].due);
    /* The octave of the course goes with it, and nothing is said of it. */
    assert_true(slots->string[2].due);
    assert_near(slots->string[2].value, slots->string[1].value, 1e-12);
    assert_string_not_equal(words_of(app, MOVE_SLOTS).string[1], "");
    assert_string_equal(words_of(app, MOVE_SLOTS).string[2], "");
    do_the_work(app);
    assert_string_equal(bench_text(app, "visit.1.work.1 kind"), "slots");
    assert_non_null(strstr(bench_text(app, "visit.1.work.1 amount"), "; course 1 -"));
    assert_non_null(strstr(bench_text(app, "visit.1.work.2 amount"), "; course 6 -"));
    bench_press(app, ".008{Enter}.018{Enter}.017{Enter}.016{Enter}.014{Enter}.013{Enter}.012{Enter}"
                     "6{Enter}5.6{Enter}5.2{Enter}4.8{Enter}4.4{Enter}4{Enter}");
    assert_int_equal(verdict(app), MOVES_READY);
    assert_null(bench_text(app, "visit.1.pass.2 nut_gap.2"));
    bench_close(app);
}

/* By hand: G3 is 14 semitones under A4, its octave 2. A plain .023 in at 25.5 in pulls
 * 7850 pi/4 (.5842e-3)^2 (2 * .6477 * 196.0)^2 = 135.6 N, a .009 in an octave up
 * 3.2218e-4 (2 * .6477 * 392.0)^2 = 83.1 N. */
static void each_string_of_a_course_has_its_own_pull(void **state)
{
    struct app *app = bench_open(twelve, "", LEAF_BENCH);

    (void)state;
    assert_near(figure(app, FIGURE_PITCH, 6), 2 * figure(app, FIGURE_PITCH, 5), 1e-9);
    assert_near(figure(app, FIGURE_TENSION, 5), 135.6, 0.1);
    assert_near(figure(app, FIGURE_TENSION, 6), 83.1, 0.1);
    assert_near_relative(figure(app, FIGURE_TENSION, 6), plain_pull_n(.009, 647.7, hz_of(-2)),
                         1e-9);
    bench_close(app);
}

/* 11 beside 7: what is beside it is named as the bench names it. */
static void a_doubt_names_the_course(void **state)
{
    struct app *app = bench_open(twelve, "visit.1.pass.1 action.11 = 7/64 in\n", LEAF_BENCH);
    const struct reading_key key = reading_key_pass_at(FIELD_ACTION, 1, 1, 9, 0);

    (void)state;
    app->at = route_find(&app->route, &key);
    bench_press(app, "11");
    if (!strstr(app->doubt_words, "on course 6"))
        fail_msg("%s", app->doubt_words);
    assert_null(strstr(app->doubt_words, "string"));
    bench_close(app);
}

/* The octave string of course 6 lies in a slot of its own. */
static void a_string_is_read_by_itself_and_with_its_course_again(void **state)
{
    struct app *app = bench_open(twelve, "visit.1.pass.1 nut_gap.11 = .019 in\n", LEAF_BENCH);
    const struct reading_key key = reading_key_pass_at(FIELD_NUT_GAP, 1, 1, 11, 0);
    struct record before;

    (void)state;
    assert_int_equal(record_copy(&app->record, &before), STATUS_OK);
    app->at = route_find(&app->route, &key);
    bench_press(app, "*O");
    /* A column of its own, and nothing filed yet. */
    assert_int_equal(count_cells(app, FIELD_NUT_GAP), 7);
    assert_int_equal(count_cells(app, FIELD_ACTION), 7);
    assert_int_equal(app_cell(app)->key.string, 12);
    assert_true(record_equal(&app->record, &before));
    bench_press(app, ".014{Enter}");
    assert_string_equal(bench_text(app, "visit.1.pass.1 nut_gap.12"), ".014 in");
    assert_near(assert_given(app->now.setup.nut_gap_mm[12]), .014 * 25.4, 1e-12);
    assert_near(figure(app, FIGURE_NUT_GAP, 12), .014 * 25.4, 1e-9);
    assert_false(outfit_is_course(&app->now.setup.outfit, 11));
    /* Back: what was read of it goes, once that is said, and undo brings it back. */
    bench_press(app, "{Left}*O{Esc}");
    assert_non_null(bench_text(app, "visit.1.pass.1 nut_gap.12"));
    app->at = route_find(
        &app->route,
        &(struct reading_key){.field = FIELD_NUT_GAP, .visit = 1, .part = 1, .string = 12});
    bench_press(app, "*O{Enter}");
    assert_true(record_equal(&app->record, &before));
    assert_int_equal(count_cells(app, FIELD_NUT_GAP), 6);
    assert_int_equal(app_cell(app)->key.string, 11);
    bench_press(app, "*1");
    assert_string_equal(bench_text(app, "visit.1.pass.1 nut_gap.12"), ".014 in");
    /* One that has no reading leaves no trace. */
    bench_press(app, "*1");
    app->at = route_find(&app->route, &key);
    bench_press(app, "*O*O");
    assert_int_equal(count_cells(app, FIELD_NUT_GAP), 6);
    record_done(&before);
    bench_close(app);
}

static void a_setback_is_that_of_the_course_or_its_own(void **state)
{
    struct app *app = bench_open(twelve, "", LEAF_BENCH);
    const struct board *board = &app->now.setup.board;

    (void)state;
    assert_near(board->contact_mm[12] - board->scale_mm[12], 3, 1e-9);
    assert_near(board->contact_mm[10] - board->scale_mm[10], 1, 1e-9);
    assert_near(board->contact_mm[8] - board->scale_mm[8], 0, 1e-9);
    bench_close(app);
}

/* A second string stands where its course does: to enter that again tells nothing new. */
static void a_courses_setback_need_not_be_entered_twice(void **state)
{
    struct app *once = bench_open(course_record, "", LEAF_PITCH);
    struct app *twice = bench_open(course_record, course_record_again, LEAF_PITCH);

    (void)state;
    for (int s = 1; s <= 12; s++) {
        const struct fret_pitch *pitch = &once->now.pitch[s], *again = &twice->now.pitch[s];

        for (int n = 1; n <= 20; n++) {
            assert_near(assert_given(pitch->cents[n]), assert_given(again->cents[n]), 1e-12);
            assert_near(pitch->cents_u[n], again->cents_u[n], 1e-12);
        }
        assert_near(once->now.figures.at[FIGURE_SETBACK_PREDICTED][s].u,
                    twice->now.figures.at[FIGURE_SETBACK_PREDICTED][s].u, 1e-12);
    }
    bench_close(once);
    bench_close(twice);
}

static struct saddle_fit saddle_of(const char *more, bool predicted)
{
    struct app *app = bench_open(course_record, more, LEAF_PITCH);
    struct pitch_plan plan;

    pitch_plan_make(place_current(&app->record), &app->now, 0, &plan);
    assert_true(plan.saddle.known);
    assert_int_equal(plan.saddle_is_predicted, predicted);
    bench_close(app);
    return plan.saddle;
}

/* The same of the saddle's width, by the cents read and by what is predicted. String 12 alone is
 * far off: what its saddle has to hold is where it is and where it is to be. */
static void a_saddle_holds_the_second_strings_as_they_are(void **state)
{
    static const char cents[] = "visit.1.pass.1 cents.12.12 = 12\n";
    char both[sizeof cents + sizeof course_record_again];

    (void)state;
    memcpy(both, cents, sizeof cents - 1);
    memcpy(both + sizeof cents - 1, course_record_again, sizeof course_record_again);
    assert_near(saddle_of(cents, false).needed_mm, saddle_of(both, false).needed_mm, 1e-12);
    assert_near(saddle_of("", true).needed_mm, saddle_of(course_record_again, true).needed_mm,
                1e-12);
}

/* How much wider than its one move the saddle has to be, with string 5 to go back. */
static double needed_beyond_the_move_mm(const struct record *record)
{
    struct derived derived;

    derive_current(record, &derived);
    const struct move *pitch = &derived.moves.move[MOVE_PITCH];
    assert_true(pitch->string[5].known && pitch->saddle.known);
    return pitch->saddle.needed_mm - pitch->string[5].value;
}

/* Contacts that lie on one line across the strings ask for no more width than string 5's move:
 * half a mm from course to course, where nothing says how far apart the strings of one are. */
static void a_saddles_slant_goes_by_course(void **state)
{
    struct record record;

    (void)state;
    build_record(&record, course_record);
    build_record_add(&record, course_record_again);
    build_record_add(&record, "visit.1.pass.1 cents.5.12 = 12\n");
    build_record_drop(&record, "nut spread");
    assert_near(needed_beyond_the_move_mm(&record), 0, 1e-9);
    record_done(&record);
}

/* Equal gaps, by hand: six courses of two strings, 1.5 mm apart, over 56 mm between the centres of
 * the outer two. Contacts 1 mm in 20 across lie on one line. */
static void a_saddles_slant_goes_by_where_the_strings_lie(void **state)
{
    static const double gauge_in[] = {.010, .010, .014, .014, .023, .008,
                                      .030, .012, .039, .018, .047, .027};
    struct record record;
    double gauges_mm = 0;

    (void)state;
    build_record(&record, course_record);
    build_record_add(&record, "visit.1.pass.1 cents.5.12 = 12\n");
    for (int s = 1; s <= 12; s++)
        gauges_mm += gauge_in[s - 1] * (s == 1 || s == 12 ? 12.7 : 25.4);
    const double between_mm = (56 - gauges_mm - 6 * 1.5) / 5;
    double across_mm = 0;

    for (int s = 1; s <= 12; s++) {
        build_record_put_mm(&record, reading_key_string(FIELD_SETBACK, s), 1.5 + across_mm / 20);
        if (s < 12)
            across_mm += (gauge_in[s - 1] + gauge_in[s]) * 12.7 + (s % 2 == 1 ? 1.5 : between_mm);
    }
    assert_near(across_mm, 56, 1e-9);
    assert_near(needed_beyond_the_move_mm(&record), 0, 1e-6);
    record_done(&record);
}

/* The strings of a course are 2 mm apart on a board 50 mm wide: their scales differ by about as
 * much of what the outer two do. */
static void both_strings_of_a_course_have_its_scale(void **state)
{
    struct derived derived =
        build_derived("board scale_treble = 25 in\nboard scale_bass = 26 in\nboard strings = 12\n"
                      "board courses = 6\nboard frets = 20\nboard join_fret = 14\n",
                      "");
    const double *scale_mm = derived.setup.board.scale_mm;

    (void)state;
    assert_near(scale_mm[1], 25 * 25.4, 1e-9);
    assert_near(scale_mm[12], 26 * 25.4, 1e-9);
    for (int s = 1; s < 12; s += 2)
        assert_near(scale_mm[s + 1], scale_mm[s], 25.4 * 2 / 50);
}

/* Course 3 is not read. It lies midway between course 2, whose second string is read by itself, and
 * course 4: its gap is the mean of .020 and .012 in. */
static void a_course_is_filled_in_by_where_it_lies(void **state)
{
    struct app *app = bench_open(twelve,
                                 "visit.1.pass.1 nut_gap.3 = .018 in\n"
                                 "visit.1.pass.1 nut_gap.4 = .020 in\n"
                                 "visit.1.pass.1 nut_gap.7 = .012 in\n",
                                 LEAF_BENCH);
    const struct setup *setup = &app->now.setup;
    double gap_mm[STRINGS_MAX + 1];
    enum known known[STRINGS_MAX + 1];

    (void)state;
    assert_true(setup_fill_strings(setup->nut_gap_mm, setup->nut_gap_unsure, &setup->outfit, gap_mm,
                                   known));
    for (int s = 5; s <= 6; s++) {
        assert_int_equal(known[s], KNOWN_INTERPOLATED);
        assert_near(gap_mm[s], .016 * 25.4, 1e-9);
    }
    bench_close(app);
}

/* What is read by course is called by it in every sentence, also where no cell is in hand: course 6
 * is that of string 11, and of string 12 what is said is taken from it. */
static void what_is_said_of_a_course_names_it(void **state)
{
    struct app *app = bench_open(course_record, "", LEAF_BENCH);
    const struct explain_from from = {.place = place_of(&app->record, 1, 1), .derived = &app->now};
    const struct reading_key bass = reading_key_pass(FIELD_EXPOSURE_BASS, 1, 1);
    const struct reading_key treble = reading_key_pass(FIELD_EXPOSURE_TREBLE, 1, 1);
    struct explanation why;
    char memory[200];
    struct strbuf text = STRBUF(memory);

    (void)state;
    explain_figure(&from, FIGURE_SADDLE_CHANGE, 11, &why);
    assert_non_null(strstr(why.lines[0].text, "saddle under course 6 by"));
    assert_non_null(strstr(why.lines[1].text, "course 6, saddle"));
    explain_figure(&from, FIGURE_SLOT_CHANGE, 11, &why);
    assert_non_null(strstr(why.lines[0].text, "slot of course 6"));
    explain_figure(&from, FIGURE_SADDLE_CHANGE, 12, &why);
    assert_non_null(strstr(why.lines[1].text, "string 12, saddle"));
    assert_non_null(strstr(why.lines[1].text, "from its course"));
    /* A pull is one string's. */
    explain_figure(&from, FIGURE_TENSION, 11, &why);
    assert_non_null(strstr(why.lines[1].text, "string 11, "));
    cell_words_add_what(app, &app->route.cells[route_find(&app->route, &bass)], &text);
    assert_non_null(strstr(memory, ", lowest course"));
    strbuf_clear(&text);
    cell_words_add_what(app, &app->route.cells[route_find(&app->route, &treble)], &text);
    assert_non_null(strstr(memory, ", course 1"));
    app->at = app->route.count;
    assert_int_equal(app_string(app), 11);
    bench_close(app);
}

/* One string of course 6 has a gap of its own: it is read by itself in this visit, its twin too. */
static void a_string_with_its_own_reading_has_its_own_column(void **state)
{
    struct app *app = bench_open(twelve, "visit.1.pass.1 nut_gap.12 = .020 in\n", LEAF_BENCH);
    char memory[16];
    struct strbuf text = STRBUF(memory);

    (void)state;
    assert_int_equal(app->route.columns, 7);
    note_name_add_read(&text, &app->record, &app->now.setup.outfit, 11);
    assert_string_equal(memory, "s11");
    strbuf_clear(&text);
    note_name_add_read(&text, &app->record, &app->now.setup.outfit, 9);
    assert_string_equal(memory, "5");
    bench_close(app);
}

static void a_mandolin_asks_for_four(void **state)
{
    struct app *app = bench_open("board scale = 13.875 in\nboard strings = 8\nboard courses = 4\n"
                                 "board frets = 20\nboard join_fret = 12\n" TARGETS
                                 "string.1 note = E5\nstring.1 gauge = .011 in\n"
                                 "string.1 build = plain\n",
                                 "", LEAF_BENCH);

    (void)state;
    assert_int_equal(app->route.columns, 4);
    assert_int_equal(count_cells(app, FIELD_ACTION), 4);
    /* E5 is 7 semitones over A4: 659.26 Hz. 4.8130e-4 (2 * .352425 * 659.26)^2 = 103.9 N. */
    assert_near(figure(app, FIGURE_PITCH, 1), 659.255, 1e-3);
    assert_near(figure(app, FIGURE_TENSION, 1), 103.9, 0.1);
    bench_press(app, ".008{Enter}.018{Enter}.016{Enter}.014{Enter}.012{Enter}"
                     "6{Enter}5.5{Enter}4.5{Enter}4{Enter}");
    assert_int_equal(verdict(app), MOVES_READY);
    bench_close(app);
}

/* Two courses of two .010 in strings (.254 mm), 2 mm apart, on a 30 mm nut with margins of 3 mm:
 * each is 2.508 mm wide, so that the outer strings lie 3.127 mm from the edges, their twins 2.254
 * mm from these. Between the outer two, 20 mm at the saddle, the twins lie 2.254 mm in as well. */
static void a_course_is_laid_out_as_one(void **state)
{
    static const char strings[] =
        "board scale = 13.875 in\nboard strings = 4\nboard courses = 2\nboard frets = 20\n"
        "board join_fret = 12\nnut width = 30 mm\nnut margin_bass = 3 mm\n"
        "nut margin_treble = 3 mm\nnut spread = equal-gaps\nbridge spread = 20 mm\n"
        "string.1 gauge = .010 in\nstring.2 gauge = .010 in\nstring.3 gauge = .010 in\n"
        "string.4 gauge = .010 in\n";
    static const double nut_mm[] = {26.873, 24.619, 5.381, 3.127},
                        saddle_mm[] = {20, 17.746, 2.254};
    struct app *app = bench_open(strings, "nut course_gap = 2 mm\n", LEAF_BENCH);
    struct app *unknown = bench_open(strings, "", LEAF_BENCH);
    struct survey_layout layout;

    (void)state;
    survey_layout(&app->record, &app->now, &layout);
    for (int s = 1; s <= 4; s++)
        assert_near(assert_given(layout.string[s].nut_centre_mm), nut_mm[s - 1], 1e-9);
    for (int s = 1; s <= 3; s++)
        assert_near(assert_given(layout.string[s].saddle_centre_mm), saddle_mm[s - 1], 1e-9);
    survey_layout(&unknown->record, &unknown->now, &layout);
    assert_false(layout.string[1].nut_centre_mm.given);
    bench_close(app);
    bench_close(unknown);
}

/* Five courses do not divide eight strings: said, and each string is read. */
static void uneven_courses_are_refused(void **state)
{
    struct app *app = bench_open("board scale = 13.875 in\nboard strings = 8\nboard courses = 5\n"
                                 "board frets = 20\nboard join_fret = 12\n",
                                 "", LEAF_BENCH);

    (void)state;
    assert_int_equal(app->route.columns, 8);
    assert_true(findings_have_fault(&app->now.findings));
    bench_close(app);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_twelve_string_asks_for_six_courses),
        cmocka_unit_test(a_twelve_string_is_set_up_by_course),
        cmocka_unit_test(each_string_of_a_course_has_its_own_pull),
        cmocka_unit_test(a_doubt_names_the_course),
        cmocka_unit_test(a_string_is_read_by_itself_and_with_its_course_again),
        cmocka_unit_test(a_setback_is_that_of_the_course_or_its_own),
        cmocka_unit_test(a_courses_setback_need_not_be_entered_twice),
        cmocka_unit_test(a_saddle_holds_the_second_strings_as_they_are),
        cmocka_unit_test(a_saddles_slant_goes_by_course),
        cmocka_unit_test(a_saddles_slant_goes_by_where_the_strings_lie),
        cmocka_unit_test(both_strings_of_a_course_have_its_scale),
        cmocka_unit_test(a_course_is_filled_in_by_where_it_lies),
        cmocka_unit_test(what_is_said_of_a_course_names_it),
        cmocka_unit_test(a_string_with_its_own_reading_has_its_own_column),
        cmocka_unit_test(a_mandolin_asks_for_four),
        cmocka_unit_test(a_course_is_laid_out_as_one),
        cmocka_unit_test(uneven_courses_are_refused),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
