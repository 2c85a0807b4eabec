/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "leaf/leaves.h"
#include "session/app.h"
#include "session/refresh.h"
#include "leaf/strings/leaf_strings.h"
#include "leaf/strings/strings_words.h"
#include "base/utf8.h"
#include "bench_session.h"
#include "build_record.h"

/* Six plain strings at the pitches of a guitar, so that every one has a pull. */
#define SIX                                                                                        \
    "board scale = 25.5 in\n"                                                                      \
    "board strings = 6\n"                                                                          \
    "board frets = 22\n"                                                                           \
    "board join_fret = 16\n"                                                                       \
    "string.1 note = E4\nstring.1 gauge = .010 in\nstring.1 build = plain\n"                       \
    "string.2 note = B3\nstring.2 gauge = .013 in\nstring.2 build = plain\n"                       \
    "string.3 note = G3\nstring.3 gauge = .017 in\nstring.3 build = plain\n"                       \
    "string.4 note = D3\nstring.4 gauge = .022 in\nstring.4 build = plain\n"                       \
    "string.5 note = A2\nstring.5 gauge = .030 in\nstring.5 build = plain\n"                       \
    "string.6 note = E2\nstring.6 gauge = .040 in\nstring.6 build = plain\n"

static struct app *start(const char *lines)
{
    return bench_open(lines, "", LEAF_STRINGS);
}

static void lay(struct route *route, int strings)
{
    const struct leaf_place place = {.strings = strings, .frets = 22, .visit = 1, .pass = 1};

    leaf_lay(&leaf_strings, &place, route);
}

/* --- the table --- */

static void every_reading_of_a_string_has_a_cell(void **state)
{
    struct route route;

    (void)state;
    for (int strings = 1; strings <= STRINGS_MAX; strings++) {
        lay(&route, strings);
        assert_int_equal(route.rows, strings);
        for (int id = 0; id < FIELD_COUNT_; id++)
            for (int s = 1; s <= strings; s++) {
                const struct reading_key key = reading_key_string((enum field_id)id, s);

                if (field_get((enum field_id)id)->section == SECTION_STRING)
                    assert_true(route_find(&route, &key) >= 0);
            }
    }
    lay(&route, 0);
    assert_int_equal(route.count, 0);
}

/* The bass string on top, and down a column before the next one. */
static void the_route_goes_down_the_columns(void **state)
{
    struct app *app = start(SIX);

    (void)state;
    assert_int_equal(app_cell(app)->key.string, 6);
    assert_int_equal(app_cell(app)->key.field, FIELD_STRING_NOTE);
    bench_press(app, "{Enter}");
    assert_int_equal(app_cell(app)->key.string, 5);
    bench_press(app, "{Right}");
    assert_int_equal(app_cell(app)->key.string, 5);
    assert_int_equal(app_cell(app)->key.field, FIELD_GAUGE);
    bench_press(app, "28{Enter}{Right}{Right}{Right}2{Enter}");
    assert_string_equal(bench_text(app, "string.5 gauge"), "28 th");
    assert_string_equal(bench_text(app, "string.4 build"), "round-wound");
    bench_close(app);
}

static void without_strings_there_is_nothing_to_ask(void **state)
{
    struct app *app = start("");

    (void)state;
    assert_int_equal(app->route.count, 0);
    bench_press(app, "*n{Esc}*g{Esc}*k*j*K*J*G{Esc}*y*w5{Enter}");
    assert_false(what_if_is_on(&strings_state(app)->what_if));
    assert_int_equal(app->record.count, 0);
    bench_close(app);
}

/* What was weighed lay slack; the line says so, and what the string weighs at pitch. */
static void a_slack_nylon_piece_is_told_from_the_string(void **state)
{
    struct app *app = start("board scale = 650 mm\nboard strings = 1\nboard frets = 19\n"
                            "string.1 note = E4\nstring.1 gauge = .028 in\n"
                            "string.1 build = nylon\nstring.1 weigh_mass = 0.45 g\n"
                            "string.1 weigh_length = 1000 mm\n");
    char memory[200];
    struct strbuf words = STRBUF(memory);

    (void)state;
    strings_words_string(app, &words);
    assert_non_null(strstr(memory, "0.36 g/m weighed slack at 0.45, stretched 24 %"));
    bench_close(app);
}

