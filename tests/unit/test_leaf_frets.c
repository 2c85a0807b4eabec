/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "leaf/leaves.h"
#include "session/app.h"
#include "words/explain.h"
#include "leaf/frets/frets_actions.h"
#include "leaf/frets/leaf_frets.h"
#include "bench_session.h"
#include "build_record.h"

/* The same build for every string: their mass does not matter here. */
#define STRING(n, note)                                                                            \
    "string." n " note = " note "\nstring." n " gauge = .024 in\n"                                 \
    "string." n " build = plain\n"
#define STRINGS                                                                                    \
    STRING("1", "E4")                                                                              \
    STRING("2", "B3") STRING("3", "G3") STRING("4", "D3") STRING("5", "A2") STRING("6", "E2")

static struct app *start_record(const char *lines, const char *more)
{
    return bench_open(lines, more, LEAF_FRETS);
}

static void every_cell_is_laid_once(void **state)
{
    static const int boards[][2] = {{0, 0}, {0, 22}, {1, 0}, {1, 1}, {6, 22}, {12, 36}};
    struct route *route = malloc(sizeof *route);

    (void)state;
    for (size_t i = 0; i < sizeof boards / sizeof boards[0]; i++) {
        const int strings = boards[i][0], frets = boards[i][1];
        const struct leaf_place place = {.outfit = outfit_plain(strings),
                                         .strings = strings,
                                         .frets = frets,
                                         .visit = 1,
                                         .pass = 1};

        leaf_lay(&leaf_frets, &place, route);
        assert_int_equal(route->count, 2 * strings + 2 * frets + (frets > 0));
        for (int at = 0; at < route->count; at++)
            assert_int_equal(route_find(route, &route->cells[at].key), at);
        for (int n = 1; n <= frets; n++) {
            const struct reading_key spot = reading_key_pass_at(FIELD_SPOT, 1, 1, 0, n);
            const struct reading_key crown = reading_key_pass_at(FIELD_CROWN, 1, 1, 0, n);

            assert_int_equal(route->cells[route_find(route, &spot)].column, n);
            assert_int_equal(route->cells[route_find(route, &crown)].row,
                             strings + FRETS_ROW_CROWN);
        }
    }
    free(route);
}

/* Lists of notes too, with + where a list has a blank. */
static void the_number_pad_reaches_every_cell(void **state)
{
    struct app *app =
        start_record("board scale = 25.5 in\nboard strings = 12\n", "board frets = 36\n");
    const int cells = app->route.count;

    (void)state;
    assert_int_equal(cells, 2 * 12 + 2 * 36 + 1);
    for (int i = 0; i < cells; i++)
        bench_press(app, i < 24 ? "0+3+5-7{Enter}" : i < 24 + 36 ? ".002{Enter}" : ".03{Enter}");
    for (int i = 0; i < app->route.count; i++)
        assert_non_null(record_get(&app->record, &app->route.cells[i].key));
    assert_string_equal(bench_text(app, "visit.1.pass.1 buzz.12"), "0 3 5-7");
    assert_string_equal(bench_text(app, "visit.1.pass.1 spot.36"), ".002 in");
    assert_string_equal(bench_text(app, "visit.1.pass.1 crown.36"), ".03 in");
    assert_string_equal(bench_text(app, "visit.1.pass.1 fall_away"), ".03 in");
    bench_close(app);
}

static int count_marks(const struct app *app, enum headroom headroom)
{
    int count = 0;

    for (int s = 1; s <= frets_state(app)->plan.strings; s++)
        for (int n = 0; n <= frets_state(app)->plan.frets; n++)
            count += frets_state(app)->plan.headroom[s][n] == headroom;
    return count;
}

#define LOW STRINGS "visit.1.pass.1 action.6 = 3/64 in\nvisit.1.pass.1 action.1 = 3/64 in\n"

/* A note that buzzes in a soft touch buzzes in a harder one, and only one that was tight begins to
 * buzz in the next harder one. */
static void marks_go_by_the_touch(void **state)
{
    struct app *soft = start_record(build_record_full, LOW "targets touch = soft\n");
    struct app *medium = start_record(build_record_full, LOW "targets touch = medium\n");
    struct app *hard = start_record(build_record_full, LOW "targets touch = hard\n");
    const struct app *const touches[] = {soft, medium, hard};

    (void)state;
    for (int i = 0; i < 2; i++)
        for (int s = 1; s <= 6; s++)
            for (int n = 0; n < frets_state(soft)->plan.frets; n++) {
                const enum headroom softer = frets_state(touches[i])->plan.headroom[s][n];
                const enum headroom harder = frets_state(touches[i + 1])->plan.headroom[s][n];

                assert_true(softer != HEADROOM_UNKNOWN);
                if (softer == HEADROOM_BUZZES)
                    assert_int_equal(harder, HEADROOM_BUZZES);
                if (harder == HEADROOM_BUZZES)
                    assert_int_not_equal(softer, HEADROOM_PLENTY);
            }
    assert_true(count_marks(hard, HEADROOM_BUZZES) > 0);
    assert_true(count_marks(soft, HEADROOM_PLENTY) > 0);
    bench_close(soft);
    bench_close(medium);
    bench_close(hard);
}

