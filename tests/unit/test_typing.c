/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "app/app.h"
#include "bench_session.h"
#include "build_record.h"

static int set_up(void **state)
{
    struct app *app = malloc(sizeof *app);

    bench_start(app, build_record_full);
    *state = app;
    return 0;
}

static int tear_down(void **state)
{
    app_done(*state);
    free(*state);
    return 0;
}

/* Takes a cell of the intake form in hand. */
static void go_to(struct app *app, enum field_id field)
{
    const struct reading_key key = reading_key_one(field);

    while (app->leaf != LEAF_INTAKE)
        bench_press(app, "{PgUp}");
    bench_press(app, "{Home}");
    while (app_cell(app)->key.field != field && app->at < app->route.count - 1)
        bench_press(app, "{Down}");
    assert_int_equal(route_find(&app->route, &key), app->at);
}

static void a_choice_is_stepped_through(void **state)
{
    struct app *app = *state;

    go_to(app, FIELD_ROD);
    bench_press(app, "2{Enter}");
    assert_string_equal(bench_text(app, "neck rod"), "one-way");
    bench_press(app, "{Up}+");
    assert_string_equal(app->entry_view.words, "two-way");
    bench_press(app, " ");
    assert_string_equal(app->entry_view.words, "fixed");
    /* Round and round, and back. */
    bench_press(app, "+");
    assert_string_equal(app->entry_view.words, "none");
    bench_press(app, "-");
    assert_string_equal(app->entry_view.words, "fixed");
    assert_string_equal(bench_text(app, "neck rod"), "one-way");
    bench_press(app, "{Enter}");
    assert_string_equal(bench_text(app, "neck rod"), "fixed");
}

static void another_number_takes_another_choice(void **state)
{
    struct app *app = *state;

    go_to(app, FIELD_ROD);
    bench_press(app, "23");
    assert_string_equal(app->entry.text, "3");
    bench_press(app, "{Esc}");
    go_to(app, FIELD_KIND);
    /* Of ten choices the tenth has two digits. */
    bench_press(app, "210");
    assert_string_equal(app->entry_view.words, "other");
    bench_press(app, "4{Enter}");
    assert_string_equal(bench_text(app, "instrument kind"), "bass");
}

static void a_choice_is_written_anew(void **state)
{
    struct app *app = *state;

    go_to(app, FIELD_ROD);
    bench_press(app, "2{Enter}{Up}e");
    assert_string_equal(app->entry.text, "");
    bench_press(app, "no");
    assert_string_equal(app->entry_view.words, "none");
    bench_press(app, "{Enter}");
    assert_string_equal(bench_text(app, "neck rod"), "none");
    /* The number serves as well, and what begins no choice, or several, is refused. */
    bench_press(app, "{Up}e3{Enter}");
    assert_string_equal(bench_text(app, "neck rod"), "two-way");
    go_to(app, FIELD_KIND);
    bench_press(app, "eba{Enter}");
    assert_int_equal(app->tone, TONE_WARNING);
    bench_press(app, "s{Enter}");
    assert_int_equal(app->tone, TONE_NONE);
    assert_string_equal(bench_text(app, "instrument kind"), "bass");
}

/* The note above E2 is F2, the one below Eb2 (twelve semitones an octave, ISO 16). */
static void a_note_goes_by_semitones(void **state)
{
    struct app *app = *state;

    bench_press(app, "{PgDn}");
    assert_int_equal(app_cell(app)->key.field, FIELD_STRING_NOTE);
    bench_press(app, "eE2{Enter}{Up}+");
    assert_string_equal(app->entry.text, "F2");
    bench_press(app, "--{Enter}");
    assert_string_equal(bench_text(app, "string.6 note"), "Eb2");
}

static void a_number_is_written_anew(void **state)
{
    struct app *app = *state;

    bench_press(app, "e");
    assert_true(app->writing);
    assert_string_equal(app->entry.text, "");
    bench_press(app, "0.2 mm{Enter}");
    assert_string_equal(bench_text(app, "visit.1.pass.1 relief"), "0.2 mm");
    /* Nothing typed leaves it. */
    bench_press(app, "{Home}e{Enter}");
    assert_string_equal(bench_text(app, "visit.1.pass.1 relief"), "0.2 mm");
}

static void a_text_is_edited(void **state)
{
    struct app *app = *state;

    go_to(app, FIELD_NAME);
    bench_press(app, "eTenor{Enter}{Up}e");
    assert_string_equal(app->entry.text, "Tenor");
    bench_press(app, "{Home}4 {Right}{Del}{Back}t{End}s{Left}{Left}-{Enter}");
    assert_string_equal(bench_text(app, "instrument name"), "4 tno-rs");
    bench_press(app, "{Up}e{^U}New{Enter}");
    assert_string_equal(bench_text(app, "instrument name"), "New");
    /* Backspace in an emptied text goes nowhere; Enter takes the text out. */
    bench_press(app, "{Up}e{^U}{Back}");
    assert_true(app->writing);
    bench_press(app, "{Enter}");
    assert_null(bench_text(app, "instrument name"));
    bench_press(app, "u");
    assert_string_equal(bench_text(app, "instrument name"), "New");
}

static void what_is_typed_is_not_lost_by_turning_leaves(void **state)
{
    struct app *app = *state;

    static const char *const ways[] = {"{Tab}", "{PgDn}", "{PgUp}", "{Up}", "<", ">"};

    bench_press(app, ".01");
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        bench_press(app, ways[i]);
        assert_string_equal(app->entry.text, ".01");
        assert_int_equal(app->leaf, LEAF_BENCH);
        assert_int_equal(app->tone, TONE_WARNING);
    }
    bench_press(app, "{Esc}{Tab}");
    assert_int_equal(app->leaf, LEAF_STRINGS);
}

static void an_entry_is_mended_in_place(void **state)
{
    struct app *app = *state;

    bench_press(app, ".113{Left}{Back}0{Enter}");
    assert_string_equal(bench_text(app, "visit.1.pass.1 relief"), ".103 in");
    bench_press(app, "{Home}.2{^U}");
    assert_false(app_is_typing(app));
    assert_int_equal(app->at, 0);
    bench_press(app, "{Right}");
    assert_false(app_is_typing(app));
}

#define CASE(function) cmocka_unit_test_setup_teardown(function, set_up, tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(a_choice_is_stepped_through),
        CASE(a_choice_is_written_anew),
        CASE(another_number_takes_another_choice),
        CASE(a_number_is_written_anew),
        CASE(a_text_is_edited),
        CASE(what_is_typed_is_not_lost_by_turning_leaves),
        CASE(a_note_goes_by_semitones),
        CASE(an_entry_is_mended_in_place),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
