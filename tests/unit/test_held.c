/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <string.h>

#include "session/app.h"
#include "session/app_place.h"
#include "bench_session.h"
#include "build_record.h"

/* Entries that are asked about before they are filed, or refused: what the next keys do.
 * The full record's pass 1 reads relief .013, gaps .030 to .020, actions 8.25/64 to 6/64. */

#define RELIEF "visit.1.pass.1 relief"
#define GAP_6  "visit.1.pass.1 nut_gap.6"

static void expect_said(const struct app *app, const char *words)
{
    if (!strstr(app->message, words))
        fail_msg("\"%s\" is not said in \"%s\"", words, app->message);
}

static void the_second_enter_files_it(void **state)
{
    struct app *app = *state;
    struct app_effects effects = bench_press(app, "130{Enter}");

    assert_false(effects.save);
    assert_string_equal(bench_text(app, RELIEF), ".013 in");
    assert_string_equal(app->entry.text, "130");
    assert_int_equal(app->at, 0);
    assert_int_equal(app->tone, TONE_WARNING);
    expect_said(app, "Held: .130 in is more than usual");
    expect_said(app, ".013 in is typed 13");
    effects = bench_press(app, "{Enter}");
    assert_true(effects.save);
    assert_string_equal(bench_text(app, RELIEF), "130 th");
    assert_int_equal(app->at, 1);
    assert_int_equal(app->held, HELD_NO);
}

static void it_is_said_before_enter_and_nothing_is_derived(void **state)
{
    struct app *app = *state;

    bench_press(app, "13");
    assert_true(app->previewing);
    assert_int_equal(app->doubt.kind, DOUBT_NONE);
    bench_press(app, "0");
    assert_true(app->entry_view.good);
    assert_false(app->previewing);
    assert_non_null(strstr(app->doubt_words, "more than usual"));
    bench_press(app, "{Enter}");
    assert_false(app->previewing);
    bench_press(app, "{Back}13");
    assert_true(app->previewing);
}

/* At the number pad the next string's reading is typed without a look: it does not replace what is
 * held, and is not lost without a word. */
static void a_digit_waits_for_the_answer(void **state)
{
    static const char *const beginnings[] = {"1", ".", "-", "/"};
    struct app *app = *state;

    for (size_t i = 0; i < sizeof beginnings / sizeof beginnings[0]; i++) {
        bench_press(app, "130{Enter}");
        bench_press(app, beginnings[i]);
        assert_string_equal(app->entry.text, "130");
        expect_said(app, "130 is held in relief");
        assert_int_equal(app->tone, TONE_WARNING);
        bench_press(app, "{Esc}");
    }
    bench_press(app, "130{Enter}14{Enter}");
    expect_said(app, "Held: .130 in");
    assert_string_equal(app->entry.text, "130");
    assert_string_equal(bench_text(app, RELIEF), ".013 in");
    assert_int_equal(app->at, 0);
    bench_press(app, "{Back}14{Enter}");
    assert_string_equal(bench_text(app, RELIEF), "14 th");
}

static void it_is_emptied_in_the_same_cell(void **state)
{
    static const char *const ways[] = {"{Back}", "{Esc}", "{Del}", "{^U}"};
    struct app *app = *state;

    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        bench_press(app, "130{Enter}");
        const struct app_effects effects = bench_press(app, ways[i]);

        assert_false(effects.save || effects.quit);
        assert_false(app_is_typing(app));
        assert_int_equal(app->at, 0);
        assert_string_equal(bench_text(app, RELIEF), ".013 in");
    }
}

/* Moving away is warned of and done by nobody; Enter behind it asks once more. */
static void what_comes_between_makes_enter_ask_again(void **state)
{
    static const char *const between[] = {"{Up}", "{Down}", "{Tab}", "<", "m", "{PgDn}", "q"};
    struct app *app = *state;

    for (size_t i = 0; i < sizeof between / sizeof between[0]; i++) {
        bench_press(app, "130{Enter}");
        const struct app_effects effects = bench_press(app, between[i]);

        assert_false(effects.quit || effects.units);
        assert_int_equal(app->leaf, LEAF_BENCH);
        assert_int_equal(app->at, 0);
        assert_string_equal(app->entry.text, "130");
        assert_int_equal(app->tone, TONE_WARNING);
        expect_said(app, "Enter asks again");
        bench_press(app, "{Enter}");
        assert_string_equal(bench_text(app, RELIEF), ".013 in");
        bench_press(app, "{Esc}");
    }
}