/* One string .010 at E4, one .008: its line names the gauge that the other has, and its pull
 * by Mersenne's law: 7850 kg/m3 of .010 in at 329.63 Hz on 25.5 in. */
static void a_string_is_told_the_gauge_that_pulls_like_the_others(void **state)
{
    struct app *app = start("board scale = 25.5 in\nboard strings = 2\nboard frets = 22\n"
                            "string.1 note = E4\nstring.1 gauge = .010 in\n"
                            "string.1 build = plain\nstring.2 note = E4\n"
                            "string.2 gauge = .008 in\nstring.2 build = plain\n");
    char memory[200];
    struct strbuf words = STRBUF(memory);

    (void)state;
    strings_words_string(app, &words);
    assert_non_null(strstr(memory, "; to pull like the others, 16.3 lb: .010 in"));
    bench_press(app, "*k");
    words = STRBUF(memory);
    strings_words_string(app, &words);
    assert_null(strstr(memory, "mean"));
    bench_close(app);
}

/* --- what if --- */

static void a_what_if_leaves_the_record_alone(void **state)
{
    struct app *app = start(SIX);
    struct record before;

    (void)state;
    assert_int_equal(record_copy(&app->record, &before), STATUS_OK);
    assert_false(bench_press(app, "*ndrop d{Enter}*g--{Enter}*k*k*j*K*J*J").save);
    assert_true(strings_state(app)->what_if.known);
    assert_true(record_equal(&app->record, &before));
    assert_false(bench_press(app, "*w").save);
    assert_false(strings_state(app)->what_if.known);
    assert_true(record_equal(&app->record, &before));
    record_done(&before);
    bench_close(app);
}

/* Pull goes with the square of the pitch (Mersenne), a semitone is the twelfth root of two:
 * two semitones up are 2^(2/6) times the pull. */
static void a_string_is_tuned_up_and_down(void **state)
{
    struct app *app = start(SIX);

    (void)state;
    bench_press(app, "*k*k");
    const struct what_if_answer *answer = &strings_state(app)->what_if.answer.string[6];
    assert_near(answer->after_n.value / answer->before_n.value, pow(2, 2.0 / 6), 1e-9);
    assert_near(strings_state(app)->what_if.answer.string[1].after_n.value,
                strings_state(app)->what_if.answer.string[1].before_n.value, 1e-9);
    bench_press(app, "*j*j");
    assert_false(what_if_is_on(&strings_state(app)->what_if));
    bench_close(app);
}

/* The whole-step-down tuning of the table is all strings down two. */
static void all_strings_go_together(void **state)
{
    struct app *app = start(SIX);
    char memory[16];
    struct strbuf name = STRBUF(memory);
    const struct survey_what_if *answer = &strings_state(app)->what_if.answer;

    (void)state;
    bench_press(app, "*J*J");
    for (int s = 1; s <= 6; s++)
        assert_near(answer->string[s].after_n.value / answer->string[s].before_n.value,
                    pow(2, -2.0 / 6), 1e-9);
    assert_true(survey_what_if_add_note(&app->record, answer, 6, &name));
    assert_string_equal(memory, "D2");
    bench_press(app, "*..9*..9");
    assert_false(what_if_is_on(&strings_state(app)->what_if));
    bench_close(app);
}

/* What a string was tuned to beside one tuning says nothing of the next. */
static void another_tuning_drops_the_shifts(void **state)
{
    struct app *app = start(SIX);

    (void)state;
    bench_press(app, "*k*K");
    assert_near(strings_state(app)->what_if.answer.string[6].semitone.value, 42, 0);
    bench_press(app, "*ndadgad");
    assert_near(strings_state(app)->what_if.answer.string[6].semitone.value, 38, 0);
    /* Esc puts all of it back; a set asked for leaves it alone. */
    bench_press(app, "{Esc}");
    assert_near(strings_state(app)->what_if.answer.string[6].semitone.value, 42, 0);
    bench_press(app, "*g+{Enter}");
    assert_near(strings_state(app)->what_if.answer.string[6].semitone.value, 42, 0);
    bench_press(app, "*ndadgad{Enter}");
    assert_near(strings_state(app)->what_if.answer.string[6].semitone.value, 38, 0);
    bench_close(app);
}

