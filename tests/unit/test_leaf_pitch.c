/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "leaf/leaves.h"
#include "session/app.h"
#include "leaf/pitch/leaf_pitch.h"
#include "words/pitch_words.h"
#include "bench_session.h"
#include "build_record.h"

/* The scale for which the trade's rule of thumb is given. */
#define BOARD "board scale = 25.5 in\nboard strings = 6\nboard frets = 20\nboard join_fret = 14\n"

static struct app *start(const char *lines)
{
    return bench_open(lines, "", LEAF_PITCH);
}

static void lay(int strings, int frets, struct route *route)
{
    const struct leaf_place place = {.strings = strings, .frets = frets, .visit = 2, .pass = 3};

    leaf_lay(&leaf_pitch, &place, route);
}

/* Every string and fret once, in its row and column, and the setback of every string. */
static void every_cell_is_laid_once(void **state)
{
    static const int boards[][2] = {{0, 0},  {0, 22}, {1, 0},  {1, 1},  {4, 11},
                                    {6, 12}, {7, 13}, {6, 22}, {12, 36}};
    struct route *route = malloc(sizeof *route);

    (void)state;
    for (size_t i = 0; i < sizeof boards / sizeof boards[0]; i++) {
        const int strings = boards[i][0], frets = boards[i][1];

        lay(strings, frets, route);
        assert_int_equal(route->count, strings * (frets + 1));
        for (int s = 1; s <= strings; s++)
            for (int n = 0; n <= frets; n++) {
                const struct reading_key key = n == 0
                                                   ? reading_key_string(FIELD_SETBACK, s)
                                                   : reading_key_pass_at(FIELD_CENTS, 2, 3, s, n);
                const int at = route_find(route, &key);

                assert_true(at >= 0);
                assert_int_equal(route->cells[at].row, strings - s);
                assert_int_equal(route->cells[at].column, n);
                assert_int_equal(route->cells[at].string, s);
            }
    }
    free(route);
}

/* Common practice, no published source: the saddle is set by fret 12 first, bass string
 * first as the tech faces the board. */
static void fret_12_comes_first(void **state)
{
    struct route *route = malloc(sizeof *route);

    (void)state;
    lay(6, 22, route);
    for (int i = 0; i < 6; i++) {
        assert_int_equal(route->cells[i].key.fret, 12);
        assert_int_equal(route->cells[i].key.string, 6 - i);
    }
    free(route);
}

/* Digits and Enter alone fill the largest board there is. */
static void the_number_pad_reaches_every_cell(void **state)
{
    struct app *app = start("board scale = 25.5 in\nboard strings = 12\nboard frets = 36\n");

    (void)state;
    assert_int_equal(app->route.count, 12 * 37);
    for (int i = 0; i < 12 * 37; i++)
        bench_press(app, app_cell(app)->key.field == FIELD_SETBACK ? ".1{Enter}" : "1{Enter}");
    for (int i = 0; i < app->route.count; i++)
        assert_non_null(record_get(&app->record, &app->route.cells[i].key));
    assert_string_equal(bench_text(app, "string.12 setback"), ".1 in");
    assert_string_equal(bench_text(app, "visit.1.pass.1 cents.1.36"), "1 cents");
    bench_close(app);
}

/* Left and Right go by frets, whatever order the route goes in; Left of fret 1 stands the
 * setback. */
static void arrows_go_by_frets(void **state)
{
    struct app *app = start(BOARD);

    (void)state;
    bench_press(app, "{Right}");
    assert_int_equal(app_cell(app)->key.fret, 13);
    bench_press(app, "{Down}{Left}{Left}");
    assert_int_equal(app_cell(app)->key.fret, 11);
    assert_int_equal(app_cell(app)->key.string, 5);
    for (int i = 0; i < 30; i++)
        bench_press(app, "{Left}");
    assert_int_equal(app_cell(app)->key.field, FIELD_SETBACK);
    for (int i = 0; i < 30; i++)
        bench_press(app, "{Right}");
    assert_int_equal(app_cell(app)->key.fret, 20);
    bench_close(app);
}

/* About 0.015 in a cent on a 25.5 in scale, sharp notes moving the saddle back (common
 * practice, no published source); the tuner's step of 1 cent leaves 2/sqrt(12) of that. */