/* Notes up to 4 buzz, those from 5 on are clean: fret 5 is the one, as any tech would say. */
static void the_high_fret_is_named_with_its_evidence(void **state)
{
    struct app *app = start_record(build_record_full, STRINGS "visit.1.pass.1 buzz.6 = 1-4\n"
                                                              "visit.1.pass.1 clean.6 = 5-15\n");
    char memory[240];
    struct strbuf words = STRBUF(memory);

    (void)state;
    assert_int_equal(frets_state(app)->plan.buzz[6].high.fret, 5);
    assert_true(frets_add_buzz(&frets_state(app)->plan, 6, &app->units, &words));
    assert_non_null(strstr(memory, "string 6 buzzes at 1-4: fret 5 may stand "));
    strbuf_clear(&words);
    assert_true(frets_add_evidence(&frets_state(app)->plan, 6, &app->units, &words));
    assert_non_null(strstr(memory, "buzzes"));
    assert_null(strstr(memory, "against"));
    assert_false(frets_add_buzz(&frets_state(app)->plan, 5, &app->units, &words));
    assert_false(frets_add_evidence(&frets_state(app)->plan, 5, &app->units, &words));
    assert_string_equal(frets_caution(&frets_state(app)->plan), ""); /* it is only rocked */
    bench_close(app);
}

/* A buzz that no fret can cause is not blamed on one. */
static void no_fret_is_blamed_without_cause(void **state)
{
    struct app *app = start_record(build_record_full, STRINGS "visit.1.pass.1 buzz.6 = 19\n");
    char memory[240];
    struct strbuf words = STRBUF(memory);

    (void)state;
    assert_true(frets_add_buzz(&frets_state(app)->plan, 6, &app->units, &words));
    assert_non_null(strstr(memory, "no fret ahead explains it"));
    bench_close(app);
}

static void a_list_is_seen_before_enter(void **state)
{
    struct app *app = start_record(build_record_full, STRINGS);

    (void)state;
    bench_press(app, "1+2");
    assert_true(app->previewing);
    assert_true(frets_state(app)->plan.buzz[6].heard);
    assert_true(frets_state(app)->plan.buzz[6].buzzing == (UINT64_C(1) << 1 | UINT64_C(1) << 2));
    bench_press(app, "{Esc}");
    assert_false(frets_state(app)->plan.buzz[6].heard);
    bench_close(app);
}

/* Spots of +.004 and -.001 in: .004 comes off, .005 to level all; a crown of 0.65 mm is then
 * 0.55 or 0.52 mm, under the least of 0.6 mm (from memory). */
static void levelling_says_what_is_left(void **state)
{
    struct app *app = start_record(build_record_full, "visit.1.pass.1 spot.7 = .004 in\n"
                                                      "visit.1.pass.1 spot.12 = -.001 in\n"
                                                      "visit.1.pass.1 crown.7 = 0.65 mm\n");
    const struct survey_levelling *levelling = &frets_state(app)->plan.levelling;
    char memory[200];
    struct strbuf words = STRBUF(memory);

    (void)state;
    assert_true(levelling->known);
    assert_near(levelling->fret[LEVELLING_SPOTS][7].take_mm, .004 * 25.4, 1e-9);
    assert_near(levelling->fret[LEVELLING_SPOTS][7].crown_left_mm.value, 0.5484, 1e-9);
    assert_near(levelling->fret[LEVELLING_FULL][7].take_mm, .005 * 25.4, 1e-9);
    assert_true(levelling->fret[LEVELLING_FULL][7].too_low);
    frets_add_levelling(&frets_state(app)->plan, LEVELLING_SPOTS, &app->units, &words);
    assert_non_null(strstr(memory, "most off fret 7, .004"));
    assert_non_null(strstr(memory, "1 too low"));
    assert_non_null(strstr(frets_caution(&frets_state(app)->plan), "refret"));
    bench_close(app);
}