static void check_name(struct app *app, int string, const char *want)
{
    char memory[16];
    struct strbuf name = STRBUF(memory);

    assert_true(
        survey_what_if_add_note(&app->record, &strings_state(app)->what_if.answer, string, &name));
    assert_string_equal(memory, want);
}

/* open-d has F#3, half-step-down flats: a string tuned away leaves the others as they are spelled
 * and is spelled like them. */
static void a_tuning_spells_the_notes_beside_it(void **state)
{
    struct app *app = start(SIX);

    (void)state;
    bench_press(app, "*nopen d{Enter}*j");
    check_name(app, 3, "F#3");
    check_name(app, 6, "C#2");
    bench_press(app, "*nhalf step down{Enter}*j*j*j");
    check_name(app, 3, "Gb3");
    check_name(app, 6, "C2");
    bench_press(app, "*j*j");
    check_name(app, 6, "Bb1");
    bench_close(app);
}

/* On an electric no classical set, on a guitar no ukulele's tuning. */
static void only_what_fits_the_kind_is_offered(void **state)
{
    struct app *app = start(SIX "instrument kind = electric\n");

    (void)state;
    for (bench_press(app, "*g+"); app->choice.in_hand + 1 < app->choice.found.count;
         bench_press(app, "+"))
        assert_memory_equal(strings_state(app)->what_if.set.name, "electric", 8);
    bench_press(app, "{Esc}*gclassical high{Enter}");
    assert_int_equal(app->tone, TONE_WARNING);
    assert_false(what_if_is_on(&strings_state(app)->what_if));
    bench_close(app);
}

/* --- asked for by name --- */

/* It shows at once, Enter leaves it there, Esc puts back what was there. */
static void a_tuning_is_asked_for_by_name(void **state)
{
    struct app *app = start(SIX);
    struct record before;

    (void)state;
    assert_int_equal(record_copy(&app->record, &before), STATUS_OK);
    bench_press(app, "*n");
    assert_true(app_is_typing(app));
    assert_true(app->choice.found.count > 10);
    bench_press(app, "drop");
    assert_int_equal(app->choice.found.count, 3);
    assert_false(what_if_is_on(&strings_state(app)->what_if));
    bench_press(app, " d");
    assert_string_equal(strings_state(app)->what_if.tuning->name, "guitar-drop-d");
    assert_true(strings_state(app)->what_if.known);
    assert_false(bench_press(app, "{Enter}").save);
    assert_false(app_is_typing(app));
    bench_press(app, "*nopen g");
    assert_string_equal(strings_state(app)->what_if.tuning->name, "guitar-open-g");
    bench_press(app, "{Esc}");
    assert_string_equal(strings_state(app)->what_if.tuning->name, "guitar-drop-d");
    /* Nothing typed changes nothing. */
    bench_press(app, "*n{Enter}");
    assert_string_equal(strings_state(app)->what_if.tuning->name, "guitar-drop-d");
    assert_true(record_equal(&app->record, &before));
    assert_true(bench_press(app, "*y").save);
    assert_string_equal(bench_text(app, "string.6 note"), "D2");
    bench_press(app, "*u");
    assert_true(record_equal(&app->record, &before));
    record_done(&before);
    bench_close(app);
}

static void an_unknown_name_is_refused_with_the_nearest(void **state)
{
    struct app *app = start(SIX);

    (void)state;
    bench_press(app, "*nopn g{Enter}");
    assert_int_equal(app->tone, TONE_WARNING);
    assert_non_null(strstr(app->message, "open G"));
    assert_true(lineedit_is_empty(&app->entry));
    assert_true(app_is_typing(app));
    bench_press(app, "polka{Enter}");
    assert_int_equal(app->tone, TONE_WARNING);
    assert_false(what_if_is_on(&strings_state(app)->what_if));
    bench_press(app, "{Back}");
    assert_false(app_is_typing(app));
    /* What is tuned already is nothing to ask. */
    bench_press(app, "*nguitar standard{Enter}");
    assert_false(what_if_is_on(&strings_state(app)->what_if));
    bench_close(app);
}

