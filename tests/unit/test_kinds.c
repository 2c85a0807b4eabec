/* SPDX-License-Identifier: MIT */
#include "kinds.h"

#include <stdio.h>
#include <string.h>

#include "build_record.h"
#include "leaf/pitch/leaf_pitch.h"
#include "model/setup/string_target.h"
#include "session/cell_words.h"
#include "session/explain_reading.h"
#include "words/explain.h"
#include "words/explain_item.h"
#include "words/pitch_words.h"

/* A short string, and a board without frets, beyond what every kind shows at the bench
 * (tests/pty/kind_table.h). */

/* --- a string that starts higher --- */

static const char banjo[] =
    "board scale = 26.25 in\nboard strings = 5\nboard frets = 22\nboard join_fret = 17\n"
    "bridge kind = blank\nneck rod = two-way\n" TARGETS
    "string.1 note = D4\nstring.1 gauge = .009 in\nstring.1 build = plain\n"
    "string.5 note = G4\nstring.5 gauge = .009 in\nstring.5 build = plain\n"
    "string.5 from_fret = 5\n";

/* A string of the same length by itself, on a board that begins at fret 5, lies as it does: its
 * line from the gap over fret 6, its cents and its headroom. */
static void a_short_string_is_a_whole_one_on_a_shorter_board(void **state)
{
    static const char readings[] = "visit.1.pass.1 relief = 0 in\nvisit.1.pass.1 action.%d = 2 mm\n"
                                   "visit.1.pass.1 nut_gap.%d = .4 mm\n";
    char of_banjo[300], of_whole[300];

    (void)state;
    snprintf(of_banjo, sizeof of_banjo, readings, 5, 5);
    snprintf(of_whole, sizeof of_whole, readings, 1, 1);
    struct app *app = bench_open(banjo, of_banjo, LEAF_FRETS);
    /* 26.25 in * 2^(-5/12), and each fret five less. */
    struct app *whole = bench_open("board scale = 499.49817 mm\nboard strings = 1\n"
                                   "board frets = 17\nboard join_fret = 12\nboard action_fret = 7\n"
                                   "string.1 note = G4\nstring.1 gauge = .009 in\n"
                                   "string.1 build = plain\n",
                                   of_whole, LEAF_FRETS);
    assert_near(figure(app, FIGURE_NUT_HEIGHT, 5), figure(whole, FIGURE_NUT_HEIGHT, 1), 1e-5);
    assert_near(figure(app, FIGURE_SADDLE_HEIGHT, 5), figure(whole, FIGURE_SADDLE_HEIGHT, 1), 1e-5);
    for (int n = 0; n < 17; n++) {
        const struct maybe here = app->now.clearance[5].headroom_mm[5 + n];
        const struct maybe there = whole->now.clearance[1].headroom_mm[n];

        assert_near(assert_given(here), assert_given(there), 1e-4);
        assert_near(assert_given(app->now.pitch[5].cents[5 + n]),
                    assert_given(whole->now.pitch[1].cents[n]), 1e-3);
    }
    assert_false(app->now.clearance[5].headroom_mm[4].given);
    bench_close(app);
    bench_close(whole);
}

/* Over a level bridge a string that starts at fret 5 stands lower at fret 12: similar triangles,
 * the neck straight. 26.25 in of scale; 4 mm over fret 12 and 0.4 over fret 1 for a string of full
 * length, 0.4 over fret 6 for the short one. By hand: its saddle is 0.4 + 3.6 * 629.33/295.95 =
 * 8.055 high, and 0.4 + 7.655 * 138.10/471.46 = 2.642 over fret 12. */
static void a_short_string_is_wanted_lower(void **state)
{
    struct app *app = bench_open(banjo,
                                 "targets action_bass = 4 mm\ntargets action_treble = 4 mm\n"
                                 "targets nut_gap_bass = .4 mm\ntargets nut_gap_treble = .4 mm\n"
                                 "targets relief = 0 mm\n",
                                 LEAF_BENCH);

    (void)state;
    assert_near(assert_given(string_target_action(&app->now.setup, 4)), 4, 1e-9);
    assert_near(assert_given(string_target_action(&app->now.setup, 5)), 2.642, .005);
    bench_close(app);
}

/* What the other strings read says nothing of it: nothing is made up, and neither doubts the
 * other. */