/* First the tightest, then whichever is asked for; past the last the tightest again. */
static void the_note_looked_at_goes_round(void **state)
{
    struct app *app = start_record(build_record_full, STRINGS);
    const int tightest = app_note(app), frets = frets_state(app)->plan.frets;

    (void)state;
    for (int n = 0; n < frets; n++)
        assert_true(app->now.clearance[6].headroom_mm[n].value >=
                    app->now.clearance[6].headroom_mm[tightest].value);
    bench_press(app, "k");
    assert_int_equal(app_note(app), tightest + 1);
    bench_press(app, "jj");
    assert_int_equal(app_note(app), tightest > 0 ? tightest - 1 : tightest);
    while (app_note(app) < frets)
        bench_press(app, "k");
    bench_press(app, "k");
    assert_int_equal(app_note(app), tightest);
    bench_close(app);
}

static void why_explains_the_headroom(void **state)
{
    struct app *app = start_record(build_record_full, STRINGS);
    struct explanation explanation;
    const struct explain_from from = {.place = place_of(&app->record, 1, 1), .derived = &app->now};

    (void)state;
    explain_headroom(&from, 6, 3, &explanation);
    assert_true(explanation.count > 8 && explanation.count < EXPLAIN_LINES_MAX);
    assert_non_null(strstr(explanation.lines[0].text, "string 6 at fret 3 rings clean"));
    assert_non_null(strstr(explanation.lines[1].text, "string 6, note n = 3"));
    explain_headroom(&from, 6, -1, &explanation);
    assert_non_null(strstr(explanation.lines[0].text, "not known"));
    bench_press(app, "?");
    assert_int_equal(app->why, FIGURE_COUNT_);
    bench_press(app, "{Right}{Left}");
    assert_true(app->why < FIGURE_COUNT_);
    bench_close(app);
}

/* The lowest of six strings starts at fret 5, so that its note there is its open one. */
#define SHORT "string.6 from_fret = 5\n"

static void a_short_strings_open_note_is_called_open(void **state)
{
    struct app *app =
        start_record(build_record_full, STRINGS SHORT "visit.1.pass.1 buzz.6 = 0 6\n"
                                                      "visit.1.pass.1 clean.6 = 8-15\n");
    const struct frets_plan *plan = &frets_state(app)->plan;
    const struct explain_from from = {.place = place_of(&app->record, 1, 1), .derived = &app->now};
    struct explanation explanation;
    char memory[240];
    struct strbuf words = STRBUF(memory);

    (void)state;
    frets_add_note(&app->now, plan, 6, 5, &app->units, &words);
    assert_non_null(strstr(memory, "string 6 open: headroom"));
    strbuf_clear(&words);
    assert_true(frets_add_buzz(plan, 6, &app->units, &words));
    assert_non_null(strstr(memory, "string 6 buzzes at 0 6: fret 7"));
    strbuf_clear(&words);
    assert_true(frets_add_evidence(plan, 6, &app->units, &words));
    if (!strstr(memory, "open ") && !strstr(memory, "note 6 "))
        fail_msg("%s", memory);
    assert_null(strstr(memory, "note 5 "));
    explain_headroom(&from, 6, 5, &explanation);
    assert_non_null(strstr(explanation.lines[0].text, "string 6 open "));
    bench_close(app);
}

/* A low nut under it: its open note is the tightest of all. */
static void a_short_string_is_tightest_open(void **state)
{
    struct app *app =
        start_record(build_record_full, STRINGS SHORT "visit.1.pass.1 nut_gap.6 = .003 in\n");
    char memory[240];
    struct strbuf words = STRBUF(memory);

    (void)state;
    assert_true(frets_add_tightest(&frets_state(app)->plan, &words));
    assert_non_null(strstr(memory, "tightest: string 6 open, fret "));
    bench_close(app);
}

/* With heights and gauges entered there is nothing more to enter: its last fret has none ahead. */
static void a_short_strings_buzz_asks_for_nothing_entered(void **state)
{
    struct app *app = start_record(build_record_full, STRINGS SHORT "visit.1.pass.1 buzz.6 = 19\n");
    struct app *unknown = start_record(build_record_full, SHORT "visit.1.pass.1 buzz.6 = 7\n");
    char memory[240];
    struct strbuf words = STRBUF(memory);

    (void)state;
    assert_true(frets_add_buzz(&frets_state(app)->plan, 6, &app->units, &words));
    assert_non_null(strstr(memory, "no fret ahead explains it"));
    strbuf_clear(&words);
    assert_true(frets_add_buzz(&frets_state(unknown)->plan, 6, &unknown->units, &words));
    assert_non_null(strstr(memory, "enter heights and gauges first"));
    bench_close(app);
    bench_close(unknown);
}