/* Digits, + and -, Enter and the menu's key do it all. */
static void a_set_is_asked_for_on_the_number_pad(void **state)
{
    struct app *app = start(SIX "instrument kind = electric\n");

    (void)state;
    bench_press(app, "*7+");
    assert_string_equal(strings_state(app)->what_if.set.name, "electric-light");
    bench_press(app, "+");
    assert_string_equal(strings_state(app)->what_if.set.name, "electric-regular");
    bench_press(app, "-{Enter}*8");
    assert_string_equal(bench_text(app, "string.1 gauge"), ".009 in");
    bench_press(app, "*73{Enter}");
    assert_string_equal(strings_state(app)->what_if.set.name, "electric-medium");
    /* Tens are past the end of the list; one of the electric's sets has them. */
    bench_press(app, "*710");
    assert_int_equal(app->choice.found.count, 1);
    assert_string_equal(strings_state(app)->what_if.set.name, "electric-regular");
    /* The menu's key leaves the question, and so does another leaf. */
    bench_press(app, "*w");
    assert_false(what_if_is_on(&strings_state(app)->what_if));
    bench_press(app, "*7{PgDn}{Esc}*7{F1}");
    assert_int_equal(app->leaf, LEAF_INTAKE);
    assert_false(app_is_typing(app));
    bench_close(app);
}

/* Half typed, it is not lost by turning the leaf. */
static void what_is_half_asked_stays(void **state)
{
    struct app *app = start(SIX);

    (void)state;
    bench_press(app, "*nope{F1}");
    assert_int_equal(app->leaf, LEAF_STRINGS);
    assert_string_equal(app->entry.text, "ope");
    /* A paste is a part of the name, and no readings. */
    (void)bench_key(app, SILLET_KEY_PASTE_BEGIN);
    bench_press(app, "n g{Enter}");
    assert_false(bench_key(app, SILLET_KEY_PASTE_END).save);
    assert_string_equal(strings_state(app)->what_if.tuning->name, "guitar-open-g");
    bench_close(app);
}

static void taking_it_over_is_one_step(void **state)
{
    struct app *app = start(SIX "string.6 weigh_mass = 3 g\nstring.6 weigh_length = 500 mm\n"
                                "string.6 hex = yes\nstring.6 setback = 3 mm\n");
    struct record before;

    (void)state;
    assert_int_equal(record_copy(&app->record, &before), STATUS_OK);
    bench_press(app, "*g+{Enter}*k");
    const double after_n = strings_state(app)->what_if.answer.string[6].after_n.value;
    const double bass_mm = strings_state(app)->what_if.set.string[5].build.gauge_mm;
    assert_true(bench_press(app, "*y").save);
    assert_false(what_if_is_on(&strings_state(app)->what_if));
    assert_string_equal(bench_text(app, "string.6 note"), "F2");
    /* The weighed length was of the string that came off; where the saddle stands was not. */
    assert_null(bench_text(app, "string.6 weigh_mass"));
    assert_null(bench_text(app, "string.6 hex"));
    assert_string_equal(bench_text(app, "string.6 setback"), "3 mm");
    assert_near(record_entered_string(&app->record, FIELD_GAUGE, 6).value, bass_mm, 1e-9);
    /* What was predicted is what the record now says. */
    assert_near(app->now.string[6].tension_n.value, after_n, 1e-9 * after_n);
    bench_press(app, "*u");
    assert_true(record_equal(&app->record, &before));
    bench_press(app, "*r");
    assert_string_equal(bench_text(app, "string.6 note"), "F2");
    record_done(&before);
    bench_close(app);
}

/* --- gauges for a pull --- */

/* A packet's tensions on 25.5 in (labels, from memory): .011 at E4 19.6 lb, .010 16.2, .012 23.3.
 * By Mersenne's law at 7850 kg/m3 they are a tenth or two more. On the number pad. */
