/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <string.h>

#include "session/app.h"
#include "bench_session.h"
#include "build_record.h"
#include "model/figure/bench_row.h"

/* Begins anew with other readings. */
static struct app *restart(struct app *app, const char *lines)
{
    app_done(app);
    bench_start(app, lines);
    return app;
}

static struct app *restart_read_only(struct app *app)
{
    struct record record;

    app_done(app);
    build_record(&record, build_record_full);
    bench_start_record(app, &record, false, true);
    return app;
}

/* --- one hand --- */

static void a_pass_is_entered_from_the_number_pad_alone(void **state)
{
    struct app *app = restart(*state, "board scale = 25.5 in\nboard strings = 2\n"
                                      "board frets = 22\nboard join_fret = 16\n");

    const struct app_effects effects = bench_press(
        app, ".011{Enter}10+12{Enter}20{Enter}7/64{Enter}6.5{Enter}11{Enter}10.5{Enter}");
    assert_true(effects.save);
    assert_string_equal(bench_text(app, "visit.1.pass.1 relief"), ".011 in");
    assert_string_equal(bench_text(app, "visit.1.pass.1 nut_gap.2"), "10+12 th");
    assert_string_equal(bench_text(app, "visit.1.pass.1 nut_gap.1"), "20 th");
    assert_string_equal(bench_text(app, "visit.1.pass.1 action.2"), "7/64 in");
    assert_string_equal(bench_text(app, "visit.1.pass.1 action.1"), "6.5/64 in");
    assert_string_equal(bench_text(app, "visit.1.pass.1 exposure_bass"), "11/64 in");
    assert_string_equal(bench_text(app, "visit.1.pass.1 exposure_treble"), "10.5/64 in");
    assert_null(app_cell(app));
    /* One Enter too many begins nothing. */
    bench_press(app, "{Enter}{Enter}");
    assert_int_equal(app->pass, 1);
    assert_null(app_cell(app));
    assert_non_null(strstr(app->message, "all cells done; "));
    bench_press(app, "*4");
    assert_int_equal(app->pass, 2);
    assert_int_equal(app->at, 0);
}

/* Turns typed in a new pass are no reading: its relief is, and Enter goes on to that; then to the
 * actions, which the rod has moved. */
static void after_the_turns_comes_what_is_not_read(void **state)
{
    struct app *app = *state;

    bench_press(app, "p{Right}1/4{Enter}");
    assert_string_equal(bench_text(app, "visit.1.pass.2 rod_turn"), "1/4 turn");
    assert_int_equal(app_cell(app)->key.field, FIELD_RELIEF);
    bench_press(app, "7{Enter}{Left}{Up}{Right}1/8{Enter}");
    assert_string_equal(bench_text(app, "visit.1.pass.2 rod_turn"), "1/8 turn");
    assert_int_equal(app_cell(app)->key.field, FIELD_ACTION);
    assert_int_equal(app_cell(app)->string, 6);
}

static void expect_end(struct app *app, const char *keys, const char *said)
{
    bench_press(app, keys);
    assert_string_equal(app->message, said);
}

/* At the end Enter goes to what is not read; with all read it says what to do next. */
static void the_end_says_what_comes_next(void **state)
{
    struct app *app = *state;

    expect_end(app, "{End}{Enter}", "all cells done; what is due is on Work: F7 or * 0 7");
    assert_null(app_cell(app));
    expect_end(app, "{Home}*2{End}{Enter}", "Not read yet: relief at fret 6");
    assert_int_equal(app->at, 0);
    bench_press(app, "6{Enter}{F7}  {F2}");
    expect_end(app, "{End}{Enter}", "all cells done; p or * 4 begins the next pass");
    /* On target, by a second pass; the saddle's exposure need not be read again. */
    bench_press(app, "p6{Enter}18{Enter}17{Enter}16{Enter}14{Enter}13{Enter}12{Enter}");
    bench_press(app, "6{Enter}5.5{Enter}5.25{Enter}4.75{Enter}4.5{Enter}4{Enter}");
    expect_end(app, "{End}{Enter}",
               "all cells done; nothing is due: it can go back; not heard, not tuned");
    expect_end(app, "<{End}{Enter}", "all cells done; p or * 4 goes on to the next pass");
}

