/* SPDX-License-Identifier: MIT */
#include "kinds.h"

#include <stdio.h>
#include <string.h>

/* A short string, a zero fret, a board without frets, a bar on a raised nut. */

/* --- a string that starts higher --- */

static const char banjo[] =
    "board scale = 26.25 in\nboard strings = 5\nboard frets = 22\nboard join_fret = 17\n"
    "bridge kind = blank\nneck rod = two-way\n" TARGETS
    "string.1 note = D4\nstring.1 gauge = .009 in\nstring.1 build = plain\n"
    "string.5 note = G4\nstring.5 gauge = .009 in\nstring.5 build = plain\n"
    "string.5 from_fret = 5\n";

/*
 * By hand: 26.25 in is 666.75 mm; from fret 5 on 666.75 * 2^(-5/12) = 666.75 * .749154 = 499.498 mm
 * sound. G4 is 2 semitones under A4, 391.995 Hz; .009 in is 3.2218e-4 kg/m:
 * 3.2218e-4 (2 * .499498 * 391.995)^2 = 49.41 N, 11.1 lb. Length times pitch is that of string 1
 * on D4, and so is the pull.
 */
static void a_short_string_pulls_by_its_own_length(void **state)
{
    struct app *app = bench_open(banjo, "", LEAF_BENCH);
    const double length_mm = 666.75 * pow(2, -5 / 12.0);

    (void)state;
    assert_near(length_mm, 499.498, 1e-3);
    assert_near(app->now.setup.board.contact_mm[5], length_mm, 1e-9);
    assert_near(figure(app, FIGURE_PITCH, 5), 391.995, 1e-3);
    assert_near(figure(app, FIGURE_TENSION, 5), 49.41, 0.01);
    assert_near_relative(figure(app, FIGURE_TENSION, 5), plain_pull_n(.009, length_mm, hz_of(-2)),
                         1e-9);
    assert_near_relative(figure(app, FIGURE_TENSION, 5), figure(app, FIGURE_TENSION, 1), 1e-9);
    /* Its fret 17 is an octave over its open note: half its length. */
    assert_near(app->now.setup.board.station_mm[5][17], length_mm / 2, 1e-9);
    bench_close(app);
}

static void a_short_string_is_set_up_without_a_slot(void **state)
{
    struct app *app = bench_open(banjo, "", LEAF_BENCH);

    (void)state;
    assert_int_equal(count_cells(app, FIELD_NUT_GAP), 4);
    assert_int_equal(count_cells(app, FIELD_ACTION), 5);
    app_take_leaf(app, LEAF_PITCH);
    assert_int_equal(count_cells(app, FIELD_CENTS), 4 * 22 + 17);
    app_take_leaf(app, LEAF_BENCH);
    bench_press(app, ".008{Enter}.022{Enter}.022{Enter}.020{Enter}.020{Enter}"
                     "7{Enter}7{Enter}6{Enter}6{Enter}5{Enter}");
    assert_int_equal(verdict(app), MOVES_WORK);
    assert_false(app->now.moves.move[MOVE_SLOTS].string[5].known);
    assert_true(app->now.moves.move[MOVE_SADDLE].string[5].due);
    do_the_work(app);
    bench_press(app, ".008{Enter}.0165{Enter}.015{Enter}.0135{Enter}.012{Enter}"
                     "6{Enter}5.5{Enter}5{Enter}4.5{Enter}4{Enter}");
    assert_int_equal(verdict(app), MOVES_READY);
    bench_close(app);
}

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
    struct app *app = bench_open(banjo, of_banjo, LEAF_BENCH);
    /* 26.25 in * 2^(-5/12), and each fret five less. */
    struct app *whole = bench_open("board scale = 499.49817 mm\nboard strings = 1\n"
                                   "board frets = 17\nboard join_fret = 12\nboard action_fret = 7\n"
                                   "string.1 note = G4\nstring.1 gauge = .009 in\n"
                                   "string.1 build = plain\n",
                                   of_whole, LEAF_BENCH);
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

/* --- a zero fret --- */

static const char guitar[] =
    "board scale = 25.5 in\nboard strings = 4\nboard frets = 20\n"
    "board join_fret = 16\nbridge kind = screw\nbridge thread = 0.7 mm\n"
    "neck rod = two-way\n" TARGETS "string.1 note = E4\nstring.1 gauge = .010 in\n"
    "string.1 build = plain\n";

/* Its geometry is that of slots; the words are those of a fret. */
static void a_zero_fret_is_levelled(void **state)
{
    struct app *app = bench_open(guitar, "nut kind = zero-fret\n", LEAF_BENCH);

    (void)state;
    bench_press(app, ".008{Enter}.018{Enter}.016{Enter}.014{Enter}.020{Enter}"
                     "6{Enter}5.3{Enter}4.7{Enter}4{Enter}");
    assert_int_equal(verdict(app), MOVES_WORK);
    const struct move_words words = words_of(app, MOVE_SLOTS);
    assert_non_null(strstr(words.amount, "level the zero fret"));
    assert_null(strstr(words.amount, "file"));
    do_the_work(app);
    assert_non_null(strstr(bench_text(app, "visit.1.work.1 amount"), "level the zero fret +-"));
    bench_press(app, ".008{Enter}.018{Enter}.016{Enter}.014{Enter}.012{Enter}"
                     "6{Enter}5.3{Enter}4.7{Enter}4{Enter}");
    assert_int_equal(verdict(app), MOVES_READY);
    bench_close(app);
}