static void a_pull_names_its_gauge(void **state)
{
    struct app *app = start(SIX);
    char memory[200];
    struct strbuf words = STRBUF(memory);

    (void)state;
    bench_press(app, "{Down}{Down}{Down}{Down}{Down}*.8");
    assert_int_equal(app_string(app), 1);
    bench_press(app, "19.6");
    const struct what_if_answer *answer = &strings_state(app)->what_if.answer.string[1];
    assert_near(answer->sold.nearest.gauge_mm, 0.011 * 25.4, 1e-9);
    assert_near_relative(answer->after_n.value, 19.6 * 4.4482216, 0.01);
    assert_string_equal(app->entry_view.words, ".011 in 19.7 lb; .010 16.3, .012 23.5");
    bench_press(app, "{Enter}");
    assert_null(app->asked);
    strings_words_string(app, &words);
    assert_non_null(strstr(memory, "string 1, for 19.6 lb: .011 in 19.7 lb; .010 16.3, .012 23.5"));
    assert_false(strings_state(app)->what_if.pull_n[2].given);
    bench_press(app, "*.8{Esc}");
    assert_near(strings_state(app)->what_if.pull_n[1].value, 19.6 * 4.4482216152605, 1e-9);
    bench_press(app, "*9");
    assert_false(what_if_is_on(&strings_state(app)->what_if));
    bench_close(app);
}

static void a_unit_may_be_typed(void **state)
{
    static const struct {
        const char *typed;
        double n; /* 0: refused */
    } cases[] = {{"80 n", 80},
                 {"8kgf", 8 * 9.80665},
                 {"18 lb", 18 * 4.4482216152605},
                 {"18,5", 18.5 * 4.4482216152605},
                 {"0", 0},
                 {"80 mm", 0},
                 {"99999", 0},
                 {".", 0}};

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct app *app = start(SIX);

        bench_press(app, "*G");
        bench_press(app, cases[i].typed);
        assert_int_equal(app->entry_view.good, cases[i].n > 0);
        assert_int_equal(strings_state(app)->what_if.pull_n[6].given, cases[i].n > 0);
        if (cases[i].n > 0)
            assert_near(strings_state(app)->what_if.pull_n[6].value, cases[i].n, 1e-9);
        bench_press(app, "{Enter}");
        assert_int_equal(app->asked != NULL, cases[i].n == 0);
        bench_close(app);
    }
}

/* Each at a pull, all evenly, and all in the shares of now: the pulls wanted add up, and every
 * gauge is the nearest of the list, one by one. */
static void a_set_is_evened(void **state)
{
    static const struct {
        const char *keys;
        double total_lb;
    } cases[] = {{"*G+17.5", 6 * 17.5}, {"*G++105", 105}, {"*G17.5+", 6 * 17.5}, {"*G-105", 105}};

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct app *app = start(SIX);
        double total_n = 0;

        bench_press(app, cases[i].keys);
        for (int s = 1; s <= 6; s++) {
            const struct what_if_answer *answer = &strings_state(app)->what_if.answer.string[s];
            const double wanted_n = assert_given(strings_state(app)->what_if.pull_n[s]);
            const double now_n = app->now.string[s].tension_n.value;

            total_n += wanted_n;
            if (i == 3)
                assert_near_relative(
                    wanted_n / now_n,
                    105 * 4.4482216152605 /
                        figures_get(&app->now.figures, FIGURE_TENSION_TOTAL, 0).value,
                    1e-9);
            else
                assert_near_relative(wanted_n, 17.5 * 4.4482216152605, 1e-9);
            if (answer->sold_status != STATUS_OK) {
                assert_near_relative(answer->after_n.value, now_n, 1e-12);
                continue;
            }
            /* None beside it, nor the one that is on, comes nearer. */
            const double off_n = fabs(answer->after_n.value - wanted_n);
            assert_true(off_n <= fabs(answer->sold.lighter.pull_n - wanted_n));
            assert_true(answer->sold.heavier.gauge_mm == 0 ||
                        off_n <= fabs(answer->sold.heavier.pull_n - wanted_n));
            assert_true(off_n <= fabs(now_n - wanted_n));
        }
        assert_near_relative(total_n, cases[i].total_lb * 4.4482216152605, 1e-9);
        bench_close(app);
    }
}