/* Relief, then straight on with the gaps: the rod's turns lie off the way. */
static void a_later_pass_does_not_ask_for_turns(void **state)
{
    struct app *app = *state;

    bench_press(app, "p7{Enter}29{Enter}");
    assert_string_equal(bench_text(app, "visit.1.pass.2 relief"), "7 th");
    assert_string_equal(bench_text(app, "visit.1.pass.2 nut_gap.6"), "29 th");
    assert_null(bench_text(app, "visit.1.pass.2 rod_turn"));
    bench_press(app, "{Back}{Back}");
    assert_int_equal(app_cell(app)->key.field, FIELD_RELIEF);
    bench_press(app, "{Right}1/4{Enter}");
    assert_string_equal(bench_text(app, "visit.1.pass.2 rod_turn"), "1/4 turn");
    assert_int_equal(app_cell(app)->key.field, FIELD_ACTION);
}

/* --- what is begun and not gone on with --- */

static void a_pass_with_nothing_in_it_is_gone_when_left(void **state)
{
    static const char *const ways[] = {"{PgDn}{PgUp}", "{PgUp}{PgDn}", "<", "{F7}{F2}", "{F8}{F2}"};
    struct app *app = *state;

    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        bench_press(app, "p");
        assert_int_equal(app->pass, 2);
        assert_false(bench_press(app, ways[i]).save);
        assert_int_equal(app->leaf, LEAF_BENCH);
        assert_int_equal(app->pass, 1);
        assert_int_equal(app_last_pass(app), 1);
    }
    bench_press(app, ">");
    assert_int_equal(app->pass, 1);
}

/* Cents and buzzes belong to a pass too: it goes along there, over the leaves between. */
static void a_begun_pass_goes_along_to_where_it_is_read(void **state)
{
    struct app *app = *state;

    bench_press(app, "p{PgDn}");
    assert_int_equal(app->leaf, LEAF_STRINGS);
    assert_int_equal(app->pass, 1);
    assert_non_null(strstr(app->message, "Pass 2 is still empty"));
    bench_press(app, "{PgDn}");
    assert_int_equal(app->leaf, LEAF_PITCH);
    assert_int_equal(app->pass, 2);
    bench_press(app, "{PgDn}");
    assert_int_equal(app->leaf, LEAF_FRETS);
    assert_int_equal(app->pass, 2);
    /* Once something is filed elsewhere it is gone there too. */
    bench_press(app, "{F3}E2{Enter}{F4}");
    assert_int_equal(app->pass, 1);
}

static void a_pass_with_a_reading_stays(void **state)
{
    struct app *app = *state;

    bench_press(app, "p7{Enter}{PgDn}{PgUp}");
    assert_int_equal(app->pass, 2);
    /* Undone, it is as if just begun. */
    bench_press(app, "u");
    assert_int_equal(app->pass, 2);
    assert_int_equal(record_last_pass(&app->record, 1), 1);
    bench_press(app, "{PgDn}{PgUp}");
    assert_int_equal(app->pass, 1);
    bench_press(app, "r");
    assert_int_equal(app->pass, 2);
    assert_string_equal(bench_text(app, "visit.1.pass.2 relief"), "7 th");
}

/* The menu's words for a command; NULL if it does not list it. */
static const char *words_of(const struct menu *menu, enum command_id id)
{
    for (int i = 0; i < menu->count; i++)
        if (menu->items[i].id == (int)id)
            return menu->items[i].words;
    return NULL;
}

/* Behind the last cell, what is due first is explained; a reset that is not due is not. */
static void why_at_the_end_is_the_first_move_due(void **state)
{
    static const char high[] = "visit.1.pass.1 relief = .006 in\n"
                               "visit.1.pass.1 exposure_bass = 1 mm\n"
                               "visit.1.pass.1 exposure_treble = 1 mm\n";
    static const struct {
        const char *more;
        enum figure_id why;
    } cases[] = {
        {"", FIGURE_RELIEF},
        {"visit.1.pass.1 relief = .006 in\n", FIGURE_SLOT_CHANGE},
        {high, FIGURE_ANGLE},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct app *app = bench_open(build_record_full, cases[i].more, LEAF_BENCH);

        bench_press(app, "{End}?");
        assert_int_equal(app->overlay, OVERLAY_WHY);
        assert_int_equal(app->why, cases[i].why);
        bench_close(app);
    }
}