static void a_short_strings_action_is_its_own(void **state)
{
    static const char others[] =
        "visit.1.pass.1 relief = 0 in\nvisit.1.pass.1 nut_gap.1 = .4 mm\n"
        "visit.1.pass.1 nut_gap.4 = .4 mm\nvisit.1.pass.1 action.1 = 4 mm\n"
        "visit.1.pass.1 action.2 = 4 mm\nvisit.1.pass.1 action.3 = 4 mm\n"
        "visit.1.pass.1 action.4 = 4 mm\n";
    struct app *app = bench_open(banjo, others, LEAF_BENCH);

    (void)state;
    assert_false(figures_get(&app->now.figures, FIGURE_ACTION, 5).given);
    bench_press(app, "2.6 mm{Enter}");
    assert_false(app->now.moves.questioned[BELIEF_ACTION][5]);
    assert_false(app->now.moves.questioned[BELIEF_ACTION][4]);
    bench_close(app);
}

/* Half of what sounds: fret 17 of a string that starts at fret 5. */
static void a_short_strings_octave_comes_first(void **state)
{
    struct app *app = bench_open(banjo,
                                 "visit.1.pass.1 cents.5.12 = 9\nvisit.1.pass.1 cents.5.17 = 4\n"
                                 "visit.1.pass.1 cents.1.12 = 3\n",
                                 LEAF_PITCH);
    char memory[200];
    struct strbuf words = STRBUF(memory);

    (void)state;
    assert_int_equal(app->route.cells[0].key.string, 5);
    assert_int_equal(app->route.cells[0].key.fret, 17);
    assert_int_equal(app->route.cells[1].key.string, 4);
    assert_int_equal(app->route.cells[1].key.fret, 12);
    assert_int_equal(pitch_state(app)->string[5].fret, 17);
    assert_near(pitch_state(app)->string[5].cents, 4, 1e-12);
    assert_int_equal(pitch_state(app)->string[1].fret, 12);
    bench_close(app);
    app = bench_open(banjo, "", LEAF_PITCH);
    pitch_add_move(pitch_state(app), 5, &app->units, &words);
    assert_non_null(strstr(memory, "string 5: tune it open"));
    assert_non_null(strstr(memory, "fret 17 first"));
    bench_close(app);
}

/* Its gap is read over fret 6, and `?` says so. */
static void why_names_the_fret_that_a_short_string_crosses(void **state)
{
    struct app *app = bench_open(banjo,
                                 "visit.1.pass.1 relief = .008 in\nvisit.1.pass.1 action.5 = 2 mm\n"
                                 "visit.1.pass.1 nut_gap.5 = .4 mm\n",
                                 LEAF_BENCH);
    const struct explain_from from = {.place = place_of(&app->record, 1, 1), .derived = &app->now};
    struct explanation why;

    (void)state;
    explain_figure(&from, FIGURE_NUT_GAP, 5, &why);
    assert_non_null(strstr(why.lines[0].text, "the open string 5 clears fret 6 by"));
    assert_near(assert_given(explain_item(&app->now, ITEM_X_FIRST, 5)),
                666.75 * (pow(2, -5 / 12.0) - pow(2, -6 / 12.0)), 1e-9);
    bench_close(app);
}

/* Four strings that are .5 mm too high at fret 12 want one cut, the
 * fifth, higher still, has a notch of its own, and raises nothing. */
static void a_short_string_does_not_tilt_the_saddles_bottom(void **state)
{
    static const char readings[] =
        "targets action_bass = 2 mm\ntargets action_treble = 2 mm\n"
        "targets nut_gap_bass = .4 mm\ntargets nut_gap_treble = .4 mm\n"
        "visit.1.pass.1 relief = .008 in\n"
        "visit.1.pass.1 nut_gap.4 = .4 mm\nvisit.1.pass.1 nut_gap.3 = .4 mm\n"
        "visit.1.pass.1 nut_gap.2 = .4 mm\nvisit.1.pass.1 nut_gap.1 = .4 mm\n"
        "visit.1.pass.1 action.5 = 1 mm\nvisit.1.pass.1 action.4 = 2.5 mm\n"
        "visit.1.pass.1 action.3 = 2.5 mm\nvisit.1.pass.1 action.2 = 2.5 mm\n"
        "visit.1.pass.1 action.1 = 2.5 mm\n";
    struct app *app = bench_open(banjo, readings, LEAF_BENCH);

    (void)state;
    for (int s = 1; s <= 4; s++) {
        assert_true(figure(app, FIGURE_SADDLE_CHANGE, s) < -0.9);
        assert_near(figure(app, FIGURE_SADDLE_BOTTOM, s), figure(app, FIGURE_SADDLE_CHANGE, s),
                    1e-9);
        assert_near(figure(app, FIGURE_SADDLE_TOP, s), 0, 1e-9);
    }
    assert_true(figure(app, FIGURE_SADDLE_CHANGE, 5) > 0.9);
    assert_false(figures_get(&app->now.figures, FIGURE_SADDLE_BOTTOM, 5).given);
    bench_close(app);
}