/* Of slots one that is low is filled; nothing is put on a crown. */
static void a_low_zero_fret_is_replaced(void **state)
{
    static const char keys[] = ".008{Enter}.018{Enter}.016{Enter}.014{Enter}.004{Enter}"
                               "6{Enter}5.3{Enter}4.7{Enter}4{Enter}";
    struct app *app = bench_open(guitar, "nut kind = zero-fret\n", LEAF_BENCH);
    struct app *slotted = bench_open(guitar, "", LEAF_BENCH);

    (void)state;
    bench_press(app, keys);
    bench_press(slotted, keys);
    assert_near(app->now.moves.move[MOVE_SLOTS].string[1].value,
                slotted->now.moves.move[MOVE_SLOTS].string[1].value, 1e-12);
    assert_non_null(strstr(words_of(app, MOVE_SLOTS).amount, "put in a zero fret higher by "));
    assert_non_null(strstr(words_of(slotted, MOVE_SLOTS).amount, "fill"));
    assert_null(strstr(words_of(app, MOVE_SLOTS).caution, "fill"));
    do_the_work(app);
    bench_press(app, ".008{Enter}.018{Enter}.016{Enter}.014{Enter}.012{Enter}"
                     "6{Enter}5.3{Enter}4.7{Enter}4{Enter}");
    assert_int_equal(verdict(app), MOVES_READY);
    bench_close(app);
    bench_close(slotted);
}

/* --- fretless --- */

/* A high place at mark 8 is sanded, not levelled and crowned. By hand: E1 is 41 semitones under
 * A4, 41.203 Hz. */
static void a_fretless_board_is_sanded(void **state)
{
    struct app *app = bench_open(guitar, "board fretless = yes\nstring.4 note = E1\n", LEAF_BENCH);

    (void)state;
    assert_near(figure(app, FIGURE_PITCH, 4), 41.203, 1e-3);
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

/* --- a bar on a raised nut --- */

static const char lap[] = "board scale = 22.5 in\nboard strings = 6\nboard frets = 24\n"
                          "nut kind = raised\nbridge kind = screw\nbridge thread = 0.7 mm\n"
                          "targets height_nut = 3/8 in\ntargets height_saddle = 25/64 in\n"
                          "string.1 note = E4\nstring.1 gauge = .015 in\nstring.1 build = plain\n";

/* By hand: E4 is 5 semitones under A4, 329.628 Hz; .015 in is 8.9497e-4 kg/m; 22.5 in is 571.5 mm:
 * 8.9497e-4 (2 * .5715 * 329.628)^2 = 127.0 N. */
static void a_lap_instrument_asks_for_heights_alone(void **state)
{
    struct app *app = bench_open(lap, "", LEAF_BENCH);

    (void)state;
    assert_int_equal(app->route.count, 12);
    assert_int_equal(count_cells(app, FIELD_HEIGHT_NUT), 6);
    assert_int_equal(count_cells(app, FIELD_HEIGHT_SADDLE), 6);
    assert_near(figure(app, FIGURE_TENSION, 1), 127.0, 0.1);
    assert_near_relative(figure(app, FIGURE_TENSION, 1), plain_pull_n(.015, 571.5, hz_of(-5)),
                         1e-9);
    assert_false(findings_have_fault(&app->now.findings));
    app_take_leaf(app, LEAF_FRETS);
    assert_int_equal(app->route.count, 0);
    app_take_leaf(app, LEAF_PITCH);
    assert_int_equal(app->route.count, 0);
    bench_close(app);
}

/* String 6 a 32nd low at the nut, the saddle's end 2/64 high on all: the nut up by 2/64 in, 0.79
 * mm, and each saddle down by as much, 1 1/8 turns of 0.7 mm. */
static void a_lap_instrument_is_set_up_at_its_ends(void **state)
{
    struct app *app = bench_open(lap, "", LEAF_BENCH);

    (void)state;
    bench_press(app, "22{Enter}24{Enter}24{Enter}24{Enter}24{Enter}24{Enter}"
                     "27{Enter}27{Enter}27{Enter}27{Enter}27{Enter}27{Enter}");
    assert_int_equal(verdict(app), MOVES_WORK);
    assert_int_equal(move_set_count(&app->now.moves, move_is_open), 2);
    assert_near(app->now.moves.move[MOVE_SLOTS].string[6].value, 25.4 * 2 / 64, 1e-9);
    assert_false(app->now.moves.move[MOVE_SLOTS].string[5].due);
    assert_near(app->now.moves.move[MOVE_SADDLE].string[3].value, -25.4 * 2 / 64, 1e-9);
    assert_string_equal(words_of(app, MOVE_SADDLE).string[3], "-1 1/8");
    assert_non_null(strstr(words_of(app, MOVE_SLOTS).amount, "raise the nut"));
    do_the_work(app);
    bench_press(app, "24{Enter}24{Enter}24{Enter}24{Enter}24{Enter}24{Enter}"
                     "25{Enter}25{Enter}25{Enter}25{Enter}25{Enter}25{Enter}");
    assert_int_equal(verdict(app), MOVES_READY);
    bench_close(app);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_short_string_pulls_by_its_own_length),
        cmocka_unit_test(a_short_string_is_set_up_without_a_slot),
        cmocka_unit_test(a_short_string_is_a_whole_one_on_a_shorter_board),
        cmocka_unit_test(a_string_that_cannot_start_there_is_a_full_one),
        cmocka_unit_test(some_string_starts_at_the_nut),
        cmocka_unit_test(a_zero_fret_is_levelled),
        cmocka_unit_test(a_low_zero_fret_is_replaced),
        cmocka_unit_test(a_fretless_board_is_sanded),
        cmocka_unit_test(a_lap_instrument_asks_for_heights_alone),
        cmocka_unit_test(a_lap_instrument_is_set_up_at_its_ends),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