static void ten_cents_sharp_move_the_saddle_back(void **state)
{
    struct app *app = start(BOARD);
    const struct pitch_move *move = &pitch_state(app)->string[6];

    (void)state;
    assert_int_equal(move->state, PITCH_UNREAD);
    bench_press(app, "10{Enter}");
    assert_int_equal(move->state, PITCH_DUE);
    assert_int_equal(move->fret, 12);
    assert_near(move->change_mm / 25.4, 0.15, 0.005);
    assert_near(move->change_u_mm / 25.4, 0.015 * 2 / sqrt(12), 0.0005);
    bench_press(app, "{Home}-10{Enter}");
    assert_near(move->change_mm / 25.4, -0.15, 0.005);
    bench_close(app);
}

static void expect_contact(const struct app *app, int string, const char *wanted)
{
    char memory[160];
    struct strbuf text = STRBUF(memory);

    pitch_add_contact(&pitch_state(app)->string[string], &app->units, &text);
    assert_string_equal(memory, wanted);
}

/* Whoever marks a contact that stands on no setback cuts in the wrong place. */
static void no_contact_without_the_setback(void **state)
{
    struct app *app = start(BOARD "string.5 setback = 3 mm\nvisit.1.pass.1 cents.5.12 = 10\n"
                                  "visit.1.pass.1 cents.6.12 = 10\n");

    (void)state;
    assert_near(assert_given(pitch_state(app)->string[5].contact_mm), 25.5 * 25.4 + 3, 1e-9);
    assert_int_equal(pitch_state(app)->string[6].state, PITCH_DUE);
    assert_true(pitch_state(app)->string[6].has_change);
    assert_false(pitch_state(app)->string[6].contact_mm.given);
    expect_contact(app, 6, "setback not entered: no saddle contact from the nut");
    bench_close(app);
}

/* It agrees with the figure that is printed for a string with one reading. */
static void the_move_is_the_figure(void **state)
{
    struct app *app = start(BOARD "string.6 setback = 3 mm\nvisit.1.pass.1 cents.6.7 = 4\n");
    const struct pitch_move *move = &pitch_state(app)->string[6];
    const struct figure *figure = &app->now.figures.at[FIGURE_SETBACK_CHANGE][6];

    (void)state;
    assert_int_equal(figure->known, KNOWN_READ);
    assert_near_relative(move->change_mm, figure->value, 1e-12);
    assert_near_relative(move->change_u_mm, figure->u, 1e-9);
    assert_int_equal(move->fret, 7);
    assert_false(move->has_fit);
    bench_close(app);
}

/* What the list of moves puts off, the leaf puts off too; what was moved since is no longer to be
 * moved by the cents that were read before. */
static void the_list_s_word_stands_here_too(void **state)
{
    static const char off[] = BOARD
        "visit.1 date = 2026-03-02\nvisit.1.pass.1 time = 10:00\nvisit.1.pass.1 cents.6.12 = 6\n"
        "visit.1.pass.1 cents.5.12 = 6\n"
        "string.6 setback = 3 mm\nstring.5 setback = 3 mm\n";
    char memory[200];
    struct strbuf words = STRBUF(memory);
    struct app *app = start(off);

    (void)state;
    pitch_add_wait(pitch_state(app), &words);
    assert_string_equal(memory, "");
    assert_string_not_equal(pitch_caution(pitch_state(app)), "");
    bench_close(app);
    app = bench_open(build_record_full, "visit.1.pass.1 cents.6.12 = 6\n", LEAF_PITCH);
    assert_int_equal(app->now.moves.move[MOVE_PITCH].waits, WAIT_SETUP);
    pitch_add_wait(pitch_state(app), &words);
    assert_string_equal(memory, ", wait: the other moves first");
    assert_string_equal(pitch_caution(pitch_state(app)), "");
    bench_close(app);
    app = bench_open(off,
                     "visit.1.work.1 kind = pitch\nvisit.1.work.1 time = 10:30\n"
                     "visit.1.work.1 amount = saddle: string 6 back 2.2 mm\n",
                     LEAF_PITCH);
    assert_int_equal(pitch_state(app)->string[6].state, PITCH_MOVED);
    assert_int_equal(pitch_state(app)->string[5].state, PITCH_DUE);
    strbuf_clear(&words);
    pitch_add_short(&pitch_state(app)->string[6], &app->units, &words);
    assert_string_equal(memory, "read again");
    strbuf_clear(&words);
    pitch_add_move(pitch_state(app), 6, &app->units, &words);
    assert_string_equal(memory,
                        "string 6 was 6 cents at fret 12; its saddle was moved: p on Bench, "
                        "then tune and read it");
    bench_close(app);
}