/* A fourth down, each at what it pulls now: a plain string's gauge goes up as 1/f, by a third. */
static void the_feel_is_kept_under_another_tuning(void **state)
{
    struct app *app = start(SIX);

    (void)state;
    bench_press(app, "*J*J*J*J*J*.8+++{Enter}");
    const struct survey_what_if *answer = &strings_state(app)->what_if.answer;
    for (int s = 1; s <= 3; s++) {
        const double now_mm = assert_given(record_entered_string(&app->record, FIELD_GAUGE, s));

        assert_true(what_if_changes_gauge(&strings_state(app)->what_if, s));
        assert_near(answer->string[s].sold.nearest.gauge_mm, now_mm * 1.3348, 0.0254);
        assert_near_relative(answer->string[s].after_n.value, answer->string[s].before_n.value,
                             0.1);
    }
    /* Heavier than any plain string sold: it stays, and the line says so. */
    char memory[200];
    struct strbuf words = STRBUF(memory);
    assert_int_equal(answer->string[6].sold_status, STATUS_RANGE);
    strings_words_string(app, &words);
    assert_non_null(strstr(memory, "no gauge sold comes near that; it stays as it is"));
    bench_close(app);
}

/* Other gauges are asked about first; what was weighed of the old strings goes, the build stays;
 * one undo brings all back. A string whose gauge stays keeps its weight. */
static void gauges_are_filed_after_a_question(void **state)
{
    struct app *app = start(SIX "string.1 weigh_mass = 0.2 g\nstring.1 weigh_length = 500 mm\n"
                                "string.2 label_tension = 15 lb\nstring.2 mass = 0.7 g/m\n"
                                "string.3 mass = 1.13 g/m\n");
    struct record before;

    (void)state;
    assert_int_equal(record_copy(&app->record, &before), STATUS_OK);
    bench_press(app, "{Home}{Down}{Down}{Down}{Down}*G19.6{Enter}{Down}*G19.6{Enter}");
    assert_false(bench_press(app, "*8").save);
    assert_non_null(app->asked);
    assert_string_equal(app->message,
                        "Other gauges for 2 strings; mass, weight and label of 2 1 go.");
    assert_false(bench_press(app, "{Esc}").save);
    assert_true(record_equal(&app->record, &before));
    assert_true(what_if_is_on(&strings_state(app)->what_if));
    assert_true(bench_press(app, "*8{Enter}").save);
    assert_false(what_if_is_on(&strings_state(app)->what_if));
    assert_string_equal(bench_text(app, "string.1 gauge"), ".011 in");
    assert_string_equal(bench_text(app, "string.1 build"), "plain");
    assert_null(bench_text(app, "string.1 weigh_mass"));
    assert_null(bench_text(app, "string.2 label_tension"));
    assert_null(bench_text(app, "string.2 mass"));
    assert_string_equal(bench_text(app, "string.3 mass"), "1.13 g/m");
    bench_press(app, "*u");
    assert_true(record_equal(&app->record, &before));
    record_done(&before);
    bench_close(app);
}

static void a_wound_string_takes_its_core_along(void **state)
{
    struct app *app = start(SIX "string.6 gauge = .046 in\nstring.6 core = .0165 in\n"
                                "string.6 build = round-wound\nstring.6 hex = yes\n"
                                "string.6 wrap_material = nickel-plated-steel\n");

    (void)state;
    bench_press(app, "*G20{Enter}");
    const double after_n = strings_state(app)->what_if.answer.string[6].after_n.value;
    bench_press(app, "*y{Enter}");
    assert_string_equal(bench_text(app, "string.6 gauge"), ".048 in");
    assert_near(assert_given(record_entered_string(&app->record, FIELD_CORE, 6)),
                0.0165 * 25.4 * sqrt(48.0 / 46), 0.002);
    assert_string_equal(bench_text(app, "string.6 hex"), "yes");
    assert_near_relative(app->now.string[6].tension_n.value, after_n, 0.005);
    bench_close(app);
}

