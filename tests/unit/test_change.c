/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "bench_session.h"
#include "build_record.h"
#include "session/change.h"
#include "session/take_out.h"

/* What the instrument is like, filed in the first visit, in later ones, and corrected. */

static const char three[] = "profile format = 1\nboard scale = 24.9 in\nboard strings = 6\n"
                            "board frets = 19\nboard join_fret = 14\nneck rod = one-way\n"
                            "string.6 note = E2\nstring.6 gauge = .053 in\n"
                            "string.6 build = round-wound\nstring.6 core = .019 in\n"
                            "string.6 weigh_mass = 7 g\nstring.6 weigh_length = 1000 mm\n"
                            "string.5 gauge = .042 in\nstring.4 gauge = .032 in\n"
                            "string.3 gauge = .024 in\nstring.2 gauge = .016 in\n"
                            "string.1 gauge = .012 in\ntargets relief = .010 in\n"
                            "visit.1 date = 2026-01-10\nvisit.1.pass.1 relief = .013 in\n"
                            "visit.2 date = 2026-02-20\nvisit.2.pass.1 relief = .012 in\n"
                            "visit.3 date = 2026-03-02\nvisit.3.pass.1 relief = .011 in\n";

/* What is filed under exactly "section key"; NULL for nothing. */
static const char *filed(const struct app *app, const char *line)
{
    char memory[80];
    struct strbuf section = STRBUF(memory);
    struct reading_key key;

    strbuf_add_bytes(&section, line, strcspn(line, " "));
    assert_int_equal(reading_key_parse(memory, strchr(line, ' ') + 1, &key), STATUS_OK);
    const struct reading *reading = record_find(&app->record, &key);
    return reading ? reading->text : NULL;
}

static void expect(const struct app *app, const char *line, const char *text)
{
    const char *held = filed(app, line);

    if (!text != !held || (text && strcmp(held, text) != 0))
        fail_msg("%s: %s is filed, not %s", line, held ? held : "nothing", text ? text : "nothing");
}

static void expect_said(const struct app *app, const char *words)
{
    if (!strstr(app->message, words))
        fail_msg("\"%s\" is not said in \"%s\"", words, app->message);
}

/* How the entry line says that the cell in hand is filed. */
static void expect_words(const struct app *app, const char *wanted)
{
    char memory[80];
    struct strbuf words = STRBUF(memory);

    change_add_words(app, &app_cell(app)->key, &words);
    assert_string_equal(memory, wanted);
}

static void later_edits_are_changes_and_undo_takes_them_back(void **state)
{
    struct app *app = bench_open(three, "", LEAF_STRINGS);
    struct record before;

    (void)state;
    assert_int_equal(record_copy(&app->record, &before), STATUS_OK);
    bench_press(app, "{Right}");
    expect_words(app, ", from this visit on");
    assert_true(bench_press(app, ".056{Enter}").save);
    expect(app, "visit.3.string.6 gauge", ".056 in");
    expect(app, "string.6 gauge", ".053 in");
    expect(app, "profile format", "2");
    bench_press(app, "<");
    assert_int_equal(app->visit, 2);
    assert_string_equal(bench_text(app, "string.6 gauge"), ".053 in");
    assert_near(app->now.string[6].build.gauge_mm, 53 * 0.0254, 1e-9);
    bench_press(app, ">");
    assert_near(app->now.string[6].build.gauge_mm, 56 * 0.0254, 1e-9);
    bench_press(app, "<*1");
    assert_int_equal(app->visit, 3);
    assert_int_equal(app_cell(app)->key.field, FIELD_GAUGE);
    assert_true(record_equal(&app->record, &before));
    bench_press(app, "*.1");
    expect(app, "visit.3.string.6 gauge", ".056 in");
    expect(app, "profile format", "2");
    record_done(&before);
    bench_close(app);
}