/* From its own nut on, and back past that to the tightest. */
static void the_note_looked_at_is_one_of_the_string(void **state)
{
    struct app *app = start_record(build_record_full, STRINGS SHORT);
    const int tightest = app_note(app);

    (void)state;
    while (app_note(app) > 5)
        bench_press(app, "j");
    assert_int_equal(app_note(app), 5);
    bench_press(app, "j");
    assert_int_equal(app_note(app), tightest);
    bench_close(app);
}

/* Fret 3 lies before the nut of a string that starts at fret 5: it is refused, with the reason. */
static void no_note_is_heard_before_a_short_strings_nut(void **state)
{
    struct app *app = start_record(build_record_full, STRINGS SHORT);

    (void)state;
    bench_press(app, "0+3");
    assert_false(app->entry_view.good);
    assert_non_null(strstr(app->entry_view.words, "string 6 starts at fret 5"));
    bench_press(app, "{Enter}{Esc}");
    assert_null(bench_text(app, "visit.1.pass.1 buzz.6"));
    bench_press(app, "0+5+7{Enter}");
    assert_string_equal(bench_text(app, "visit.1.pass.1 buzz.6"), "0 5 7");
    bench_close(app);
}

static void odd_boards_hold_nothing(void **state)
{
    static const char *const boards[] = {
        "",
        "board strings = 6\n",
        "board strings = 6\nboard frets = 22\nvisit.1.pass.1 spot.3 = .002 in\n",
        "board scale = 25.5 in\nboard strings = 1\nboard frets = 0\n",
        "board scale = 25.5 in\nboard strings = 12\nboard frets = 36\n",
    };

    (void)state;
    for (size_t i = 0; i < sizeof boards / sizeof boards[0]; i++) {
        struct app *app = start_record(boards[i], "");

        bench_press(app, "kjj1{Enter}k{Right}{End}1{Enter}j?{Esc}");
        assert_int_equal(count_marks(app, HEADROOM_BUZZES), 0);
        bench_close(app);
    }
}

static int crowns_of(const struct app *app, const char *text)
{
    int count = 0;

    for (int n = 1; n <= 19; n++) {
        const struct reading_key key = reading_key_pass_at(FIELD_CROWN, 1, 1, 0, n);
        const char *held = record_text(&app->record, &key);

        count += held && strcmp(held, text) == 0;
    }
    return count;
}

/* One height typed, all frets filed, from the number pad; a fret that has its own keeps it, and
 * undo takes back all that was filed, and no more. */
static void one_height_fills_all_crowns(void **state)
{
    struct app *app = start_record(build_record_full, "visit.1.pass.1 crown.7 = .9 mm\n");
    const struct reading_key first = reading_key_pass_at(FIELD_CROWN, 1, 1, 0, 1);

    (void)state;
    app->at = route_find(&app->route, &first);
    assert_false(frets_can_fill_crowns(app));
    bench_press(app, "1.1 mm{Enter}");
    assert_true(frets_can_fill_crowns(app));
    assert_true(bench_press(app, "*4").save);
    assert_int_equal(crowns_of(app, "1.1 mm"), 18);
    assert_int_equal(crowns_of(app, ".9 mm"), 1);
    assert_non_null(strstr(app->message, "1.1 mm filed on 17 more frets"));
    assert_false(frets_can_fill_crowns(app));
    bench_press(app, "*1");
    assert_int_equal(crowns_of(app, "1.1 mm"), 1);
    assert_int_equal(crowns_of(app, ".9 mm"), 1);
    bench_close(app);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_cell_is_laid_once),
        cmocka_unit_test(the_number_pad_reaches_every_cell),
        cmocka_unit_test(marks_go_by_the_touch),
        cmocka_unit_test(the_high_fret_is_named_with_its_evidence),
        cmocka_unit_test(no_fret_is_blamed_without_cause),
        cmocka_unit_test(a_list_is_seen_before_enter),
        cmocka_unit_test(levelling_says_what_is_left),
        cmocka_unit_test(the_note_looked_at_goes_round),
        cmocka_unit_test(why_explains_the_headroom),
        cmocka_unit_test(a_short_strings_open_note_is_called_open),
        cmocka_unit_test(a_short_string_is_tightest_open),
        cmocka_unit_test(a_short_strings_buzz_asks_for_nothing_entered),
        cmocka_unit_test(the_note_looked_at_is_one_of_the_string),
        cmocka_unit_test(no_note_is_heard_before_a_short_strings_nut),
        cmocka_unit_test(odd_boards_hold_nothing),
        cmocka_unit_test(one_height_fills_all_crowns),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