/* Whether a finding says it of that string. */
static bool is_found(const struct app *app, enum finding_id id, int number)
{
    const struct findings *findings = &app->now.findings;

    for (int i = 0; i < findings->count; i++)
        if (findings->list[i].id == id && findings->list[i].number == number)
            return true;
    return false;
}

/* A board of 22 frets has no fret 24; and from fret 11 on no fret is crossed before fret 12, where
 * the action is read. It is said, and the string is asked about as one that starts at the nut. */
static void a_string_that_cannot_start_there_is_a_full_one(void **state)
{
    static const char *const impossible[] = {"string.5 from_fret = 24\n",
                                             "string.5 from_fret = 11\n"};

    (void)state;
    for (size_t i = 0; i < sizeof impossible / sizeof impossible[0]; i++) {
        struct app *app = bench_open(banjo, impossible[i], LEAF_BENCH);

        assert_true(is_found(app, FINDING_START_BEYOND, 5));
        assert_int_equal(count_cells(app, FIELD_NUT_GAP), 5);
        assert_near(app->now.setup.board.contact_mm[5], 666.75, 1e-9);
        app_take_leaf(app, LEAF_PITCH);
        assert_int_equal(count_cells(app, FIELD_CENTS), 5 * 22);
        bench_close(app);
    }
    struct app *app = bench_open(banjo, "string.5 from_fret = 10\n", LEAF_BENCH);
    assert_false(is_found(app, FINDING_START_BEYOND, 5));
    assert_int_equal(count_cells(app, FIELD_NUT_GAP), 4);
    bench_close(app);
}

/* Then nothing would say how high the nut is. */
static void some_string_starts_at_the_nut(void **state)
{
    struct app *app = bench_open("board scale = 26.25 in\nboard strings = 2\nboard frets = 22\n"
                                 "board join_fret = 17\n" TARGETS "string.1 from_fret = 5\n"
                                 "string.2 from_fret = 5\n",
                                 "", LEAF_BENCH);

    (void)state;
    assert_true(is_found(app, FINDING_START_NONE, 0));
    assert_int_equal(count_cells(app, FIELD_NUT_GAP), 2);
    assert_near(app->now.setup.board.contact_mm[2], 666.75, 1e-9);
    bench_close(app);
}

/* --- a bridge in one piece --- */

/* Nothing stands out of it that could be used up; an exposure that was read all the same is shown.
 */
static void a_bridge_in_one_piece_has_no_exposure(void **state)
{
    static const char read[] = "bridge floating = yes\nvisit.1.pass.1 exposure_bass = 1 mm\n"
                               "visit.1.pass.1 exposure_treble = 1 mm\n";
    struct app *app = bench_open(banjo, "bridge floating = yes\n", LEAF_BENCH);
    struct app *saddle = bench_open(banjo, read, LEAF_BENCH);

    (void)state;
    assert_int_equal(count_cells(app, FIELD_EXPOSURE_BASS), 0);
    assert_false(outfit_has_move(&app->now.setup.outfit, MOVE_RESET));
    assert_int_equal(count_cells(saddle, FIELD_EXPOSURE_BASS), 1);
    assert_true(outfit_has_move(&saddle->now.setup.outfit, MOVE_RESET));
    bench_close(app);
    bench_close(saddle);
}

/* --- fretless --- */

static const char guitar[] =
    "board scale = 25.5 in\nboard strings = 4\nboard frets = 20\n"
    "board join_fret = 16\nbridge kind = screw\nbridge thread = 0.7 mm\n"
    "neck rod = two-way\n" TARGETS "string.1 note = E4\nstring.1 gauge = .010 in\n"
    "string.1 build = plain\n";

/* What is read there is read at a mark. */
static void a_fretless_board_has_marks(void **state)
{
    struct app *app = bench_open(guitar,
                                 "board fretless = yes\nvisit.1.pass.1 cents.1.12 = 9\n"
                                 "visit.1.pass.1 cents.1.7 = 4\nstring.1 setback = 2 mm\n",
                                 LEAF_PITCH);
    char memory[400];
    struct strbuf words = STRBUF(memory);

    (void)state;
    pitch_add_move(pitch_state(app), 4, &app->units, &words);
    assert_non_null(strstr(memory, "mark 12 first"));
    strbuf_clear(&words);
    pitch_add_move(pitch_state(app), 1, &app->units, &words);
    assert_non_null(strstr(memory, "9 cents at mark 12"));
    pitch_add_fit(pitch_state(app), 1, &app->units, &words);
    assert_non_null(strstr(memory, "mark"));
    assert_null(strstr(memory, "fret"));
    app_take_leaf(app, LEAF_FRETS);
    const struct reading_key buzz = reading_key_pass_at(FIELD_BUZZ, 1, 1, 4, 0);
    app->at = route_find(&app->route, &buzz);
    strbuf_clear(&words);
    cell_words_add_what(app, app_cell(app), &words);
    assert_string_equal(memory, "marks whose notes buzz, 0 is open: 0+3+5-7");
    bench_close(app);
}