/* Tuned down, with the gauges that pull as much: other strings are on then, however it is filed. */
static void gauges_by_pull_are_no_same_set(void **state)
{
    static const struct {
        const char *keys, *kind, *words;
    } ways[] = {{"*C+", "restrung", "other gauges by pull, "},
                {"*y{Enter}", "retuned", ", other gauges, "}};

    (void)state;
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        struct app *app = start(SIX);

        build_record_add(&app->record, "visit.1.pass.1 relief = .010 in\n");
        app_refresh(app);
        bench_press(app, "*J*J*J*J*G+++{Enter}");
        bench_press(app, ways[i].keys);
        const char *amount = bench_text(app, "visit.1.work.1 amount");
        assert_string_equal(bench_text(app, "visit.1.work.1 kind"), ways[i].kind);
        assert_non_null(strstr(amount, ways[i].words));
        assert_null(strstr(amount, "same set"));
        assert_non_null(strstr(amount, bench_text(app, "string.6 gauge")));
        bench_close(app);
    }
}

/* Nothing to take over is said, and nothing is filed. */
static void gauges_that_are_on_are_not_filed(void **state)
{
    struct app *app = start(SIX);

    (void)state;
    bench_press(app, "*G+++{Enter}");
    assert_true(what_if_is_on(&strings_state(app)->what_if));
    assert_false(bench_press(app, "*y").save);
    assert_int_equal(app->tone, TONE_WARNING);
    assert_null(app->asked);
    bench_close(app);
}

/* Another set is asked about by its own gauges, so pulls that were wanted go. */
static void a_set_drops_the_pulls(void **state)
{
    struct app *app = start(SIX);

    (void)state;
    bench_press(app, "*G20{Enter}*g+{Enter}");
    assert_true(strings_state(app)->what_if.set.strings == 6);
    assert_false(what_if_has_pulls(&strings_state(app)->what_if));
    bench_press(app, "*G20{Enter}");
    assert_true(strings_state(app)->what_if.set.strings == 6);
    assert_true(what_if_has_pulls(&strings_state(app)->what_if));
    bench_close(app);
}

static void reading_only_takes_nothing_over(void **state)
{
    struct app *app = malloc(sizeof *app);
    struct record record, before;

    (void)state;
    build_record(&record, SIX);
    bench_start_record(app, &record, false, true);
    while (app->leaf != LEAF_STRINGS)
        bench_press(app, "{PgDn}");
    assert_int_equal(record_copy(&app->record, &before), STATUS_OK);
    assert_false(bench_press(app, "{Right}ky").save);
    assert_int_equal(app->tone, TONE_WARNING);
    assert_true(record_equal(&app->record, &before));
    record_done(&before);
    bench_close(app);
}

/* What is typed counts in the what-if before it is taken. */
static void an_entry_shows_in_the_what_if(void **state)
{
    struct app *app = start(SIX);

    (void)state;
    bench_press(app, "*k*w{Right}*k");
    const double before_n = strings_state(app)->what_if.answer.string[6].after_n.value;
    bench_press(app, "20");
    /* Half the gauge, a quarter of the mass and the pull. */
    assert_near(strings_state(app)->what_if.answer.string[6].after_n.value, before_n / 4,
                1e-9 * before_n);
    bench_press(app, "{Esc}");
    assert_near(strings_state(app)->what_if.answer.string[6].after_n.value, before_n,
                1e-9 * before_n);
    bench_close(app);
}

static void another_number_of_strings_drops_what_does_not_fit(void **state)
{
    struct app *app = start(SIX);
    const struct reading_key key = reading_key_one(FIELD_STRINGS);

    (void)state;
    bench_press(app, "*n++{Enter}*g+{Enter}");
    assert_true(what_if_is_on(&strings_state(app)->what_if));
    assert_int_equal(record_put(&app->record, &key, "7", false, NULL), STATUS_OK);
    bench_press(app, "{PgDn}{PgUp}");
    derive_pass(place_of(&app->record, 1, 1), &app->now);
    what_if_derive(&strings_state(app)->what_if, &app->record, &app->now);
    assert_false(what_if_is_on(&strings_state(app)->what_if));
    bench_close(app);
}

/* --- words --- */

struct need {
    const char *lines, *word;
};

