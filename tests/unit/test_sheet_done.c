/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bench_session.h"
#include "build_record.h"
#include "model/reading/work_amount.h"
#include "sheet/sheet_make.h"
#include "sheet/sheet_text.h"
#include "words/plan_text.h"

/* What was done, on the sheet: marked on the Work leaf as a tech does, and read on paper. */

static const char read_again[] = "visit.1.pass.2 time = 12:00\n"
                                 "visit.1.pass.2 relief = .011 in\n";

/* On target but for what is heard and tuned. */
static const char set_up[] = "targets relief = .013 in\n"
                             "targets action_bass = 8.25/64 in\n"
                             "targets action_treble = 6/64 in\n"
                             "targets nut_gap_bass = .030 in\n"
                             "targets nut_gap_treble = .020 in\n";

/* What stands under "What was done", to be freed. */
static char *done_of(const struct record *record, bool metric)
{
    const struct sheet_ask ask = {.units = metric ? shop_units_metric() : shop_units_inch()};
    static const char heading[] = "What was done\n";
    struct sheet sheet;
    char *text = NULL;

    assert_int_equal(sheet_make(record, &ask, &sheet), STATUS_OK);
    assert_int_equal(sheet_write_text(&sheet, true, &text), STATUS_OK);
    sheet_done(&sheet);
    char *from = strstr(text, heading);
    if (!from)
        fail_msg("nothing was done in:\n%s", text);
    char *to = strstr(from, "\n\n");
    assert_non_null(to);
    to[1] = '\0';
    memmove(text, from, strlen(from) + 1);
    return text;
}

/* Never what was planned, hoped for or doubted. */
static void check_done(const struct record *record, bool metric, const char *words)
{
    static const char *const never[] = {"expect", "+-", "\xC2\xB1", "then read", "at most"};
    char *text = done_of(record, metric);

    if (!strstr(text, words))
        fail_msg("'%s' is not in:\n%s", words, text);
    for (size_t i = 0; i < sizeof never / sizeof never[0]; i++)
        if (strstr(text, never[i]))
            fail_msg("'%s' is in:\n%s", never[i], text);
    free(text);
}

/* A number that was filed all the same says nothing to the owner. */
static void no_number_stands_alone_as_work(void **state)
{
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    build_record_add(&record, "visit.1.work.1 kind = reset\nvisit.1.work.1 amount = 7\n"
                              "visit.1.work.2 kind = saddle\nvisit.1.work.2 amount = 1/4\n");
    char *text = done_of(&record, false);
    assert_non_null(strstr(text, "done"));
    assert_null(strchr(text, '7'));
    assert_null(strstr(text, "1/4"));
    free(text);
    record_done(&record);
}

static const struct app_clock after_rod = {.date = "2026-03-02", .time = "11:30"};

/* After the rod everything is read again, and reads as was foreseen. */
static void read_after_rod(struct app *app)
{
    const struct move then = app->now.moves.move[MOVE_ROD];

    build_record_add(&app->record, "visit.1.pass.2 time = 11:00\n");
    build_record_put_mm(&app->record, reading_key_pass(FIELD_RELIEF, 1, 2), then.relief_then.value);
    for (int s = 1; s <= 6; s++) {
        build_record_put_mm(&app->record, reading_key_pass_at(FIELD_NUT_GAP, 1, 2, s, 0),
                            then.gap_then[s].value);
        build_record_put_mm(&app->record, reading_key_pass_at(FIELD_ACTION, 1, 2, s, 0),
                            then.action_then[s].value);
    }
    bench_press_at(app, "{F2}>{F7}", &after_rod);
    assert_int_equal(app->pass, 2);
}

static bool waits_for_reading(const struct move *move)
{
    return move->state == MOVE_WAITS && move->waits == WAIT_AGAIN;
}

/* Marks what is open in the trade's order. */
static struct app *mark_all(const char *more, bool metric)
{
    struct app *app = calloc(1, sizeof *app);
    struct record record;