static void the_preview_shows_what_would_be_filed(void **state)
{
    struct app *app = bench_open(three, "", LEAF_STRINGS);

    (void)state;
    bench_press(app, "{Right}.056");
    assert_true(app->previewing);
    assert_near(app->preview.string[6].build.gauge_mm, 56 * 0.0254, 1e-9);
    bench_press(app, "{Esc}.057{Enter}{Up}=.055");
    assert_true(app->previewing);
    assert_near(app->preview.string[6].build.gauge_mm, 55 * 0.0254, 1e-9);
    bench_close(app);
}

static void the_first_visit_says_what_the_instrument_is_like(void **state)
{
    struct app *app = bench_open(three, "", LEAF_STRINGS);

    (void)state;
    bench_press(app, "<<");
    assert_int_equal(app->visit, 1);
    bench_press(app, "{Right}");
    expect_words(app, "");
    bench_press(app, ".054{Enter}");
    expect(app, "string.6 gauge", ".054 in");
    expect(app, "visit.1.string.6 gauge", NULL);
    expect(app, "profile format", "1");
    bench_press(app, "=");
    expect_said(app, "not in the first visit");
    bench_close(app);
}

/* Seen from a visit before the last, a change holds until the next change. */
static void an_earlier_visit_changes_up_to_the_next_change(void **state)
{
    struct app *app = bench_open(three, "", LEAF_STRINGS);

    (void)state;
    bench_press(app, "{Right}.056{Enter}{Enter}.034{Enter}<{Right}");
    assert_int_equal(app->visit, 2);
    bench_press(app, ".054{Enter}.043{Enter}");
    expect(app, "visit.2.string.6 gauge", ".054 in");
    expect(app, "visit.3.string.6 gauge", ".056 in");
    bench_press(app, ">");
    assert_string_equal(bench_text(app, "string.6 gauge"), ".056 in");
    assert_string_equal(bench_text(app, "string.5 gauge"), ".043 in");
    assert_string_equal(bench_text(app, "string.4 gauge"), ".034 in");
    bench_press(app, "<<");
    assert_string_equal(bench_text(app, "string.6 gauge"), ".053 in");
    assert_string_equal(bench_text(app, "string.5 gauge"), ".042 in");
    bench_close(app);
}

static void a_correction_is_of_the_visits_before(void **state)
{
    struct app *app = bench_open(three, "", LEAF_STRINGS);

    (void)state;
    bench_press(app, "{Right}=");
    expect_words(app, ", correction: all visits");
    bench_press(app, ".054{Enter}");
    expect(app, "string.6 gauge", ".054 in");
    expect(app, "visit.3.string.6 gauge", NULL);
    expect(app, "profile format", "1");
    /* It holds for the cells that follow, and ends with = or on another leaf. */
    bench_press(app, ".041{Enter}");
    expect(app, "string.5 gauge", ".041 in");
    bench_press(app, "=");
    expect_words(app, ", from this visit on");
    bench_press(app, "={PgDn}{PgUp}");
    assert_false(app->correcting);
    /* What visit 2 changed is corrected there. */
    bench_press(app, "<{Right}.060{Enter}>{Right}=");
    expect_words(app, ", correction: from visit 2 on");
    bench_press(app, ".058{Enter}");
    expect(app, "visit.2.string.6 gauge", ".058 in");
    expect(app, "string.6 gauge", ".054 in");
    expect(app, "visit.3.string.6 gauge", NULL);
    bench_close(app);
}

static void a_filed_change_becomes_a_correction(void **state)
{
    struct app *app = bench_open(three, "", LEAF_STRINGS);

    (void)state;
    bench_press(app, "{Right}.056{Enter}{Up}");
    assert_true(bench_press(app, "=").save);
    expect_said(app, "gauge, string 6, correction: all visits");
    assert_false(app->correcting);
    expect(app, "string.6 gauge", ".056 in");
    expect(app, "visit.3.string.6 gauge", NULL);
    bench_press(app, "*1");
    expect(app, "string.6 gauge", ".053 in");
    expect(app, "visit.3.string.6 gauge", ".056 in");
    /* That one holds no longer is a change too. */
    bench_press(app, "{Del}{Del}");
    expect(app, "visit.3.string.6 gauge", RECORD_GONE);
    bench_press(app, "=");
    expect(app, "visit.3.string.6 gauge", NULL);
    expect(app, "string.6 gauge", NULL);
    bench_press(app, "*1");
    expect(app, "string.6 gauge", ".053 in");
    bench_close(app);
}

