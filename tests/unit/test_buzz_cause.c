/* SPDX-License-Identifier: MIT */
#include "model/derive/buzz_cause.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bench_session.h"
#include "preset_record.h"
#include "session/refresh.h"
#include "words/frets_plan.h"
#include "words/move_words.h"

/*
 * Why a string buzzes, by what a tech heard and rocked on instruments at their targets. Expected:
 * common practice. High frets stand 0.05 to 0.2 mm high, a crown is 1 mm; what the rocker says of a
 * fret goes before what the ear guesses of it; frets worn low buzz over the next ones.
 */

static const char bass_notes[] = "visit.1.pass.1 buzz.3 = 5-8\n"
                                 "visit.1.pass.1 clean.3 = 0-4 9-20\n";
static const char classical_notes[] = "visit.1.pass.1 buzz.4 = 1-3\n"
                                      "visit.1.pass.1 clean.4 = 0 4-12\n";

struct heard_case {
    struct derived derived;
    struct move_words words;
    char why[240]; /* as Frets says it of the string */
    char caution[128];
};

static int preset_named(const char *id)
{
    for (int i = 0; preset_get(i); i++)
        if (strcmp(preset_get(i)->id, id) == 0)
            return i;
    fail_msg("no preset %s", id);
    return -1;
}

static void hear(const char *preset, int string, const char *notes, const char *spots,
                 struct heard_case *ret)
{
    static struct frets_plan plan;
    const struct shop_units units = shop_units_metric();
    struct strbuf why = STRBUF(ret->why), caution = STRBUF(ret->caution);
    struct record record;

    preset_at_targets(preset_named(preset), 0, &record, &ret->derived);
    build_record_add(&record, notes);
    build_record_add(&record, spots);
    derive_current(&record, &ret->derived);
    move_words_make(&ret->derived, MOVE_FRETS, &units, &ret->words);
    frets_plan_make(place_current(&record), &ret->derived, &plan);
    assert_true(frets_add_buzz(&plan, string, &units, &why));
    strbuf_add(&caution, frets_caution(&plan));
    record_done(&record);
}

static int count_due(const struct derived *derived)
{
    int due = 0;

    for (int n = 1; n <= derived->setup.board.frets; n++)
        due += derived->moves.frets.fret[n].due;
    return due;
}

/* Entered at fret 10 instead of 9: note 9 would buzz, and was clean. */
static void a_slip_of_the_pen_takes_no_crown_off(void **state)
{
    static struct heard_case heard;

    (void)state;
    hear("bass", 3, bass_notes, "visit.1.pass.1 spot.10 = 0.1 mm\n", &heard);
    assert_int_equal(count_due(&heard.derived), 0);
    assert_false(move_is_open(&heard.derived.moves.move[MOVE_FRETS]));
    assert_true(move_is_missed(&heard.derived.moves.move[MOVE_FRETS]));
    assert_string_equal(heard.words.amount,
                        "does not fit what you heard; rock again around fret 9");
    assert_non_null(strstr(heard.why, "does not fit"));
    hear("bass", 3, bass_notes, "visit.1.pass.1 spot.9 = 0.1 mm\n", &heard);
    assert_int_equal(count_due(&heard.derived), 1);
    assert_near(heard.derived.moves.frets.fret[9].value, -0.1, 1e-9);
    assert_non_null(strstr(heard.words.caution, "loose? press it first"));
    assert_string_equal(heard.words.caution, heard.caution);
    assert_true(heard.derived.moves.frets.quiet[3]);
}

static void a_fret_rocked_level_is_not_to_blame(void **state)
{
    static struct heard_case heard;

    (void)state;
    hear("classical", 4, classical_notes, "", &heard);
    assert_string_equal(heard.words.amount, "rock fret 4 first: is it high?");
    hear("classical", 4, classical_notes, "visit.1.pass.1 spot.4 = 0 mm\n", &heard);
    assert_int_equal(count_due(&heard.derived), 0);
    assert_null(strstr(heard.words.amount, "4"));
    assert_null(strstr(heard.why, "fret 4 "));
    assert_string_equal(heard.words.amount, "rock frets 1-3 first: worn low?");
    /* Nor is one that stands higher by no more than its leaf tells. */
    hear("classical", 4, classical_notes,
         "model feeler_step = 0.05 mm\nvisit.1.pass.1 spot.4 = 0.025 mm\n", &heard);
    assert_int_equal(count_due(&heard.derived), 0);
}

static void worn_frets_explain_the_notes_fretted_there(void **state)
{
    static const char *const spots[] = {
        "visit.1.pass.1 spot.1 = -0.1 mm\nvisit.1.pass.1 spot.2 = -0.1 mm\n",
        "visit.1.pass.1 spot.1 = -0.1 mm\nvisit.1.pass.1 spot.2 = -0.1 mm\n"
        "visit.1.pass.1 spot.4 = 0 mm\n",
        "visit.1.pass.1 spot.1 = -0.1 mm\nvisit.1.pass.1 spot.2 = -0.1 mm\n"
        "visit.1.pass.1 spot.3 = 0 mm\nvisit.1.pass.1 spot.4 = 0 mm\n",
    };
    static struct heard_case heard;

    (void)state;
    for (size_t i = 0; i < sizeof spots / sizeof spots[0]; i++) {
        hear("classical", 4, classical_notes, spots[i], &heard);
        assert_int_equal(count_due(&heard.derived), 0);
        assert_true(move_is_open(&heard.derived.moves.move[MOVE_FRETS]));
        assert_true(heard.derived.moves.frets.low == (1U << 1 | 1U << 2));
        assert_true(heard.derived.moves.frets.worn == (i < 2 ? 1U << 3 : 0));
        assert_non_null(strstr(heard.words.amount, "worn low, 1-2, by 0.10 mm"));
        assert_non_null(strstr(heard.why, "low by the rocker"));
        assert_null(strstr(heard.why, "fret 4"));
    }
}