static void what_is_needed_is_named(void **state)
{
    static const struct need needs[] = {
        {"", "note"},
        {"string.1 note = E4\n", "gauge"},
        {"string.1 note = E4\nstring.1 gauge = .050 in\nstring.1 build = round-wound\n", "core"},
        {"string.1 note = E4\nstring.1 gauge = .050 in\nstring.1 build = round-wound\n"
         "string.1 core = .018 in\n",
         "wrap"},
        {"string.1 note = E4\nstring.1 gauge = .050 in\nstring.1 build = flat-wound\n", "label"},
    };
    char lines[600];

    (void)state;
    for (size_t i = 0; i < sizeof needs / sizeof needs[0]; i++) {
        char memory[200];
        struct strbuf words = STRBUF(memory);

        strcpy(lines, "board scale = 25.5 in\nboard strings = 1\nboard frets = 22\n"
                      "board join_fret = 16\n");
        strcat(lines, needs[i].lines);
        struct app *app = start(lines);
        strings_words_neck(app, &words);
        if (!strstr(memory, needs[i].word) || utf8_columns(memory) > 78)
            fail_msg("%s: %s", needs[i].word, memory);
        bench_close(app);
    }
}

/* .010 in of music wire at E4 on 25.5 in is common practice; a fourth up it is near its
 * strength. */
/* A blank behind a number goes on with what is typed; before anything is typed it steps. */
static void a_blank_belongs_to_what_is_typed(void **state)
{
    struct app *app = start(SIX);

    (void)state;
    bench_press(app, "*n2 down");
    assert_string_equal(app->entry.text, "2 down");
    bench_press(app, "{Esc}*n2 {Enter}");
    assert_string_equal(app->entry.text, "");
    bench_press(app, "*n  ");
    assert_true(app->proposed);
    bench_close(app);
}

static void a_string_near_its_strength_is_a_caution(void **state)
{
    struct app *app = start(SIX);

    (void)state;
    bench_press(app, "{Up}{Down}{Down}{Down}{Down}{Down}");
    assert_int_equal(app_string(app), 1);
    assert_string_equal(strings_words_caution(app), "");
    bench_press(app, "*k*k*k*k*k*k*k*k");
    assert_true(strings_state(app)->what_if.answer.string[1].stress_share.value > STRESS_SHARE_MAX);
    assert_non_null(strstr(strings_words_caution(app), "eye"));
    bench_close(app);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_reading_of_a_string_has_a_cell),
        cmocka_unit_test(the_route_goes_down_the_columns),
        cmocka_unit_test(without_strings_there_is_nothing_to_ask),
        cmocka_unit_test(a_slack_nylon_piece_is_told_from_the_string),
        cmocka_unit_test(a_string_is_told_the_gauge_that_pulls_like_the_others),
        cmocka_unit_test(a_what_if_leaves_the_record_alone),
        cmocka_unit_test(a_string_is_tuned_up_and_down),
        cmocka_unit_test(all_strings_go_together),
        cmocka_unit_test(another_tuning_drops_the_shifts),
        cmocka_unit_test(a_tuning_spells_the_notes_beside_it),
        cmocka_unit_test(only_what_fits_the_kind_is_offered),
        cmocka_unit_test(a_tuning_is_asked_for_by_name),
        cmocka_unit_test(an_unknown_name_is_refused_with_the_nearest),
        cmocka_unit_test(a_set_is_asked_for_on_the_number_pad),
        cmocka_unit_test(what_is_half_asked_stays),
        cmocka_unit_test(taking_it_over_is_one_step),
        cmocka_unit_test(a_pull_names_its_gauge),
        cmocka_unit_test(a_unit_may_be_typed),
        cmocka_unit_test(a_set_is_evened),
        cmocka_unit_test(the_feel_is_kept_under_another_tuning),
        cmocka_unit_test(gauges_are_filed_after_a_question),
        cmocka_unit_test(a_wound_string_takes_its_core_along),
        cmocka_unit_test(gauges_by_pull_are_no_same_set),
        cmocka_unit_test(gauges_that_are_on_are_not_filed),
        cmocka_unit_test(a_set_drops_the_pulls),
        cmocka_unit_test(reading_only_takes_nothing_over),
        cmocka_unit_test(an_entry_shows_in_the_what_if),
        cmocka_unit_test(another_number_of_strings_drops_what_does_not_fit),
        cmocka_unit_test(what_is_needed_is_named),
        cmocka_unit_test(a_blank_belongs_to_what_is_typed),
        cmocka_unit_test(a_string_near_its_strength_is_a_caution),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