/* What the file's word for it would say. */
static void a_text_of_any_words_is_a_text(void **state)
{
    struct app *app = bench_open(three, "instrument owner = A. Marsh\n", LEAF_INTAKE);
    const struct reading_key owner = reading_key_one(FIELD_OWNER);

    (void)state;
    while (app_cell(app)->key.field != FIELD_OWNER)
        bench_press(app, "{Down}");
    bench_press(app, "absent{Enter}");
    expect(app, "visit.3.instrument owner", "absent");
    assert_string_equal(record_text(&app->record, &owner), "absent");
    bench_press(app, "*1");
    assert_string_equal(record_text(&app->record, &owner), "A. Marsh");
    bench_close(app);
}

/* The change of this visit goes first, then what it changed. */
static void taking_out_goes_back_a_visit(void **state)
{
    struct app *app = bench_open(three, "", LEAF_STRINGS);

    (void)state;
    bench_press(app, "{Right}.056{Enter}{Up}{Del}");
    expect_said(app, ".056 taken out of this visit");
    expect(app, "visit.3.string.6 gauge", NULL);
    assert_string_equal(bench_text(app, "string.6 gauge"), ".053 in");
    bench_press(app, "{Del}");
    expect(app, "visit.3.string.6 gauge", RECORD_GONE);
    expect(app, "string.6 gauge", ".053 in");
    assert_null(bench_text(app, "string.6 gauge"));
    bench_press(app, "<");
    assert_string_equal(bench_text(app, "string.6 gauge"), ".053 in");
    bench_press(app, ">{Right}{Del}");
    expect(app, "visit.3.string.6 gauge", NULL);
    assert_string_equal(bench_text(app, "string.6 gauge"), ".053 in");
    /* Nothing was known before, so nothing has to be said to be gone. */
    bench_press(app, "{Right}{Down}.016{Enter}{Up}");
    expect(app, "visit.3.string.5 core", ".016 in");
    bench_press(app, "{Del}");
    expect(app, "visit.3.string.5 core", NULL);
    assert_false(bench_press(app, "{Del}").save);
    bench_close(app);
}

static void what_is_the_same_in_all_visits_is_corrected(void **state)
{
    struct app *app = bench_open(three, "", LEAF_NECK);

    (void)state;
    for (int i = 0; i < app->route.count && app_cell(app)->key.field != FIELD_WIDTH_NUT; i++)
        bench_press(app, "{Enter}");
    expect_words(app, ", all visits");
    bench_press(app, "1.75{Enter}");
    expect(app, "board width_nut", "1.75 in");
    expect(app, "profile format", "1");
    for (int i = 0; i < app->route.count && app_cell(app)->key.field != FIELD_THICKNESS; i++)
        bench_press(app, "{Enter}");
    expect_words(app, ", from this visit on");
    bench_press(app, ".25{Enter}");
    expect(app, "visit.3.board thickness", ".25 in");
    bench_close(app);
}

static void targets_changed_on_the_bench_hold_from_here_on(void **state)
{
    struct app *app = bench_open(three, "", LEAF_BENCH);

    (void)state;
    bench_press(app, "k");
    expect_said(app, "from this visit on");
    expect(app, "targets relief", ".010 in");
    assert_near(app->now.setup.relief_target_mm.value, 11 * 0.0254, 1e-9);
    bench_press(app, "<");
    assert_near(app->now.setup.relief_target_mm.value, 10 * 0.0254, 1e-9);
    bench_close(app);
}