/* What a player varies by is left alone, what the tuner cannot tell is said to be so. */
static void small_moves_are_not_worth_making(void **state)
{
    struct app *app = start(BOARD "targets cents_tolerance = 2\nvisit.1.pass.1 cents.6.12 = 2\n"
                                  "visit.1.pass.1 cents.5.12 = 2.5\n");

    (void)state;
    assert_int_equal(pitch_state(app)->string[6].state, PITCH_IN_TUNE);
    assert_int_equal(pitch_state(app)->string[5].state, PITCH_DUE);
    bench_close(app);
    app = start(BOARD "model tuner_step = 5\nvisit.1.pass.1 cents.5.12 = 2.5\n");
    assert_int_equal(pitch_state(app)->string[5].state, PITCH_WITHIN);
    bench_close(app);
}

/* An octave sharp at fret 12 sounds as the open string an octave up: no setback does that. */
static void impossible_cents_give_no_move(void **state)
{
    struct app *app = start(BOARD "visit.1.pass.1 cents.6.12 = 1200\n");
    char memory[160];
    struct strbuf words = STRBUF(memory);

    (void)state;
    assert_int_equal(pitch_state(app)->string[6].state, PITCH_DUE);
    assert_false(pitch_state(app)->string[6].has_change);
    pitch_add_move(pitch_state(app), 6, &app->units, &words);
    assert_non_null(strstr(memory, "look again"));
    bench_close(app);
}

/* Readings that a saddle 1 mm too near and a nut 0.5 mm too far make, by the formula of the
 * fit itself: cents = -(1731.23/L)(s (1 - 2^(n/12)) - v). */
static void several_frets_tell_the_nut_from_the_saddle(void **state)
{
    static const int frets[] = {1, 5, 12};
    char lines[400];
    struct strbuf text = STRBUF(lines);

    (void)state;
    strbuf_add(&text, BOARD);
    for (int i = 0; i < 3; i++) {
        const double shift_mm = 1 * (1 - exp2(frets[i] / 12.0)) - 0.5;

        strbuf_addf(&text, "visit.1.pass.1 cents.6.%d = ", frets[i]);
        num_format(-(1731.23 / 647.7) * shift_mm, &text);
        strbuf_add_char(&text, '\n');
    }
    struct app *app = start(lines);
    const struct pitch_move *move = &pitch_state(app)->string[6];
    assert_true(move->has_fit);
    assert_int_equal(move->count, 3);
    assert_int_equal(move->fret, 12);
    assert_near(move->fit_setback_mm, 1, 1e-3);
    assert_near(move->fit_nut_mm, 0.5, 1e-3);
    assert_near(move->fit_cents, 0, 1e-3);
    bench_close(app);
}

static void an_entry_is_seen_in_the_moves_before_enter(void **state)
{
    struct app *app = start(BOARD "visit.1.pass.1 cents.6.12 = 10\n");
    const double kept = pitch_state(app)->string[6].change_mm;

    (void)state;
    bench_press(app, "20");
    assert_true(app->previewing);
    assert_true(pitch_state(app)->string[6].change_mm > 1.9 * kept);
    assert_int_equal(pitch_state(app)->curve.read.count, 1);
    assert_near(pitch_state(app)->curve.read.at[0].cents, 20, 0);
    bench_press(app, "{Esc}");
    assert_near(pitch_state(app)->string[6].change_mm, kept, 0);
    bench_close(app);
}

/* Without a board nothing is asked of anybody, and nothing is read beyond it. */
static void odd_boards_make_no_moves(void **state)
{
    static const char *const boards[] = {
        "",
        "board strings = 6\n",
        "board strings = 6\nboard frets = 22\nvisit.1.pass.1 cents.6.12 = 5\n",
        "board scale = 25.5 in\nboard strings = 1\nboard frets = 0\n",
    };

    (void)state;
    for (size_t i = 0; i < sizeof boards / sizeof boards[0]; i++) {
        struct app *app = start(boards[i]);

        bench_press(app, "5{Enter}{Right}{Left}{End}5{Enter}");
        for (int s = 1; s <= STRINGS_MAX; s++)
            assert_int_equal(pitch_state(app)->string[s].state, PITCH_UNREAD);
        assert_string_equal(pitch_caution(pitch_state(app)), "");
        bench_close(app);
    }
}