/* With an arrow it is mended as any entry is. */
static void it_can_be_mended(void **state)
{
    struct app *app = *state;

    bench_press(app, "130{Enter}{Left}{Del}{Enter}");
    assert_string_equal(bench_text(app, RELIEF), "13 th");
}

static void explanations_stay_at_hand(void **state)
{
    struct app *app = *state;

    bench_press(app, "130{Enter}?");
    assert_int_equal(app->overlay, OVERLAY_WHY);
    bench_press(app, "{Enter}");
    assert_int_equal(app->overlay, OVERLAY_NONE);
    assert_string_equal(bench_text(app, RELIEF), ".013 in");
}

/* A column typed on over a held reading neither files it nor takes its cell. */
static void readings_behind_a_held_one_do_not_file_it(void **state)
{
    struct app *app = *state;

    bench_press(app, "{Enter}240{Enter}23{Enter}22{Enter}");
    assert_string_equal(bench_text(app, GAP_6), ".030 in");
    assert_string_equal(app->entry.text, "240");
}

/* A slot that truly is too deep: asked once, then the strings beside it are not asked about. */
static void one_string_may_be_off(void **state)
{
    struct app *app = *state;

    app_done(app);
    bench_start(app, "board scale = 24.9 in\nboard strings = 6\nboard frets = 19\n"
                     "board join_fret = 14\n");
    bench_press(app, "12{Enter}24{Enter}8{Enter}");
    expect_said(app, "beside .024 in on string 6");
    bench_press(app, "{Enter}22{Enter}21{Enter}20{Enter}19{Enter}");
    assert_string_equal(bench_text(app, "visit.1.pass.1 nut_gap.5"), "8 th");
    assert_string_equal(bench_text(app, "visit.1.pass.1 nut_gap.4"), "22 th");
    assert_string_equal(bench_text(app, "visit.1.pass.1 nut_gap.1"), "19 th");
    assert_true(app->now.setup.nut_gap_unsure[5]);
    assert_false(app->now.setup.nut_gap_unsure[4]);
}

/* In pass 2 the first gap has no neighbours, but a pass before it. */
static void the_pass_before_is_compared(void **state)
{
    struct app *app = *state;

    bench_press(app, "{End}p");
    assert_int_equal(app->pass, 2);
    bench_press(app, "{Down}4{Enter}");
    expect_said(app, "expected");
    assert_null(bench_text(app, "visit.1.pass.2 nut_gap.6"));
}

static void a_reset_ends_comparing(void **state)
{
    struct app *app = *state;

    app_done(app);
    bench_start(app, build_record_full);
    build_record_add(&app->record, "visit.1 date = 2026-03-02\nvisit.1.pass.1 time = 10:00\n"
                                   "visit.1.work.1 kind = reset\nvisit.1.work.1 time = 10:30\n");
    bench_press(app, "{End}p{Down}4{Enter}");
    assert_string_equal(bench_text(app, "visit.1.pass.2 nut_gap.6"), "4 th");
}

/* --- what is said --- */

static void expect_held(struct app *app, const char *keys, const char *words)
{
    bench_press(app, keys);
    assert_int_equal(app->held, HELD_ASKED);
    if (strcmp(app->message, words) != 0)
        fail_msg("\"%s\", not \"%s\"", app->message, words);
    bench_press(app, "{Esc}");
}

static void take_intake(struct app *app, enum field_id field)
{
    app_take_leaf(app, LEAF_INTAKE);
    app->at = 0;
    while (app_cell(app)->key.field != field)
        app->at++;
}

/* In the shop's unit, as its gauges read; a hint is something to type, and never nonsense. */
static void the_words_are_short_and_make_sense(void **state)
{
    struct app *app = *state;

    expect_held(app, "1,012{Enter}", "Held: .001 in is finer than a leaf reads; or type .012 in");
    bench_press(app, "{Down}{Down}");
    assert_int_equal(app_cell(app)->key.field, FIELD_ACTION);
    expect_held(app, ".8{Enter}", "Held: 51.2/64 is more than usual");
    expect_held(app, "2.4{Enter}", "Held: 2.4/64 is finer than a rule reads; or type 2.4 mm");
    expect_held(app, "7/46{Enter}", "Held: no rule has 46ths; did you mean 7/64?");
    take_intake(app, FIELD_TEMPERATURE);
    expect_held(app, "21{Enter}", "Held: 21 F is less than usual; or type 21 C");
    take_intake(app, FIELD_TARGET_RELIEF);
    expect_held(app, "0.0006{Enter}",
                "Held: .0006 in is finer than a leaf reads; .006 in is typed 6");
}