/* The Strings leaf of a new visit shows the last set, and can change it before anything is
 * measured. */
static void a_new_visit_begins_with_the_last_set(void **state)
{
    struct app *app = bench_open(three, "", LEAF_BENCH);

    (void)state;
    bench_press(app, "v{F3}");
    assert_int_equal(app->visit, 4);
    assert_string_equal(bench_text(app, "string.6 gauge"), ".053 in");
    bench_press(app, "{Right}.056{Enter}");
    expect(app, "visit.4.string.6 gauge", ".056 in");
    expect(app, "visit.4 date", "2026-03-02");
    bench_press(app, "{F2}");
    assert_int_equal(app->visit, 4);
    /* Nothing was measured in it, and it is there all the same. */
    bench_press(app, "<");
    assert_int_equal(app->visit, 3);
    bench_press(app, ">");
    assert_int_equal(app->visit, 4);
    bench_press(app, "*1");
    assert_int_equal(record_last_visit(&app->record), 3);
    bench_close(app);
}

static void restrung_is_one_step_with_a_line_of_work(void **state)
{
    struct app *app = bench_open(three, "", LEAF_STRINGS);
    struct record before;

    (void)state;
    assert_int_equal(record_copy(&app->record, &before), STATUS_OK);
    bench_press(app, "*gsteel-extra-light{Enter}*C");
    expect_said(app, "This visit was read");
    assert_true(record_equal(&app->record, &before));
    bench_press(app, "+"); /* they were on already */
    expect_said(app, "Restrung");
    expect(app, "visit.3.work.1 kind", "restrung");
    expect(app, "visit.3.work.1 time", "10:42");
    expect(app, "visit.3.string.6 weigh_mass", RECORD_GONE);
    expect(app, "string.6 weigh_mass", "7 g");
    const char *gauge = filed(app, "visit.3.string.6 gauge");
    const char *amount = filed(app, "visit.3.work.1 amount");
    assert_non_null(gauge);
    assert_non_null(amount);
    assert_non_null(strstr(amount, "steel-extra-light"));
    assert_non_null(strstr(amount, gauge));
    bench_press(app, "*1");
    assert_true(record_equal(&app->record, &before));
    /* The same set again changes nothing but says so. */
    bench_press(app, "*C");
    expect(app, "visit.3.work.1 amount", "same set, .012 in to .053 in, E2");
    expect(app, "visit.3.string.6 weigh_mass", NULL);
    record_done(&before);
    bench_close(app);
}

/* The neck bends anew, so what was read has to be measured again; a correction asks for nothing. */
static void retuned_asks_to_measure_again(void **state)
{
    struct app *app = bench_open(three, "string.5 note = A2\n", LEAF_STRINGS);

    (void)state;
    assert_false(app->now.moves.retuned);
    while (app_cell(app)->key.string != 6)
        bench_press(app, "{Up}");
    assert_int_equal(app_cell(app)->key.field, FIELD_STRING_NOTE);
    bench_press(app, "d2{Enter}");
    expect(app, "visit.3.work.1 kind", "retuned");
    expect(app, "visit.3.work.1 amount", "D2 A2");
    expect(app, "visit.3.work.1 time", "10:42");
    expect_said(app, "Retuned");
    assert_true(app->now.moves.retuned);
    assert_int_equal(move_set_verdict(&app->now.moves), MOVES_MEASURE);
    bench_press(app, "g2{Enter}");
    expect(app, "visit.3.work.1 amount", "D2 G2");
    expect(app, "visit.3.work.2 kind", NULL);
    bench_press(app, "*1*1");
    expect(app, "visit.3.work.1 kind", NULL);
    expect(app, "visit.3.string.6 note", NULL);
    /* As a what-if that is taken over. */
    bench_press(app, "*J*y");
    expect(app, "visit.3.work.1 kind", "retuned");
    expect_said(app, "Retuned");
    bench_press(app, "*1");
    while (app_cell(app)->key.string != 6)
        bench_press(app, "{Up}");
    bench_press(app, "=d2{Enter}");
    expect(app, "string.6 note", "d2");
    expect(app, "visit.3.work.1 kind", NULL);
    assert_false(app->now.moves.retuned);
    bench_close(app);
}