    assert_non_null(app);
    build_record(&record, build_record_full);
    build_record_add(&record, "visit.1.pass.1 time = 10:00\n");
    build_record_add(&record, more);
    bench_start_record(app, &record, metric, false);
    bench_press(app, "{F7}");
    assert_int_equal(app->leaf, LEAF_WORK);
    for (int i = 0; i < MOVE_COUNT_; i++) {
        bench_press_at(app, " ", app->pass == 1 ? &bench_clock : &after_rod);
        if (app_cell(app) && app_cell(app)->key.field == FIELD_ROD_TURN)
            bench_press(app, "{Enter}");
        if (move_set_count(&app->now.moves, waits_for_reading) > 0)
            read_after_rod(app);
    }
    build_record_add(&app->record, app->pass == 1 ? read_again
                                                  : "visit.1.pass.3 time = 12:00\n"
                                                    "visit.1.pass.3 relief = .006 in\n");
    return app;
}

static void a_plan_becomes_what_was_done(void **state)
{
    struct app *app = mark_all("bridge kind = blank\n", false);

    (void)state;
    assert_int_equal(record_last_work(&app->record, 1), 3);
    assert_non_null(strstr(bench_text(app, "visit.1.work.1 amount"), "at a time"));
    /* As it was read: .013 in is 0.33 mm, .006 in 0.15 mm. */
    check_done(&app->record, false,
               "Truss rod  tightened, relief .013 to .006 in (0.33 to 0.15 mm)\n");
    check_done(&app->record, false, "Nut slots  filed on strings 6 to 3\n");
    check_done(&app->record, false, "Saddle     lowered, bass .0");
    check_done(&app->record, true, "relief 0.33 to 0.15 mm (.013 to .006 in)");
    bench_close(app);
}

/* Whatever the move and the gauges, and in whatever unit the sheet is written. */
static void no_plan_is_left_on_it(void **state)
{
    static const struct {
        const char *lines, *words;
    } cases[] = {
        {"bridge kind = blank\n", "lowered, bass "},
        {"", "lowered on strings 6 to 1"},
        {"targets relief = .020 in\nvisit.1.pass.1 exposure_bass = 9 mm\n"
         "visit.1.pass.1 exposure_treble = 9 mm\n",
         "Truss rod  slackened, relief "},
        {"visit.1.pass.1 relief = .006 in\nvisit.1.pass.1 nut_gap.1 = .006 in\n"
         "visit.1.pass.1 exposure_bass = 9 mm\nvisit.1.pass.1 exposure_treble = 9 mm\n",
         "filled on string 1"},
        {"visit.1.pass.1 relief = .006 in\nvisit.1.pass.1 exposure_bass = 9 mm\n"
         "visit.1.pass.1 exposure_treble = 9 mm\ntargets nut_gap_treble = .040 in\n"
         "targets nut_gap_bass = .050 in\n",
         "nut raised"},
        {"bridge kind = blank\nvisit.1.pass.1 relief = .006 in\n"
         "visit.1.pass.1 exposure_bass = 1 mm\n"
         "visit.1.pass.1 exposure_treble = 1 mm\n",
         "Neck reset  set back by about "},
    };

    (void)state;
    for (size_t i = 0; i < 2 * sizeof cases / sizeof cases[0]; i++) {
        struct app *app = mark_all(cases[i / 2].lines, i % 2 == 1);

        check_done(&app->record, false, cases[i / 2].words);
        check_done(&app->record, true, cases[i / 2].words);
        bench_close(app);
    }
}