static void check_saddle(const char *width, const char *words, bool narrow)
{
    char lines[400], memory[200];
    struct strbuf out = STRBUF(memory);

    snprintf(lines, sizeof lines,
             BOARD "bridge kind = blank\n%s\nstring.6 setback = 2 mm\n"
                   "visit.1.pass.1 cents.6.12 = 6",
             width);
    struct app *app = start(lines);
    struct pitch_plan *plan = malloc(sizeof *plan);

    pitch_plan_make(app_place(app), &app->now, 6, plan);
    pitch_add_saddle(plan, &app->units, &out);
    assert_string_equal(memory, words);
    assert_int_equal(pitch_saddle_is_narrow(plan), narrow);
    free(plan);
    bench_close(app);
}

/* 6 cents at fret 12 of 25.5 in are 2.3 mm of setback (.015 in a cent: common practice); a saddle
 * has its width less 1 mm. */
static void saddle_is_held_against_what_is_asked_for(void **state)
{
    (void)state;
    check_saddle("", "", false);
    check_saddle("bridge saddle_width = 5 mm",
                 "saddle wide enough: contacts take .090 in, a crown leaves .157", false);
    check_saddle("bridge saddle_width = 3 mm",
                 "saddle too narrow: contacts take .090 in, a crown leaves .079; recut its slot",
                 true);
}

/* A string's pitch goes up by how stiff its core is; nothing usual is known of a nylon's (method.md
 * 5: sorts differ by a factor of two), so the modulus is what to ask for, not a gauge that is
 * there. */
static void what_a_prediction_lacks_is_named(void **state)
{
    static const char *const strings[][2] = {
        {"string.1 note = E4\n", "gauge, build and core are missing"},
        {"string.1 note = E4\nstring.1 gauge = .028 in\nstring.1 build = nylon\n",
         "the core's modulus"},
        {"string.1 note = D3\nstring.1 gauge = .029 in\nstring.1 build = nylon-wound\n"
         "string.1 mass = 1.9 g/m\n",
         "the core's modulus"},
        {"string.1 note = D3\nstring.1 gauge = .029 in\nstring.1 build = nylon-wound\n"
         "string.1 mass = 1.9 g/m\nstring.1 modulus = 2500 MPa\n",
         "the core's gauge"},
        {"string.1 note = E4\nstring.1 gauge = .028 in\nstring.1 build = nylon\n"
         "string.1 modulus = 2500 MPa\n",
         "predicted setback"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof strings / sizeof strings[0]; i++) {
        struct app *app = bench_open(build_record_full, strings[i][0], LEAF_PITCH);
        char memory[200];
        struct strbuf words = STRBUF(memory);

        pitch_add_predicted(&app->now, 1, &app->units, &words);
        if (!strstr(memory, strings[i][1]))
            fail_msg("\"%s\" is not said in \"%s\"", strings[i][1], memory);
        bench_close(app);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(saddle_is_held_against_what_is_asked_for),
        cmocka_unit_test(every_cell_is_laid_once),
        cmocka_unit_test(fret_12_comes_first),
        cmocka_unit_test(the_number_pad_reaches_every_cell),
        cmocka_unit_test(arrows_go_by_frets),
        cmocka_unit_test(ten_cents_sharp_move_the_saddle_back),
        cmocka_unit_test(no_contact_without_the_setback),
        cmocka_unit_test(the_move_is_the_figure),
        cmocka_unit_test(the_list_s_word_stands_here_too),
        cmocka_unit_test(small_moves_are_not_worth_making),
        cmocka_unit_test(impossible_cents_give_no_move),
        cmocka_unit_test(several_frets_tell_the_nut_from_the_saddle),
        cmocka_unit_test(an_entry_is_seen_in_the_moves_before_enter),
        cmocka_unit_test(what_a_prediction_lacks_is_named),
        cmocka_unit_test(odd_boards_make_no_moves),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
