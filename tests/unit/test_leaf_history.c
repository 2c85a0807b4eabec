/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "leaf/history/history_notes.h"
#include "bench_session.h"
#include "build_record.h"
#include "leaf/history/history_state.h"

/* Two visits half a year apart, the first with the rod turned between its passes. */
static const char two_visits[] = "board scale = 25.5 in\n"
                                 "board strings = 6\n"
                                 "board frets = 20\n"
                                 "board join_fret = 14\n"
                                 "board width_join = 55 mm\n"
                                 "board wood = sugar maple\n"
                                 "neck rod = two-way\n"
                                 "targets relief = .006 in\n"
                                 "targets action_bass = 6/64 in\n"
                                 "targets action_treble = 4/64 in\n"
                                 "targets nut_gap_bass = .018 in\n"
                                 "targets nut_gap_treble = .012 in\n"
                                 "visit.1 date = 2026-01-19\n"
                                 "visit.1 humidity = 40\n"
                                 "visit.1 temperature = 21 C\n"
                                 "visit.1.pass.1 time = 10:00\n"
                                 "visit.1.pass.1 relief = .012 in\n"
                                 "visit.1.pass.1 nut_gap.6 = .024 in\n"
                                 "visit.1.pass.1 nut_gap.1 = .016 in\n"
                                 "visit.1.pass.1 action.6 = 8/64 in\n"
                                 "visit.1.pass.1 action.1 = 6/64 in\n"
                                 "visit.1.pass.2 time = 11:00\n"
                                 "visit.1.pass.2 rod_turn = 1/4 turn\n"
                                 "visit.1.pass.2 relief = .007 in\n"
                                 "visit.1.pass.2 action.6 = 7.5/64 in\n"
                                 "visit.2 date = 2026-07-06\n"
                                 "visit.2 humidity = 65\n"
                                 "visit.2 temperature = 21 C\n"
                                 "visit.2.pass.1 time = 09:45\n"
                                 "visit.2.pass.1 relief = .011 in\n"
                                 "visit.2.pass.2 relief = .010 in\n";

static struct app *start(const char *lines)
{
    return bench_open(lines, "", LEAF_HISTORY);
}

static void make_of(const struct record *record, struct history *history)
{
    struct history_index index;

    history_index_make(record, &index);
    history_make(record, &index, history);
}

static struct history *make(const char *lines, struct record *record)
{
    struct history *history = malloc(sizeof *history);

    assert_non_null(history);
    build_record(record, lines);
    make_of(record, history);
    return history;
}

static void passes_stand_side_by_side(void **state)
{
    struct record record;
    struct history *history = make(two_visits, &record);
    const struct history_pass *first = &history->passes[0], *last = &history->passes[3];

    (void)state;
    assert_int_equal(history->count, 4);
    assert_int_equal(history->earlier, 0);
    assert_near(first->value[HISTORY_RELIEF][HISTORY_BASS].value, 25.4 * .012, 1e-9);
    assert_near(first->value[HISTORY_GAP][HISTORY_BASS].value, 25.4 * .024, 1e-9);
    assert_near(first->value[HISTORY_ACTION][HISTORY_TREBLE].value, 25.4 * 6 / 64, 1e-9);
    assert_false(first->value[HISTORY_EXPOSURE][HISTORY_BASS].given);
    assert_near(history->passes[1].value[HISTORY_TURN][HISTORY_BASS].value, 0.25, 0);
    /* One action serves both sides, and the other says that it was taken. */
    assert_false(history->passes[1].value[HISTORY_ACTION][HISTORY_BASS].taken);
    assert_true(history->passes[1].value[HISTORY_ACTION][HISTORY_TREBLE].taken);
    assert_near(last->value[HISTORY_HUMIDITY][HISTORY_BASS].value, 65, 0);
    assert_near(history->passes[2].day.value - first->day.value, 168 - 15 / 60.0 / 24, 1e-9);
    record_done(&record);
    free(history);
}

/* Wood Handbook, FPL-GTR-282, table 4-2: 7.7 % at 70 F and 40 %, 12.0 % at 70 F and 65 %. */
static void moisture_stands_under_the_visit(void **state)
{
    struct record record;
    struct history *history = make(two_visits, &record);

    (void)state;
    assert_near(history->passes[0].value[HISTORY_EMC][HISTORY_BASS].value, 7.7, 0.1);
    assert_near(history->passes[2].value[HISTORY_EMC][HISTORY_BASS].value, 12.0, 0.1);
    record_done(&record);
    free(history);
}