/* Once a begun pass is left, undo means the last reading, and the menu says so. */
static void a_pass_that_was_left_is_not_undone(void **state)
{
    struct app *app = *state;

    bench_press(app, "p*");
    assert_string_equal(words_of(&app->menu, COMMAND_UNDO), "undo: what was just begun");
    bench_press(app, "{Esc}{PgDn}{PgUp}*");
    assert_null(words_of(&app->menu, COMMAND_UNDO));
    bench_press(app, "{Esc}.014{Enter}p{PgDn}{PgUp}*");
    assert_string_equal(words_of(&app->menu, COMMAND_UNDO), "undo: relief");
    bench_press(app, "1");
    assert_non_null(strstr(app->message, "Undone: relief"));
}

/* Reason and climate are entered on Intake, and Neck can change with a visit, so the new visit goes
 * along there. */
static void a_visit_with_nothing_in_it_is_gone_when_left(void **state)
{
    struct app *app = *state;

    bench_press(app, "v{F1}");
    assert_int_equal(app->visit, 2);
    bench_press(app, "{F6}");
    assert_int_equal(app->visit, 2);
    bench_press(app, "{F8}");
    assert_int_equal(app->visit, 1);
    bench_press(app, "{F2}");
    assert_int_equal(app->visit, 1);
    bench_press(app, "v<");
    assert_int_equal(app->visit, 1);
    assert_int_equal(record_last_visit(&app->record), 1);
}

static void back_takes_a_character_then_a_cell(void **state)
{
    struct app *app = *state;

    bench_press(app, "{Enter}12{Back}");
    assert_string_equal(app->entry.text, "1");
    assert_int_equal(app->at, 1);
    bench_press(app, "{Back}");
    assert_int_equal(app->at, 1);
    bench_press(app, "{Back}");
    assert_int_equal(app->at, 0);
    bench_press(app, "{Back}{Back}");
    assert_int_equal(app->at, 0);
}

static void an_empty_entry_leaves_the_cell_as_it_is(void **state)
{
    struct app *app = *state;
    const struct app_effects effects = bench_press(app, "{Enter}{Enter}");

    assert_false(effects.save);
    assert_int_equal(app->at, 2);
    assert_string_equal(bench_text(app, "visit.1.pass.1 relief"), ".013 in");
}

static void rubbish_is_refused_with_a_sentence(void **state)
{
    struct app *app = *state;
    const struct app_effects effects = bench_press(app, "1..3{Enter}");

    assert_false(effects.save);
    assert_int_equal(app->at, 0);
    assert_int_equal(app->tone, TONE_WARNING);
    assert_true(strlen(app->message) > 5);
    assert_non_null(strstr(app->message, "\"1..3\""));
    assert_string_equal(app->entry.text, "1..3");
    assert_string_equal(bench_text(app, "visit.1.pass.1 relief"), ".013 in");
    bench_press(app, "{Back}");
    assert_int_equal(app->tone, TONE_NONE);
    assert_string_equal(app->entry.text, "");
}

static void a_unit_may_follow_a_number(void **state)
{
    struct app *app = *state;

    bench_press(app, "0.33 mm{Enter}");
    assert_string_equal(bench_text(app, "visit.1.pass.1 relief"), "0.33 mm");
}

/* --- live --- */

static void an_entry_is_previewed_and_leaves_no_trace(void **state)
{
    struct app *app = *state;
    struct record before;
    double shown;

    assert_int_equal(record_copy(&app->record, &before), STATUS_OK);
    const struct app_effects effects = bench_press(app, ".006");
    assert_false(effects.save);
    assert_true(app->previewing);
    shown = assert_given(figures_get(&app_shown(app)->figures, FIGURE_RELIEF, 0));
    assert_near(shown, 0.006 * 25.4, 1e-9);
    assert_int_equal(app_shown(app)->moves.move[MOVE_ROD].state, MOVE_GOOD);
    shown = assert_given(figures_get(&app->now.figures, FIGURE_RELIEF, 0));
    assert_near(shown, 0.013 * 25.4, 1e-9);
    assert_true(record_equal(&app->record, &before));
    bench_press(app, "{Esc}");
    assert_false(app->previewing);
    assert_ptr_equal(app_shown(app), &app->now);
    assert_true(record_equal(&app->record, &before));
    record_done(&before);
}