/* `?` speaks of the board at a mark, of every reading and figure, and never of a crown. */
static void a_fretless_board_has_no_crown_in_why(void **state)
{
    struct app *app = bench_open(
        build_record_full, "board fretless = yes\nvisit.1.pass.1 cents.1.12 = 9\n", LEAF_BENCH);
    const struct explain_from from = {.place = place_of(&app->record, 1, 1), .derived = &app->now};
    struct explanation why;

    (void)state;
    explain_figure(&from, FIGURE_ACTION, 6, &why);
    assert_non_null(strstr(why.lines[0].text, "over the board at the action mark"));
    for (int id = 0; id < FIGURE_COUNT_; id++) {
        explain_figure(&from, (enum figure_id)id, 6, &why);
        for (int i = 0; i < why.count; i++)
            if (strstr(why.lines[i].text, "crown") || strstr(why.lines[i].text, " fret "))
                fail_msg("%s: %s", figure_info((enum figure_id)id)->name, why.lines[i].text);
    }
    for (int i = 0; i < app->route.count; i++) {
        explain_reading(app, &app->route.cells[i], &why);
        for (int k = 0; k < why.count; k++)
            if (strstr(why.lines[k].text, "crown") || strstr(why.lines[k].text, " fret "))
                fail_msg("%s", why.lines[k].text);
    }
    bench_close(app);
}

/* A high place at mark 8 is sanded, not levelled and crowned. */
static void a_fretless_board_is_sanded(void **state)
{
    struct app *app = bench_open(guitar, "board fretless = yes\nstring.4 note = E1\n", LEAF_BENCH);

    (void)state;
    bench_press(app, ".008{Enter}.018{Enter}.016{Enter}.014{Enter}.012{Enter}"
                     "6{Enter}5.3{Enter}4.7{Enter}4{Enter}");
    assert_int_equal(verdict(app), MOVES_READY);
    app_take_leaf(app, LEAF_FRETS);
    assert_int_equal(count_cells(app, FIELD_CROWN), 0);
    assert_int_equal(count_cells(app, FIELD_SPOT), 20);
    const struct reading_key spot = reading_key_pass_at(FIELD_SPOT, 1, 1, 0, 8);
    app->at = route_find(&app->route, &spot);
    bench_press(app, ".004{Enter}");
    assert_int_equal(verdict(app), MOVES_WORK);
    const struct move_words words = words_of(app, MOVE_FRETS);
    assert_non_null(strstr(words.amount, "sand the board at mark 8: "));
    assert_null(strstr(words.caution, "crown"));
    do_the_work(app);
    bench_press(app, ".008{Enter}.018{Enter}.016{Enter}.014{Enter}.012{Enter}"
                     "6{Enter}5.3{Enter}4.7{Enter}4{Enter}");
    app_take_leaf(app, LEAF_FRETS);
    const struct reading_key again = reading_key_pass_at(FIELD_SPOT, 1, 2, 0, 8);
    app->at = route_find(&app->route, &again);
    bench_press(app, "0{Enter}");
    assert_int_equal(verdict(app), MOVES_READY);
    bench_close(app);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_short_string_is_a_whole_one_on_a_shorter_board),
        cmocka_unit_test(a_short_string_is_wanted_lower),
        cmocka_unit_test(a_short_strings_action_is_its_own),
        cmocka_unit_test(a_short_strings_octave_comes_first),
        cmocka_unit_test(a_short_string_does_not_tilt_the_saddles_bottom),
        cmocka_unit_test(why_names_the_fret_that_a_short_string_crosses),
        cmocka_unit_test(a_string_that_cannot_start_there_is_a_full_one),
        cmocka_unit_test(some_string_starts_at_the_nut),
        cmocka_unit_test(a_bridge_in_one_piece_has_no_exposure),
        cmocka_unit_test(a_fretless_board_has_marks),
        cmocka_unit_test(a_fretless_board_has_no_crown_in_why),
        cmocka_unit_test(a_fretless_board_is_sanded),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