static void changes_are_between_the_right_passes(void **state)
{
    struct record record;
    struct history *history = make(two_visits, &record);
    double change;

    (void)state;
    assert_int_equal(history_last_visit(history, 3), 1);
    assert_int_equal(history_last_visit(history, 1), -1);
    assert_true(history_change(history, 1, 2, HISTORY_RELIEF, HISTORY_BASS, &change));
    assert_near(change, 25.4 * .004, 1e-9);
    assert_true(history_change(history, 1, 2, HISTORY_HUMIDITY, HISTORY_BASS, &change));
    assert_near(change, 25, 1e-9);
    /* A visit has one climate, and turns are a change themselves. */
    assert_false(history_change(history, 0, 1, HISTORY_HUMIDITY, HISTORY_BASS, &change));
    assert_false(history_change(history, 0, 1, HISTORY_TURN, HISTORY_BASS, &change));
    assert_false(history_change(history, -1, 0, HISTORY_RELIEF, HISTORY_BASS, &change));
    assert_false(history_change(history, 1, 2, HISTORY_ACTION, HISTORY_BASS, &change));
    record_done(&record);
    free(history);
}

static bool some_note_has(const struct history_notes *notes, const char *words)
{
    for (int i = 0; i < notes->count; i++)
        if (strstr(notes->notes[i].text, words))
            return true;
    return false;
}

static void notes_say_what_moved(void **state)
{
    const struct shop_units units = shop_units_inch();
    struct history_notes notes;
    struct record record;
    struct history *history = make(two_visits, &record);

    (void)state;
    history_notes_make(&record, history, 1, HISTORY_ACTION, &units, &notes);
    assert_non_null(strstr(notes.notes[0].text, "after the rod predicted"));
    assert_true(some_note_has(&notes, "rod: relief -.020"));
    history_notes_make(&record, history, 2, HISTORY_EMC, &units, &notes);
    assert_non_null(strstr(notes.notes[0].text, "since visit 1"));
    assert_non_null(strstr(notes.notes[0].text, "board at the join +"));
    assert_false(some_note_has(&notes, "restrung"));
    build_record_add(&record, "visit.2.work.1 kind = restrung\nvisit.2.work.1 amount = same set\n"
                              "visit.2.work.1 time = 10:42\nvisit.2.work.2 kind = rod\n");
    history_notes_make(&record, history, 2, HISTORY_EMC, &units, &notes);
    assert_true(some_note_has(&notes, "restrung, visit 2, 2026-07-06: same set"));
    build_record_add(&record, "visit.2.work.1 time = 2026-07-08T10:42\n");
    history_notes_make(&record, history, 2, HISTORY_EMC, &units, &notes);
    assert_true(some_note_has(&notes, "restrung, visit 2, 2026-07-08: same set"));
    history_notes_make(&record, history, 0, HISTORY_RELIEF, &units, &notes);
    /* The first pass of all has nothing before it: no turn was logged yet. */
    assert_int_equal(notes.count, 0);
    history_notes_make(&record, history, 3, HISTORY_RELIEF, &units, &notes);
    assert_non_null(strstr(notes.notes[0].text, "since the end of visit 1: +.003 in"));
    record_done(&record);
    free(history);
}

static const char *spelled(enum history_row row, double value, bool change, bool metric)
{
    static char memory[32];
    const struct shop_units units = metric ? shop_units_metric() : shop_units_inch();
    const struct outfit outfit = outfit_plain(6);
    struct strbuf out = STRBUF(memory);

    strbuf_clear(&out);
    history_add(&out, &outfit, row, value, change, &units);
    return memory;
}

static void values_are_written_in_the_rows_unit(void **state)
{
    (void)state;
    assert_string_equal(spelled(HISTORY_RELIEF, 25.4 * .012, false, false), ".012");
    assert_string_equal(spelled(HISTORY_RELIEF, -25.4 * .004, true, false), "-.004");
    assert_string_equal(spelled(HISTORY_RELIEF, .05, true, true), "+0.05");
    assert_string_equal(spelled(HISTORY_TURN, .25, false, false), "1/4");
    assert_string_equal(spelled(HISTORY_TURN, -1.0 / 16, false, false), "-1/16");
    assert_string_equal(spelled(HISTORY_TURN, .3, false, false), ".30");
    assert_string_equal(spelled(HISTORY_EMC, 3.64, true, false), "+3.6");
    assert_string_equal(spelled(HISTORY_TEMPERATURE, 4, true, false), "+7");
}