/* In the middle of a visit: what was read stays with the strings it was read on. */
static void other_strings_go_into_a_new_visit(void **state)
{
    struct app *app = bench_open(three, "", LEAF_STRINGS);
    struct record before;
    struct derived read, later;

    (void)state;
    assert_int_equal(record_copy(&app->record, &before), STATUS_OK);
    derive_pass(place_of(&app->record, 3, 1), &read);
    bench_press(app, "*gsteel-extra-light{Enter}*C{Esc}");
    expect_said(app, "Nothing was filed");
    assert_true(record_equal(&app->record, &before));
    assert_true(bench_press(app, "*C{Enter}").save);
    expect_said(app, "Restrung");
    assert_int_equal(app->visit, 4);
    expect(app, "visit.4.work.1 kind", "restrung");
    expect(app, "visit.4 date", "2026-03-02");
    assert_non_null(filed(app, "visit.4.string.6 gauge"));
    expect(app, "visit.3.string.6 gauge", NULL);
    expect(app, "visit.3.work.1 kind", NULL);
    derive_pass(place_of(&app->record, 3, 1), &later);
    for (int id = 0; id < FIGURE_COUNT_; id++)
        for (int s = 0; s <= 6; s++) {
            const struct maybe was = figures_get(&read.figures, (enum figure_id)id, s);
            const struct maybe is = figures_get(&later.figures, (enum figure_id)id, s);

            assert_int_equal(is.given, was.given);
            assert_true(!was.given || is.value == was.value);
        }
    bench_press(app, "*1");
    assert_true(record_equal(&app->record, &before));
    /* Before anything is read in the visit there is nothing to ask. */
    bench_press(app, "v*gsteel-extra-light{Enter}*C");
    expect_said(app, "Restrung");
    expect(app, "visit.4.work.1 kind", "restrung");
    record_done(&before);
    bench_close(app);
}

static void a_visit_goes_with_its_changes(void **state)
{
    struct app *app = bench_open(three, "", LEAF_STRINGS);

    (void)state;
    bench_press(app, "{Right}.056{Enter}{F1}*Z{Enter}");
    expect_said(app, "The visit is taken out");
    expect(app, "visit.3.string.6 gauge", NULL);
    assert_string_equal(bench_text(app, "string.6 gauge"), ".053 in");
    bench_press(app, "*1");
    expect(app, "visit.3.string.6 gauge", ".056 in");
    bench_close(app);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(later_edits_are_changes_and_undo_takes_them_back),
        cmocka_unit_test(the_preview_shows_what_would_be_filed),
        cmocka_unit_test(the_first_visit_says_what_the_instrument_is_like),
        cmocka_unit_test(an_earlier_visit_changes_up_to_the_next_change),
        cmocka_unit_test(a_correction_is_of_the_visits_before),
        cmocka_unit_test(a_filed_change_becomes_a_correction),
        cmocka_unit_test(a_text_of_any_words_is_a_text),
        cmocka_unit_test(taking_out_goes_back_a_visit),
        cmocka_unit_test(what_is_the_same_in_all_visits_is_corrected),
        cmocka_unit_test(targets_changed_on_the_bench_hold_from_here_on),
        cmocka_unit_test(a_new_visit_begins_with_the_last_set),
        cmocka_unit_test(retuned_asks_to_measure_again),
        cmocka_unit_test(restrung_is_one_step_with_a_line_of_work),
        cmocka_unit_test(other_strings_go_into_a_new_visit),
        cmocka_unit_test(a_visit_goes_with_its_changes),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