static void what_is_not_understood_is_not_previewed(void **state)
{
    struct app *app = *state;

    bench_press(app, "1..");
    assert_false(app->previewing);
    assert_false(app->entry_view.good);
    assert_false(app->entry_view.empty);
}

/* A text from a file that no bench would take survives being typed over on trial. */
static void a_bad_text_survives_a_preview(void **state)
{
    struct app *app = *state;
    const struct reading_key key = reading_key_pass(FIELD_RELIEF, 1, 1);

    assert_int_not_equal(record_put(&app->record, &key, "some", true, NULL), STATUS_OK);
    bench_press(app, ".006{Esc}");
    assert_string_equal(record_text(&app->record, &key), "some");
    assert_int_equal(record_get(&app->record, &key)->value.state, READING_BAD);
}

/* --- passes and visits --- */

static void the_first_reading_dates_pass_and_visit(void **state)
{
    struct app *app = restart(*state, "board strings = 6\n");

    bench_press(app, ".011{Enter}");
    assert_string_equal(bench_text(app, "visit.1 date"), "2026-03-02");
    assert_string_equal(bench_text(app, "visit.1.pass.1 time"), "10:42");
    assert_string_equal(bench_text(app, "visit.1.pass.1 label"), "as found");
    /* One step: all of it goes with the reading. */
    bench_press(app, "u");
    assert_null(bench_text(app, "visit.1 date"));
    assert_null(bench_text(app, "visit.1.pass.1 time"));
    assert_null(bench_text(app, "visit.1.pass.1 relief"));
    bench_press(app, "r");
    assert_string_equal(bench_text(app, "visit.1 date"), "2026-03-02");
    assert_string_equal(bench_text(app, "visit.1.pass.1 relief"), ".011 in");
}

static void a_pass_begins_when_the_last_has_a_reading(void **state)
{
    struct app *app = *state;

    bench_press(app, "p");
    assert_int_equal(app->pass, 2);
    assert_int_equal(app_last_pass(app), 2);
    /* What a turn of the rod does is not known yet: it is turned to its target, .006 in. */
    assert_near(app_expected(app, app_cell(app)).value, 0.1524, 1e-9);
    bench_press(app, "p");
    assert_int_equal(app->pass, 2);
    assert_int_equal(app->tone, TONE_WARNING);
}

/* What a gauge reads over a fret once the moves of the pass before are made: straight from
 * the strings' lines, not from the figures that app_expected takes. */
static double read_after(const struct app *app, int string, int fret)
{
    const struct board *board = &app->before.setup.board;
    const struct string_lines *lines = &app->before.lines;
    const struct string_line *line = &lines->after[string];
    const double x = board->station_mm[string][fret];

    return line->nut_mm + (line->saddle_mm - line->nut_mm) * x / board->contact_mm[string] -
           neck_curve_height_mm(&lines->curve_after, board, string, fret);
}

/* Every gap and action in brackets against the lines, within what a slot is cut short by. How many
 * strings had that move due. */
static int count_foretold(const struct app *app, bool slot, bool saddle, double within_mm)
{
    int met = 0;

    assert_true(app->has_before);
    assert_int_equal(app->before.moves.move[MOVE_ROD].state, MOVE_GOOD);
    for (int i = 0; i < app->route.count; i++) {
        const struct route_cell *cell = &app->route.cells[i];
        const int s = cell->string;

        if (cell->row != ROW_GAP && cell->row != ROW_ACTION)
            continue;
        if (app->before.moves.move[MOVE_SLOTS].string[s].due != slot ||
            app->before.moves.move[MOVE_SADDLE].string[s].due != saddle)
            continue;
        assert_near(
            assert_given(app_expected(app, cell)),
            read_after(app, s, cell->row == ROW_GAP ? 1 : app->before.setup.board.action_fret),
            within_mm);
        met++;
    }
    return met;
}