/* What is looked at is the tech's; the pass in hand stays until Enter takes another. */
static void looking_back_leaves_the_pass_in_hand(void **state)
{
    struct app *app = start(two_visits);

    (void)state;
    assert_int_equal(app->route.count, 0);
    bench_press(app, "{Left}{Left}<{Down}{Down}");
    assert_int_equal(history_state(app)->pass.visit, 1);
    assert_int_equal(history_state(app)->pass.pass, 1);
    assert_int_equal(history_state(app)->row, HISTORY_ACTION);
    assert_int_equal(app->visit, 2);
    bench_press(app, "{Left}{Home}");
    assert_int_equal(history_state(app)->pass.pass, 1);
    bench_press(app, "{Right}{Enter}");
    assert_int_equal(app->leaf, LEAF_BENCH);
    assert_int_equal(app->visit, 1);
    assert_int_equal(app->pass, 2);
    bench_close(app);
}

/* Whatever was in hand on the bench before. */
static void a_pass_is_opened_at_its_first_cell(void **state)
{
    struct app *app = start(two_visits);

    (void)state;
    bench_press(app, "{F2}{Down}{Down}{F8}{Left}{Enter}");
    assert_int_equal(app->leaf, LEAF_BENCH);
    assert_int_equal(app->at, 0);
    assert_string_equal(app->message, "This is the current pass now; > goes to the later ones.");
    bench_press(app, "{F8}{End}{Enter}");
    assert_int_equal(app->pass, 2);
    assert_string_equal(app->message, "This is the current pass now.");
    bench_close(app);
}

/* A begun pass that comes back on a leaf is in hand, so it is looked at from then on. */
static void what_comes_back_in_hand_is_looked_at(void **state)
{
    struct app *app = start(two_visits);

    (void)state;
    bench_press(app, "{F2}p{F8}{Left}");
    assert_int_equal(history_state_find(app), 2);
    bench_press(app, "{F4}");
    assert_int_equal(app->pass, 3);
    bench_press(app, "{F8}");
    assert_int_equal(app->pass, 2);
    assert_int_equal(history_state_find(app), 3);
    bench_close(app);
}

static void it_begins_at_the_pass_in_hand(void **state)
{
    struct app *app = start(two_visits);

    (void)state;
    assert_int_equal(history_state_find(app), 3);
    bench_press(app, "{PgUp}<<{PgDn}");
    assert_int_equal(history_state_find(app), 1);
    /* A pass that was taken back is not there any more; the last one is. */
    history_state(app)->pass.visit = 7;
    assert_int_equal(history_state_find(app), 3);
    bench_close(app);
}

static void nothing_measured_is_nothing_to_open(void **state)
{
    struct app *app = start("");

    (void)state;
    assert_false(bench_press(app, "{Left}{Right}{Up}{Down}{Home}{End}{Enter}<>").save);
    assert_int_equal(app->leaf, LEAF_HISTORY);
    assert_int_equal(history_state(app)->pass.visit, 0);
    bench_close(app);
}

static void rows_end_at_the_edges(void **state)
{
    struct app *app = start(two_visits);

    (void)state;
    bench_press(app, "{Up}");
    assert_int_equal(history_state(app)->row, HISTORY_RELIEF);
    for (int i = 0; i < 2 * HISTORY_ROW_COUNT_; i++)
        bench_press(app, "{Down}");
    assert_int_equal(history_state(app)->row, HISTORY_EMC);
    bench_close(app);
}

/* Of more passes than it holds the last ones stay, and how many went is known. */
static void a_long_history_keeps_its_end(void **state)
{
    const int passes = HISTORY_PASSES_MAX + 44;
    struct history *history = malloc(sizeof *history);
    struct record record;

    (void)state;
    build_record(&record, "board scale = 25.5 in\nboard strings = 1\nboard frets = 0\n");
    for (int p = 1; p <= passes; p++)
        build_record_put_mm(&record, reading_key_pass(FIELD_RELIEF, 3, p), 0.001 * p);
    make_of(&record, history);
    assert_int_equal(history->count, HISTORY_PASSES_MAX);
    assert_int_equal(history->earlier, 44);
    assert_int_equal(history->passes[history->count - 1].pass, passes);
    assert_near(history->passes[0].value[HISTORY_RELIEF][HISTORY_BASS].value, 0.045, 1e-9);
    assert_false(history->passes[0].day.given);
    record_done(&record);
    free(history);
}

/* The label, then the note, of the pass looked at, then what the sheet says to the owner; another
 * pass stays in hand throughout. */