static void a_rod_s_fraction_is_no_gap(void **state)
{
    struct app *app = *state;

    app_done(app);
    bench_start(app, build_record_full);
    build_record_add(&app->record, "visit.1.pass.2 relief = .010 in\n");
    bench_press(app, "{End}p{Right}");
    assert_int_equal(app_cell(app)->key.field, FIELD_ROD_TURN);
    expect_held(app, "1/64{Enter}", "Held: 0.016 turn is finer than a hand turns");
}

static void a_refusal_speaks_the_shop_s_units(void **state)
{
    struct app *app = *state;

    take_intake(app, FIELD_SCALE);
    bench_press(app, "650{Enter}");
    assert_string_equal(app->message, "\"650\": 650 in cannot be; 3.94 to 78.7 in");
    bench_press(app, "{Esc}9999999999999999999999{Enter}");
    expect_said(app, "such a number cannot be; 3.94 to 78.7 in");
    bench_press(app, "{Esc}m650 cm{Enter}");
    expect_said(app, "6500 mm cannot be; 100 to 2000 mm");
}

/* --- refused --- */

static void what_is_refused_stands_until_it_is_emptied(void **state)
{
    static const char *const refused[] = {"1..3", "24 23 22", "999999", "1/0", "-"};
    struct app *app = *state;

    for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++) {
        bench_press(app, "{Home}");
        bench_press(app, refused[i]);
        const struct app_effects effects = bench_press(app, "{Enter}");

        assert_false(effects.save);
        expect_said(app, refused[i]);
        assert_string_equal(app->entry.text, refused[i]);
        bench_press(app, "22");
        expect_said(app, "was not taken in relief");
        bench_press(app, "{Enter}");
        expect_said(app, refused[i]);
        bench_press(app, "{Back}14{Enter}");
        assert_string_equal(bench_text(app, RELIEF), "14 th");
    }
}

static void refused_letters_are_emptied_too(void **state)
{
    struct app *app = bench_open(build_record_full, "", LEAF_STRINGS);

    (void)state;
    bench_press(app, "H9{Enter}");
    expect_said(app, "\"H9\"");
    bench_press(app, "E2{Enter}");
    assert_string_equal(bench_text(app, "string.6 note"), "E2");
    bench_close(app);
}

/* --- undo behind a refusal --- */

static void undo_behind_a_refusal_only_tells(void **state)
{
    static const char *const refusals[] = {"1..3{Enter}", "130{Enter}", "{Unknown}"};
    struct app *app = *state;

    bench_press(app, "14{Enter}");
    for (size_t i = 0; i < sizeof refusals / sizeof refusals[0]; i++) {
        bench_press(app, "{Home}");
        bench_press(app, refusals[i]);
        struct app_effects effects = bench_press(app, "u");

        assert_false(effects.save);
        expect_said(app, "undo again takes back: relief, 14 th");
        assert_string_equal(bench_text(app, RELIEF), "14 th");
        effects = bench_press(app, "u");
        assert_true(effects.save);
        expect_said(app, "Undone: relief");
        assert_string_equal(bench_text(app, RELIEF), ".013 in");
        bench_press(app, "r");
        assert_string_equal(bench_text(app, RELIEF), "14 th");
    }
    bench_press(app, "u");
    assert_string_equal(bench_text(app, RELIEF), ".013 in");
}

/* What an earlier pass or visit read is not written over by one Enter; what it lacked is added, and
 * the last pass is corrected, as always. */
static void a_record_is_not_written_over(void **state)
{
    static const char two[] = "visit.1.pass.2 relief = .010 in\n";
    static const char later[] = "visit.2 date = 2026-03-02\nvisit.2.pass.1 relief = .009 in\n";
    static const struct {
        const char *more, *keys, *said;
    } cases[] = {
        {two, "{Home}<14", "pass 1 of 2 said .013: change the record?"},
        {two, "{Home}9", ""},
        {two, "{Home}<13 th", ""},
        {two, "{Home}<.013 in", ""},
        {later, "{Home}<14", "pass 1 of visit 1 said .013: change the record?"},
        {later, "{Home}10", ""},
        {"visit.1.pass.2 nut_gap.6 = .020 in\nvisit.1.pass.3 relief = .010 in\n", "<9", ""},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct app *app = bench_open(build_record_full, cases[i].more, LEAF_BENCH);

        bench_press(app, cases[i].keys);
        assert_string_equal(app->doubt_words, cases[i].said);
        assert_int_equal(bench_press(app, "{Enter}").save, !cases[i].said[0]);
        if (cases[i].said[0]) {
            assert_string_equal(bench_text(app, RELIEF), ".013 in");
            assert_true(bench_press(app, "{Enter}").save);
            assert_string_equal(bench_text(app, RELIEF), "14 th");
        }
        bench_close(app);
    }
}