static void frets_and_intonation_say_where(void **state)
{
    (void)state;
    for (int metric = 0; metric <= 1; metric++) {
        char lines[600] = "";
        struct strbuf text = STRBUF(lines);

        strbuf_add(&text, set_up);
        strbuf_add(&text, "visit.1.pass.1 spot.4 = .005 in\nvisit.1.pass.1 spot.8 = .004 in\n"
                          "visit.1.pass.1 cents.6.12 = 9\nvisit.1.pass.1 cents.2.12 = -9\n");
        struct app *app = mark_all(lines, metric);
        check_done(&app->record, metric, "levelled where high: frets 4 and 8\n");
        check_done(&app->record, metric,
                   "saddle moved so that it plays in tune: strings 6 and 2\n");
        bench_close(app);
    }
}

/* As it was filed when a relief without a rod was ordered. */
static void a_neck_without_a_rod_was_worked_on(void **state)
{
    static const char marked[] =
        "neck rod = none\nvisit.1.pass.1 time = 10:00\nvisit.1.work.1 kind = rod\n"
        "visit.1.work.1 time = 10:30\n"
        "visit.1.work.1 amount = no rod: relief -.007 +-.001 in\n";
    char lines[600] = "";
    struct strbuf text = STRBUF(lines);
    struct record record;

    (void)state;
    strbuf_add(&text, set_up);
    strbuf_add(&text, marked);
    build_record(&record, lines);
    check_done(&record, false, "none that turns; the neck was worked on");
    record_done(&record);
}

/* Without turns only the readings say how far; without those nothing does. */
static void what_is_not_known_is_left_out(void **state)
{
    static const char marked[] =
        "visit.1.pass.1 time = 10:00\nvisit.1.work.1 kind = rod\nvisit.1.work.1 time = 10:30\n"
        "visit.1.work.1 amount = tighten 1/4 turn at most, then read: relief -.007 +-.001 in\n"
        "visit.1.work.1 note = expect relief .006 in, action 7.5 to 5.3 /64\n";
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    build_record_add(&record, marked);
    check_done(&record, false, "Truss rod  tightened\n");
    build_record_add(&record, read_again);
    check_done(&record, false, "Truss rod  tightened, relief .013 to .011 in");
    build_record_add(&record, "visit.1.pass.2 rod_turn = -1 1/4 turn\n");
    check_done(&record, false, "Truss rod  slackened 1 1/4 turns, relief .013 to .011 in");
    build_record_add(&record, "visit.1.pass.2 rod_turn = -1/16 turn\n");
    check_done(&record, false, "Truss rod  slackened 1/16 turn, relief .013 to .011 in");
    build_record_add(&record, "visit.1.pass.2 rod_turn = 0 turn\n");
    check_done(&record, false, "Truss rod  not turned");
    record_done(&record);
}