static void what_the_next_pass_should_read_follows_the_moves(void **state)
{
    struct app *app = *state;

    build_record_add(&app->record, "bridge exposure_min = 1 mm");
    /* Action 3/64 over what is wanted, slots right for the action wanted: saddle alone. */
    bench_press(app, ".006{Enter}.0233{Enter}.0221{Enter}.0209{Enter}.0197{Enter}.0185{Enter}"
                     ".0173{Enter}9{Enter}8.6{Enter}8.2{Enter}7.8{Enter}7.4{Enter}7{Enter}p");
    assert_int_equal(count_foretold(app, false, true, 1e-6), 12);
    /* Action right, slots a little high: slots alone, and the action comes down with them. */
    bench_press(app, ".006{Enter}.022{Enter}.0208{Enter}.0196{Enter}.0184{Enter}"
                     ".0172{Enter}.016{Enter}6{Enter}5.6{Enter}5.2{Enter}4.8{Enter}4.4{Enter}"
                     "4{Enter}p");
    assert_int_equal(count_foretold(app, true, false, 0.03), 12);
}

/* A reset moves everything, so that no bracket is promised after one. */
static void after_a_reset_nothing_is_foretold(void **state)
{
    struct app *app = *state;

    build_record_add(&app->record, "visit.1.work.1 kind = reset\nvisit.1.work.1 time = 12:00");
    bench_press(app, "p");
    assert_non_null(strstr(app->message, "a reset changes everything"));
    for (int i = 0; i < app->route.count; i++)
        assert_false(app_expected(app, &app->route.cells[i]).given);
}

static void passes_are_looked_through(void **state)
{
    struct app *app = *state;

    bench_press(app, "p.006{Enter}v.007{Enter}");
    assert_int_equal(app->visit, 2);
    assert_string_equal(bench_text(app, "visit.2 date"), "2026-03-02");
    bench_press(app, "<");
    assert_int_equal(app->visit, 1);
    assert_int_equal(app->pass, 2);
    bench_press(app, "[");
    assert_int_equal(app->pass, 1);
    bench_press(app, "<");
    assert_int_equal(app->tone, TONE_WARNING);
    bench_press(app, ">]");
    assert_int_equal(app->visit, 2);
    assert_int_equal(app->pass, 1);
    bench_press(app, ">");
    assert_int_equal(app->tone, TONE_WARNING);
}

/* A pass or a visit begun by mistake: what was read before it is not what undo means. */
static void undo_takes_back_what_was_just_begun(void **state)
{
    struct app *app = *state;

    bench_press(app, ".013{Enter}p");
    assert_int_equal(app->pass, 2);
    assert_false(bench_press(app, "u").save);
    assert_int_equal(app->pass, 1);
    assert_string_equal(bench_text(app, "visit.1.pass.1 relief"), ".013 in");
    bench_press(app, "v");
    assert_int_equal(app->visit, 2);
    assert_false(bench_press(app, "u").save);
    assert_int_equal(app->visit, 1);
    /* And only then the reading. */
    assert_true(bench_press(app, "u").save);
}

static void undo_goes_where_the_change_was(void **state)
{
    struct app *app = *state;

    bench_press(app, "{Down}.019{Enter}p.006{Enter}{Home}");
    assert_int_equal(app->pass, 2);
    bench_press(app, "uu");
    assert_int_equal(app->pass, 1);
    assert_int_equal(app->at, 1);
    assert_string_equal(bench_text(app, "visit.1.pass.1 nut_gap.6"), ".030 in");
    assert_null(bench_text(app, "visit.1.pass.2 relief"));
    assert_false(bench_press(app, "u").save);
    assert_int_equal(app->tone, TONE_WARNING);
}

/* A target moved from the bench stands on another leaf; the next digits would go there. */
static void undo_of_a_nudge_stays_on_the_bench(void **state)
{
    struct app *app = *state;

    bench_press(app, "{Down}{Right}");
    const int at = app->at;
    const char *before = bench_text(app, "targets nut_gap_bass");
    char memory[32];
    struct strbuf kept = STRBUF(memory);
    strbuf_add(&kept, before ? before : "");
    bench_press(app, "jju");
    assert_int_equal(app->leaf, LEAF_BENCH);
    assert_int_equal(app->at, at);
    assert_non_null(strstr(app->message, "Undone: "));
    bench_press(app, "u");
    assert_string_equal(
        bench_text(app, "targets nut_gap_bass") ? bench_text(app, "targets nut_gap_bass") : "",
        memory);
    assert_int_equal(app->leaf, LEAF_BENCH);
    /* From another leaf it leads back to the bench. */
    bench_press(app, "j{PgUp}{PgUp}*u");
    assert_int_equal(app->leaf, LEAF_BENCH);
}