/* A tech who types on past the end of a leaf without a look replaces nothing; one who mends what
 * was just typed, or comes back to it, does. */
static void past_the_last_cell_numbers_replace_nothing(void **state)
{
    struct app *app = bench_open(build_record_full, "", LEAF_INTAKE);

    (void)state;
    bench_press(app, "{End}");
    assert_int_equal(app_cell(app)->key.field, FIELD_TUNER_STEP);
    bench_press(app, "2{Enter}");
    expect_said(app, "This is the last cell of Intake; Tab goes on to Bench.");
    bench_press(app, "4{Enter}3{Enter}");
    expect_said(app, "Held: this is the last cell, just filed as 2: replace it?");
    assert_string_equal(bench_text(app, "model tuner_step"), "2 cents");
    bench_press(app, "{Back}5{Enter}{Enter}");
    assert_string_equal(bench_text(app, "model tuner_step"), "5 cents");
    bench_press(app, "{Up}{Down}4{Enter}");
    assert_string_equal(bench_text(app, "model tuner_step"), "4 cents");
    bench_press(app, "u3{Enter}");
    assert_string_equal(bench_text(app, "model tuner_step"), "3 cents");
    bench_close(app);
}

/* Of a string, .18 is .018 in without its 0; who writes one before the point writes millimetres. */
static void a_gauge_lacks_a_zero_or_a_unit(void **state)
{
    static const char *const cases[][2] = {
        {".18", ".018 in is typed 18"},
        {".30", ".030 in is typed 30"},
        {"0.30", "or type 0.3 mm"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct app *app =
            bench_open("board scale = 25.5 in\nboard strings = 6\n", "", LEAF_STRINGS);

        while (app_cell(app)->key.field != FIELD_GAUGE)
            bench_press(app, "{Right}");
        bench_press(app, cases[i][0]);
        if (!strstr(app->doubt_words, cases[i][1]))
            fail_msg("%s: %s", cases[i][0], app->doubt_words);
        bench_close(app);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_gauge_lacks_a_zero_or_a_unit),
        cmocka_unit_test(past_the_last_cell_numbers_replace_nothing),
        cmocka_unit_test_setup_teardown(the_second_enter_files_it, bench_setup, bench_teardown),
        cmocka_unit_test_setup_teardown(it_is_said_before_enter_and_nothing_is_derived, bench_setup,
                                        bench_teardown),
        cmocka_unit_test_setup_teardown(a_digit_waits_for_the_answer, bench_setup, bench_teardown),
        cmocka_unit_test_setup_teardown(it_is_emptied_in_the_same_cell, bench_setup,
                                        bench_teardown),
        cmocka_unit_test_setup_teardown(what_comes_between_makes_enter_ask_again, bench_setup,
                                        bench_teardown),
        cmocka_unit_test_setup_teardown(it_can_be_mended, bench_setup, bench_teardown),
        cmocka_unit_test_setup_teardown(explanations_stay_at_hand, bench_setup, bench_teardown),
        cmocka_unit_test_setup_teardown(readings_behind_a_held_one_do_not_file_it, bench_setup,
                                        bench_teardown),
        cmocka_unit_test_setup_teardown(one_string_may_be_off, bench_setup, bench_teardown),
        cmocka_unit_test_setup_teardown(the_pass_before_is_compared, bench_setup, bench_teardown),
        cmocka_unit_test_setup_teardown(a_reset_ends_comparing, bench_setup, bench_teardown),
        cmocka_unit_test_setup_teardown(the_words_are_short_and_make_sense, bench_setup,
                                        bench_teardown),
        cmocka_unit_test_setup_teardown(a_rod_s_fraction_is_no_gap, bench_setup, bench_teardown),
        cmocka_unit_test_setup_teardown(a_refusal_speaks_the_shop_s_units, bench_setup,
                                        bench_teardown),
        cmocka_unit_test_setup_teardown(what_is_refused_stands_until_it_is_emptied, bench_setup,
                                        bench_teardown),
        cmocka_unit_test(a_record_is_not_written_over),
        cmocka_unit_test(refused_letters_are_emptied_too),
        cmocka_unit_test_setup_teardown(undo_behind_a_refusal_only_tells, bench_setup,
                                        bench_teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