/* Of two notes that buzz, the one between is clean. */
static void notes_that_do_not_agree_are_said_to(void **state)
{
    static struct heard_case heard;

    (void)state;
    hear("bass", 3, "visit.1.pass.1 buzz.3 = 0 2\nvisit.1.pass.1 clean.3 = 1 3-20\n", "", &heard);
    assert_int_equal(count_due(&heard.derived), 0);
    assert_non_null(strstr(heard.why, "do not agree"));
    assert_null(strstr(heard.why, " to "));
    assert_non_null(strstr(heard.words.amount, "rock fret "));
}

/* Whatever is heard, what is ordered is more than its doubt and no more than a fret is off by. */
static void what_is_ordered_is_known(void **state)
{
    static struct heard_case heard;
    int ordered = 0, rocked_first = 0;

    (void)state;
    for (int from = 0; from < 12; from++)
        for (int to = from; to < from + 5; to++) {
            char memory[200];
            struct strbuf notes = STRBUF(memory);

            strbuf_addf(&notes, "visit.1.pass.1 buzz.3 = %d-%d\nvisit.1.pass.1 clean.3 = %d-19\n",
                        from, to, to + 1);
            hear("bass", 3, memory, "", &heard);
            for (int n = 1; n <= 20; n++) {
                const struct move_amount *amount = &heard.derived.moves.frets.fret[n];

                if (!amount->due)
                    continue;
                ordered++;
                assert_true(-amount->value >= amount->u);
                assert_true(-amount->value <= BUZZ_HIGH_MOST_MM);
            }
            rocked_first += heard.derived.moves.move[MOVE_FRETS].needs == NEED_ROCKER;
        }
    assert_true(ordered > 0 && rocked_first > 0);
}

/* A bass at its targets, lower by so much, on the bench. */
static struct app *start_bass(const char *more, double lower_mm)
{
    struct app *app = malloc(sizeof *app);
    struct derived derived;
    struct record record;

    preset_at_targets(preset_named("bass"), lower_mm, &record, &derived);
    build_record_add(&record, "visit.1.pass.1 exposure_bass = 2 mm\n"
                              "visit.1.pass.1 exposure_treble = 2 mm\n");
    build_record_add(&record, more);
    bench_start_record(app, &record, true, false);
    return app;
}

/* A move names a fret to rock: its cell is in hand when Frets is. */
static void the_fret_to_rock_is_in_hand(void **state)
{
    struct app *app = start_bass(bass_notes, 0);

    (void)state;
    assert_int_equal(app->now.moves.move[MOVE_FRETS].needs, NEED_ROCKER);
    bench_press(app, "{End}{Enter}");
    assert_non_null(strstr(app->message, "rock what Frets names: F5"));
    bench_press(app, "{F5}");
    assert_non_null(app_cell(app));
    assert_int_equal(app_cell(app)->key.field, FIELD_SPOT);
    assert_int_equal(app_cell(app)->key.fret, 9);
    bench_press(app, "0.1{Enter}");
    assert_true(app->now.moves.frets.fret[9].due);
    bench_press(app, "{F7}{F5}"); /* it is answered: the cursor stays where it was */
    assert_int_equal(app_cell(app)->key.fret, 10);
    bench_close(app);
}

/* By the readings notes buzz under a hard touch, and nobody has played any. */
static void it_is_played_before_it_goes_back(void **state)
{
    static const char *const touches[] = {"medium", "hard"};
    static const char *const said[] = {
        "all cells done; nothing is due: it can go back; not heard, not tuned",
        "all cells done; nothing is due; play it first: tightest string ",
    };

    (void)state;
    for (int i = 0; i < 2; i++) {
        char more[64];
        struct strbuf line = STRBUF(more);

        strbuf_addf(&line, "targets touch = %s\n", touches[i]);
        struct app *app = start_bass(more, 0);
        assert_int_equal(move_set_verdict(&app->now.moves), MOVES_READY);
        bench_press(app, "{End}{Enter}");
        assert_non_null(strstr(app->message, said[i]));
        build_record_add(&app->record, "visit.1.pass.1 clean.3 = 0-19\n");
        app_refresh(app);
        bench_press(app, "{Home}{End}{Enter}");
        assert_non_null(strstr(app->message, "it can go back; not tuned"));
        bench_close(app);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_slip_of_the_pen_takes_no_crown_off),
        cmocka_unit_test(a_fret_rocked_level_is_not_to_blame),
        cmocka_unit_test(worn_frets_explain_the_notes_fretted_there),
        cmocka_unit_test(notes_that_do_not_agree_are_said_to),
        cmocka_unit_test(what_is_ordered_is_known),
        cmocka_unit_test(the_fret_to_rock_is_in_hand),
        cmocka_unit_test(it_is_played_before_it_goes_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