static void undo_says_what_it_changed(void **state)
{
    struct app *app = *state;

    bench_press(app, "{Down}.019{Enter}u");
    assert_string_equal(app->message,
                        "Undone: nut gap, string 6: .030 in again, no longer .019 in");
    bench_press(app, "r");
    assert_string_equal(app->message,
                        "Redone: nut gap, string 6: .019 in again, no longer .030 in");
    bench_press(app, "{Del}u");
    assert_string_equal(app->message, "Undone: nut gap, string 6: .019 in again, no longer empty");
}

static void a_reading_is_taken_out_and_brought_back(void **state)
{
    struct app *app = *state;

    assert_true(bench_press(app, "{Del}").save);
    assert_null(bench_text(app, "visit.1.pass.1 relief"));
    assert_false(bench_press(app, "x{Del}").save);
    assert_true(bench_press(app, "u").save);
    assert_string_equal(bench_text(app, "visit.1.pass.1 relief"), ".013 in");
}

/* Words in a cell of numbers: their letters are no commands one by one. */
static void a_word_is_no_row_of_commands(void **state)
{
    static const char *const words[] = {"none",    "six", "max", "one",
                                        "unknown", "off", "too", "Flat"};
    struct app *app = *state;

    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        assert_false(bench_press(app, "{Home}").save);
        assert_false(bench_press(app, words[i]).save);
        assert_int_equal(app->tone, TONE_WARNING);
        assert_non_null(strstr(app->message, "Letters are commands here; * shows them."));
        bench_press(app, "{F2}");
    }
    assert_int_equal(app->pass, 1);
    assert_string_equal(bench_text(app, "visit.1.pass.1 relief"), ".013 in");
    assert_string_equal(bench_text(app, "visit.1.pass.1 nut_method"), "open");
    /* What the first letter did is said. */
    bench_press(app, "{Home}m{Home}");
    bench_press(app, "max");
    assert_non_null(strstr(app->message, "commands here"));
    bench_press(app, "{Home}ma");
    assert_non_null(strstr(app->message, "m was: inch gauges or metric gauges"));
}

/* Steps are taken one behind the other, and a second later a letter begins no word. */
static void letters_may_follow_letters(void **state)
{
    const struct event pause = {.type = EVENT_NONE};
    struct app *app = *state;

    bench_press(app, "kk");
    assert_int_equal(app->tone, TONE_NOTE);
    bench_press(app, "ju");
    assert_non_null(strstr(app->message, "Undone"));
    bench_press(app, "{F3}{Right}tsjk");
    assert_int_not_equal(app->tone, TONE_WARNING);
    bench_press(app, "w{F2}j{Home}ku");
    assert_non_null(strstr(app->message, "Undone"));
    app_handle(app, &pause, &bench_clock);
    bench_press(app, "m");
    assert_true(app->metric);
    bench_press(app, "p");
    assert_int_equal(app->pass, 1);
    app_handle(app, &pause, &bench_clock);
    bench_press(app, "p");
    assert_int_equal(app->pass, 2);
}

static void the_nut_method_changes_to_and_fro(void **state)
{
    struct app *app = *state;

    assert_false(bench_press(app, "o").save);
    assert_true(bench_press(app, "*o").save);
    assert_string_equal(bench_text(app, "visit.1.pass.1 nut_method"), "held-3");
    bench_press(app, "*o");
    assert_string_equal(bench_text(app, "visit.1.pass.1 nut_method"), "open");
}

/* --- the rest --- */

static void gauges_change_and_are_remembered(void **state)
{
    struct app *app = *state;
    const struct app_effects effects = bench_press(app, "m");

    assert_true(effects.units);
    assert_false(effects.save);
    assert_true(app->metric);
    assert_true(bench_press(app, "25{Enter}").save);
    assert_string_equal(bench_text(app, "visit.1.pass.1 relief"), "25/100 mm");
    bench_press(app, "m");
    assert_false(app->metric);
}

/* It is written by whoever runs the session, also of a profile that may only be read. */
static void a_sheet_can_be_asked_for_anywhere(void **state)
{
    struct app *app = *state;

    for (int i = 0; i < LEAF_COUNT_; i++) {
        const struct app_effects effects = bench_press(app, "*3");

        assert_int_equal(effects.paper, PAPER_SHEET);
        assert_false(effects.save);
        bench_press(app, "{Tab}");
    }
    /* In the middle of an entry it is a unit's letter. */
    assert_int_equal(bench_press(app, "1c").paper, PAPER_NONE);
    bench_press(app, "{Esc}");
    app = restart_read_only(app);
    assert_int_equal(bench_press(app, "c").paper, PAPER_SHEET);
}