/* Word for word, whatever they are. */
static void a_tech_s_own_words_stay(void **state)
{
    static const struct {
        const char *kind, *amount;
    } own[] = {
        {"saddle", "took .8 mm off the bottom, \xC2\xB1 nothing"},
        {"saddle", "heightened by 1 mm"},
        {"rod", "tightened 1/4 turn, relief as it should be"},
        {"frets", "levelled fret 8: it was loose"},
        {"slots", "file marks polished out"},
        {"pickup", "height +-1 mm; string 6 -1"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof own / sizeof own[0]; i++) {
        struct record record;
        const struct reading_key kind = {.field = FIELD_WORK_KIND, .visit = 1, .part = 1};
        const struct reading_key amount = {.field = FIELD_WORK_AMOUNT, .visit = 1, .part = 1};

        build_record(&record, build_record_full);
        assert_int_equal(record_put(&record, &kind, own[i].kind, true, NULL), STATUS_OK);
        assert_int_equal(record_put(&record, &amount, own[i].amount, true, NULL), STATUS_OK);
        char *text = done_of(&record, false);
        if (!strstr(text, own[i].amount))
            fail_msg("'%s' is not in:\n%s", own[i].amount, text);
        free(text);
        record_done(&record);
    }
}

/* Numbers and strings alone are a log, not words: the sheet says what they did. A number without a
 * sign goes the way that was due. */
static void numbers_alone_are_said_in_words(void **state)
{
    static const struct {
        const char *kind, *amount, *words;
    } logged[] = {
        {"slots", "string 6 -.010, 5 -.007, 4 -.005 in",
         "filed by .005 to .010 in (0.13 to 0.25 mm) on strings 6 to 4\n"},
        {"slots", "string 6 -.010, 5 -.007, 1 +.002 in",
         "filed by .007 to .010 in (0.18 to 0.25 mm) on strings 6 and 5,"},
        {"slots", "file +-.002 in; string 6 -.004, 5 -.006, 4 again, 3 -.008", "filed on strings"},
        {"reset", "neck angle 0.6 +-0.1 deg, pocket shim 1.0 mm",
         "set back by about 0.6 degrees, pocket shim 1.0 mm\n"},
        {"slots", "string 1 +.002 in", "filled by .002 in (0.05 mm) on string 1\n"},
        {"slots", "string 6 .010 in", "filed by .010 in (0.25 mm) on string 6\n"},
        {"saddle", "string 6 -.040, 1 -.040 in", "lowered by .040 in (1.02 mm) on strings 6 and 1"},
        {"saddle", "string 6 +1, 5 +1 mm", "raised by .039 in (1.00 mm) on strings 6 and 5"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof logged / sizeof logged[0]; i++) {
        const struct reading_key kind = {.field = FIELD_WORK_KIND, .visit = 1, .part = 1};
        const struct reading_key amount = {.field = FIELD_WORK_AMOUNT, .visit = 1, .part = 1};
        struct record record;

        build_record(&record, build_record_full);
        build_record_add(&record, "visit.1.pass.1 time = 10:00\nvisit.1.work.1 time = 10:30\n");
        assert_int_equal(record_put(&record, &kind, logged[i].kind, false, NULL), STATUS_OK);
        assert_int_equal(record_put(&record, &amount, logged[i].amount, false, NULL), STATUS_OK);
        check_done(&record, false, logged[i].words);
        record_done(&record);
    }
}

static void strings_put_on_are_said_in_words(void **state)
{
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    build_record_add(&record, "visit.1.work.1 kind = restrung\nvisit.1.work.1 amount = same set\n"
                              "visit.1.work.2 kind = restrung\n"
                              "visit.1.work.2 amount = steel-light, E2 to Eb2\n");
    check_done(&record, false, "Strings  new, same set\n");
    check_done(&record, false, "Strings  new, steel light, E2 to Eb2\n");
    record_done(&record);
}

static void a_relief_that_stayed_is_said(void **state)
{
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    build_record_add(&record, read_again);
    build_record_add(&record, "visit.1.pass.1 relief = .011 in\n"
                              "visit.1.pass.2 rod_turn = 1/8 turn\n");
    check_done(&record, false, "tightened 1/8 turn, relief still .011 in (0.28 mm)\n");
    record_done(&record);
}

/* A number alone in the rod's row was logged as turns. */
static void turns_typed_alone_are_said_in_words(void **state)
{
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    build_record_add(&record, "visit.1.pass.1 time = 10:00\nvisit.1.work.1 kind = rod\n"
                              "visit.1.work.1 amount = 1/8\nvisit.1.work.1 time = 10:30\n"
                              "visit.1.pass.2 rod_turn = 1/8 turn\n");
    check_done(&record, false, "Truss rod  tightened 1/8 turn\n");
    record_done(&record);
}

/* Logged on the bench, and marked nowhere; where a line tells of the rod, it is said once. */
static void a_turn_without_a_line_is_work_too(void **state)
{
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    build_record_add(&record, read_again);
    build_record_add(&record, "visit.1.pass.2 rod_turn = 1/8 turn\n");
    check_done(&record, false, "Truss rod  tightened 1/8 turn, relief .013 to .011 in");
    build_record_add(&record, "visit.1.work.1 kind = polish\n");
    check_done(&record, false, "Truss rod  tightened 1/8 turn, relief .013 to .011 in");
    build_record_add(&record, "visit.1.work.1 amount = frets, and the rod 1/8\n");
    char *text = done_of(&record, false);
    assert_null(strstr(text, "tightened"));
    free(text);
    record_done(&record);
}

static void amounts_are_read_back(void **state)
{
    const struct outfit outfit = outfit_plain(6);
    struct work_amount amount;

    (void)state;
    assert_true(plan_text_is(MOVE_FRETS, "level fret 8: .003 +-.001 in"));
    assert_true(plan_text_is(MOVE_FRETS, "rock fret 6; if it is high, level at least .010 in"));
    assert_false(plan_text_is(MOVE_FRETS, "rocked fret 6, it was loose"));
    work_amount_of_plan("height +-0.08 mm; string 6 -0.95, 1 -1.3", &outfit, &amount);
    assert_int_equal(amount.unit, WORK_AMOUNT_MM);
    assert_near(amount.value[6], -0.95, 1e-12);
    assert_near(amount.value[1], -1.3, 1e-12);
    assert_false(amount.is_said[2]);
    work_amount_of_plan("file +-.001 in; string 5 -.010", &outfit, &amount);
    assert_near(amount.value[5], -0.254, 1e-12);
    work_amount_of_plan("turns +-1/4, + raises; string 6 -1 1/2, 5 +1/8", &outfit, &amount);
    assert_int_equal(amount.unit, WORK_AMOUNT_TURNS);
    assert_near(amount.value[6], -1.5, 1e-12);
    assert_near(amount.value[5], 0.125, 1e-12);
    work_amount_of_plan("height +-0.08 mm", &outfit, &amount);
    assert_int_equal(amount.unit, WORK_AMOUNT_NONE);
}

/* What was only rocked was not levelled. */
static void a_rocked_fret_is_not_levelled(void **state)
{
    static const struct {
        const char *amount, *said;
    } cases[] = {
        {"rocked fret 10: not high", "rocked, not high: fret 10\n"},
        {"level fret 8: .003, fret 9: .002 in; rocked fret 10: not high",
         "levelled where high: frets 8 and 9; rocked, not high: fret 10\n"},
        {"level fret 10: at least .010 in", "levelled where high: fret 10\n"},
        {"rock fret 10; if it is high, level at least .010 in",
         "rocked, and levelled if high: fret 10\n"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char lines[400];
        struct record record;

        snprintf(lines, sizeof lines,
                 "visit.1.work.1 kind = frets\nvisit.1.work.1 amount = %s\n"
                 "visit.1.work.1 time = 11:00\nvisit.1.pass.2 time = 12:00\n"
                 "visit.1.pass.2 relief = .010 in\n",
                 cases[i].amount);
        build_record(&record, set_up);
        build_record_add(&record, lines);
        check_done(&record, 0, cases[i].said);
        record_done(&record);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_number_stands_alone_as_work),
        cmocka_unit_test(a_plan_becomes_what_was_done),
        cmocka_unit_test(no_plan_is_left_on_it),
        cmocka_unit_test(frets_and_intonation_say_where),
        cmocka_unit_test(a_neck_without_a_rod_was_worked_on),
        cmocka_unit_test(a_rocked_fret_is_not_levelled),
        cmocka_unit_test(what_is_not_known_is_left_out),
        cmocka_unit_test(a_tech_s_own_words_stay),
        cmocka_unit_test(numbers_alone_are_said_in_words),
        cmocka_unit_test(strings_put_on_are_said_in_words),
        cmocka_unit_test(a_relief_that_stayed_is_said),
        cmocka_unit_test(turns_typed_alone_are_said_in_words),
        cmocka_unit_test(a_turn_without_a_line_is_work_too),
        cmocka_unit_test(amounts_are_read_back),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