static void a_pass_is_named_where_it_is_looked_at(void **state)
{
    struct app *app = start(two_visits);

    (void)state;
    bench_press(app, "{Left}{Left}lafter the rod{Enter}");
    assert_string_equal(bench_text(app, "visit.1.pass.2 label"), "after the rod");
    bench_press(app, "5 o'clock, warm{Enter}");
    assert_string_equal(bench_text(app, "visit.1.pass.2 note"), "5 o'clock, warm");
    bench_press(app, "Plays as asked{Enter}");
    assert_string_equal(bench_text(app, "visit.1 for_owner"), "Plays as asked");
    assert_int_equal(app->route.count, 0);
    assert_int_equal(app->visit, 2);
    assert_int_equal(app->pass, 2);
    assert_int_equal(history_state(app)->pass.visit, 1);
    bench_press(app, "{End}u");
    assert_null(bench_text(app, "visit.1 for_owner"));
    assert_int_equal(history_state(app)->pass.visit, 1);
    bench_press(app, "{End}u");
    assert_null(bench_text(app, "visit.1.pass.2 note"));
    assert_int_equal(app->leaf, LEAF_HISTORY);
    assert_int_equal(history_state(app)->pass.visit, 1);
    assert_int_equal(history_state(app)->pass.pass, 2);
    assert_int_equal(app->visit, 2);
    bench_close(app);
}

static void naming_can_be_left_at_any_point(void **state)
{
    static const char *const ways[] = {"half{Esc}", "{PgDn}{PgUp}", "half{Enter}{Esc}",
                                       "half{Enter}{Enter}{Enter}"};

    (void)state;
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        struct app *app = start(two_visits);

        bench_press(app, "l");
        bench_press(app, ways[i]);
        assert_int_equal(app->named.visit, 0);
        assert_int_equal(app->route.count, 0);
        assert_false(app->writing);
        assert_int_equal(app->leaf, LEAF_HISTORY);
        bench_press(app, "{Left}");
        assert_int_equal(history_state(app)->pass.visit, 2);
        assert_int_equal(history_state(app)->pass.pass, 1);
        bench_close(app);
    }
}

static void naming_waits_for_what_is_typed(void **state)
{
    struct app *app = start(two_visits);

    (void)state;
    bench_press(app, "lhalff{Back}{Up}{Down}{PgDn}");
    assert_int_equal(app->tone, TONE_WARNING);
    assert_int_equal(app->named.visit, 2);
    assert_int_equal(app->leaf, LEAF_HISTORY);
    assert_string_equal(app->entry.text, "half");
    bench_press(app, "{Enter}{Enter}{Enter}l{Ins}{Back}{Back}{Back}{Back}{Enter}");
    assert_null(bench_text(app, "visit.2.pass.2 label"));
    bench_close(app);
}

static void a_profile_that_is_only_read_gets_no_names(void **state)
{
    struct app *app = malloc(sizeof *app);
    struct record record;

    (void)state;
    assert_non_null(app);
    build_record(&record, two_visits);
    bench_start_record(app, &record, false, true);
    bench_press(app, "{PgUp}{PgUp}l");
    assert_int_equal(app->leaf, LEAF_HISTORY);
    assert_int_equal(app->tone, TONE_WARNING);
    assert_int_equal(app->named.visit, 0);
    bench_close(app);
}

static void the_row_in_hand_is_explained(void **state)
{
    struct app *app = start(two_visits);

    (void)state;
    assert_int_equal(app_figure(app), FIGURE_RELIEF);
    bench_press(app, "{Down}{Down}");
    assert_int_equal(app_figure(app), FIGURE_ACTION);
    bench_press(app, "{Down}{Down}{Down}");
    assert_int_equal(app_figure(app), FIGURE_EMC);
    bench_close(app);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(passes_stand_side_by_side),
        cmocka_unit_test(moisture_stands_under_the_visit),
        cmocka_unit_test(changes_are_between_the_right_passes),
        cmocka_unit_test(notes_say_what_moved),
        cmocka_unit_test(values_are_written_in_the_rows_unit),
        cmocka_unit_test(looking_back_leaves_the_pass_in_hand),
        cmocka_unit_test(a_pass_is_opened_at_its_first_cell),
        cmocka_unit_test(what_comes_back_in_hand_is_looked_at),
        cmocka_unit_test(it_begins_at_the_pass_in_hand),
        cmocka_unit_test(nothing_measured_is_nothing_to_open),
        cmocka_unit_test(rows_end_at_the_edges),
        cmocka_unit_test(a_pass_is_named_where_it_is_looked_at),
        cmocka_unit_test(naming_can_be_left_at_any_point),
        cmocka_unit_test(naming_waits_for_what_is_typed),
        cmocka_unit_test(a_profile_that_is_only_read_gets_no_names),
        cmocka_unit_test(the_row_in_hand_is_explained),
        cmocka_unit_test(a_long_history_keeps_its_end),
    };
    return cmocka_run_group_tests_name("leaf_history", tests, NULL, NULL) ? 1 : 0;
}