static void read_only_changes_nothing(void **state)
{
    struct app *app = restart_read_only(*state);
    struct record before;

    assert_int_equal(record_copy(&app->record, &before), STATUS_OK);
    assert_false(bench_press(app, ".006{Enter}").save);
    assert_int_equal(app->tone, TONE_WARNING);
    assert_false(bench_press(app, "{Esc}{Del}xouvpr*1*2*4*.1*.4{Esc}").save);
    assert_true(record_equal(&app->record, &before));
    assert_int_equal(app->keeping, KEEPING_READ_ONLY);
    record_done(&before);
}

static void an_overlay_swallows_keys_until_it_is_closed(void **state)
{
    struct app *app = *state;

    bench_press(app, "h");
    assert_int_equal(app->overlay, OVERLAY_HELP);
    bench_press(app, "{Down}{Down}{Up}");
    assert_int_equal(app->overlay_top, 1);
    bench_press(app, "{Up}{Up}{Up}");
    assert_int_equal(app->overlay_top, 0);
    assert_int_equal(app->at, 0);
    assert_false(bench_press(app, "q").quit);
    assert_int_equal(app->overlay, OVERLAY_NONE);
    bench_press(app, "?");
    assert_int_equal(app->overlay, OVERLAY_WHY);
    bench_press(app, "{Esc}");
    assert_int_equal(app->overlay, OVERLAY_NONE);
}

static void effects_are_what_the_keys_ask_for(void **state)
{
    struct app *app = *state;
    const struct event hang_up = {.type = EVENT_HANGUP}, resume = {.type = EVENT_RESUME},
                       resize = {.type = EVENT_RESIZE};

    assert_true(bench_press(app, "{^L}").repaint);
    assert_true(bench_press(app, "{^Z}").suspend);
    assert_true(bench_press(app, "q").quit);
    assert_true(bench_press(app, "{^C}").quit);
    assert_true(app_handle(app, &hang_up, &bench_clock).quit);
    assert_true(app_handle(app, &resume, &bench_clock).repaint);
    assert_false(app_handle(app, &resize, &bench_clock).save);
}

/* With something typed Ctrl-C still leaves; letters belong to the entry. */
static void typing_does_not_lock_a_tech_in(void **state)
{
    struct app *app = *state;

    assert_false(bench_press(app, "12q").quit);
    assert_string_equal(app->entry.text, "12q");
    assert_true(bench_press(app, "{^C}").quit);
}

/* What is not on disk goes with the program: that is asked for twice in a row. */
static void leaving_unkept_readings_is_asked_for_twice(void **state)
{
    struct app *app = *state;
    const struct event hang_up = {.type = EVENT_HANGUP};

    app_kept(app, STATUS_FULL, &bench_clock, NULL);
    assert_false(bench_press(app, "q").quit);
    assert_int_equal(app->tone, TONE_WARNING);
    assert_false(bench_press(app, "{Down}q").quit);
    assert_true(bench_press(app, "q").quit);
    assert_false(bench_press(app, "1").quit);
    assert_false(bench_press(app, "{^C}").quit);
    assert_true(bench_press(app, "{^C}").quit);
    assert_true(app_handle(app, &hang_up, &bench_clock).quit);
}

static void keeping_is_told(void **state)
{
    struct app *app = *state;

    assert_int_equal(app->keeping, KEEPING_AS_FILED);
    app_kept(app, STATUS_OK, &bench_clock, NULL);
    assert_int_equal(app->keeping, KEEPING_KEPT);
    assert_string_equal(app->kept_at, "10:42");
    app_kept(app, STATUS_IO, &bench_clock, "The disk is full.");
    assert_int_equal(app->keeping, KEEPING_FAILED);
    assert_int_equal(app->tone, TONE_WARNING);
    assert_string_equal(app->message, "The disk is full.");
}

static void a_long_message_is_cut_not_overrun(void **state)
{
    struct app *app = *state;
    char text[2 * APP_MESSAGE_MAX];

    memset(text, 'x', sizeof text);
    text[sizeof text - 1] = '\0';
    app_say(app, TONE_NOTE, text);
    assert_int_equal(strlen(app->message), APP_MESSAGE_MAX - 1);
}

static void the_current_pass_is_taken_up(void **state)
{
    struct app *app = restart(*state, "board strings = 4\nvisit.1.pass.1 relief = .01 in\n"
                                      "visit.3.pass.2 relief = .02 in\n");

    assert_int_equal(app->visit, 3);
    assert_int_equal(app->pass, 2);
    app = restart(app, "board strings = 4\nvisit.2 date = 2026-01-01\n");
    assert_int_equal(app->visit, 2);
    assert_int_equal(app->pass, 1);
    app = restart(app, "");
    assert_int_equal(app->visit, 1);
    assert_int_equal(app->pass, 1);
}

/* A figure is explained that has to do with the cell in hand. */
static void why_explains_the_cell_in_hand(void **state)
{
    struct app *app = *state;

    assert_int_equal(app_figure(app), FIGURE_RELIEF);
    bench_press(app, "{Down}");
    assert_int_equal(app_figure(app), FIGURE_SLOT_CHANGE);
    assert_int_equal(app_string(app), 6);
    bench_press(app, "{Down}{Right}");
    assert_int_equal(app_figure(app), FIGURE_SADDLE_CHANGE);
    assert_int_equal(app_string(app), 5);
    bench_press(app, "{Down}");
    assert_int_equal(app_cell(app)->key.field, FIELD_EXPOSURE);
    assert_int_equal(app_figure(app), FIGURE_SADDLE_CHANGE);
    bench_press(app, "{Left}");
    assert_int_equal(app_figure(app), FIGURE_EXPOSURE_BASS_AFTER);
    bench_press(app, "{Enter}");
    assert_int_equal(app_figure(app), FIGURE_EXPOSURE_TREBLE_AFTER);
}

#define CASE(name) cmocka_unit_test_setup_teardown(name, bench_setup, bench_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(why_at_the_end_is_the_first_move_due),
        CASE(after_the_turns_comes_what_is_not_read),
        CASE(the_end_says_what_comes_next),
        CASE(a_pass_is_entered_from_the_number_pad_alone),
        CASE(back_takes_a_character_then_a_cell),
        CASE(an_empty_entry_leaves_the_cell_as_it_is),
        CASE(rubbish_is_refused_with_a_sentence),
        CASE(a_unit_may_follow_a_number),
        CASE(an_entry_is_previewed_and_leaves_no_trace),
        CASE(what_is_not_understood_is_not_previewed),
        CASE(a_bad_text_survives_a_preview),
        CASE(the_first_reading_dates_pass_and_visit),
        CASE(a_pass_begins_when_the_last_has_a_reading),
        CASE(a_later_pass_does_not_ask_for_turns),
        CASE(a_pass_with_nothing_in_it_is_gone_when_left),
        CASE(a_begun_pass_goes_along_to_where_it_is_read),
        CASE(a_pass_with_a_reading_stays),
        CASE(a_pass_that_was_left_is_not_undone),
        CASE(a_visit_with_nothing_in_it_is_gone_when_left),
        CASE(what_the_next_pass_should_read_follows_the_moves),
        CASE(after_a_reset_nothing_is_foretold),
        CASE(passes_are_looked_through),
        CASE(undo_takes_back_what_was_just_begun),
        CASE(undo_goes_where_the_change_was),
        CASE(undo_of_a_nudge_stays_on_the_bench),
        CASE(undo_says_what_it_changed),
        CASE(a_reading_is_taken_out_and_brought_back),
        CASE(a_word_is_no_row_of_commands),
        CASE(letters_may_follow_letters),
        CASE(the_nut_method_changes_to_and_fro),
        CASE(gauges_change_and_are_remembered),
        CASE(a_sheet_can_be_asked_for_anywhere),
        CASE(read_only_changes_nothing),
        CASE(an_overlay_swallows_keys_until_it_is_closed),
        CASE(effects_are_what_the_keys_ask_for),
        CASE(typing_does_not_lock_a_tech_in),
        CASE(leaving_unkept_readings_is_asked_for_twice),
        CASE(keeping_is_told),
        CASE(a_long_message_is_cut_not_overrun),
        CASE(the_current_pass_is_taken_up),
        CASE(why_explains_the_cell_in_hand),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
