/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "session/app_place.h"
#include "session/cell_words.h"
#include "session/explain_reading.h"
#include "bench_session.h"
#include "build_record.h"
#include "model/reading/work_line.h"
#include "scenes.h"
#include "screen/ui.h"

/* What the screen says about the cell in hand, for every cell, at 80 columns. */

enum { ROWS = 24, COLUMNS = 80 };

static void check_whole(const struct app *app, const struct frame *frame, const char *words)
{
    char memory[160], row[4 * FRAME_COLUMNS_MAX];
    struct strbuf name = STRBUF(memory);

    cell_words_add_name(app, app_cell(app), &name);
    frame_row_text(frame, ROWS - 2, row, sizeof row);
    if (!strstr(row, memory) || !strstr(row, words))
        fail_msg("\"%s\" and \"%s\" do not both stand in \"%s\"", memory, words, row);
    frame_row_text(frame, ROWS - 3, row, sizeof row);
    if (strstr(row, "\xE2\x80\xA6"))
        fail_msg("cut: \"%s\"", row);
}

/* Whether the entry line is the cell's; the job list has words of its own. */
static bool says_what(const struct app *app)
{
    return app->leaf != LEAF_WORK;
}

static void check_cell(struct app *app)
{
    char memory[160];
    struct strbuf what = STRBUF(memory);
    struct frame frame;

    if (says_what(app))
        cell_words_add_what(app, app_cell(app), &what);
    assert_int_equal(frame_init(&frame, ROWS, COLUMNS), STATUS_OK);
    ui_compose(app, true, &frame);
    if (says_what(app))
        check_whole(app, &frame, memory);
    frame_done(&frame);
}

static int check_all_cells(struct app *app)
{
    int cells = 0;

    for (int leaf = 0; leaf < LEAF_COUNT_; leaf++) {
        app_take_leaf(app, (enum leaf)leaf);
        for (app->at = 0; app->at < app->route.count; app->at++, cells++) {
            bench_press(app, "{Esc}");
            check_cell(app);
        }
    }
    return cells;
}

/* Twelve strings and 36 frets have the longest names and numbers. */
static void every_cell_says_what_is_measured(void **state)
{
    static const char held[] = "visit.1.pass.1 nut_method = held-3\n";
    static const char far_ends[] = "bridge kind = post\nboard relief_end_low = 3\n"
                                   "board relief_end_high = 18\nboard relief_fret = 12\n";
    static const char *const more[] = {"", held, far_ends};

    (void)state;
    for (size_t i = 0; i < sizeof more / sizeof more[0]; i++)
        for (int metric = 0; metric < 2; metric++) {
            struct app *app = malloc(sizeof *app);

            scene_strings(app, STRINGS_MAX);
            build_record_add(&app->record, more[i]);
            if (metric)
                bench_press(app, "m");
            bench_press(app, "p");
            assert_true(check_all_cells(app) > 500);
            app_done(app);
            free(app);
        }
}

/* --- what is doubted or refused --- */

/* Slips of every kind; what one field takes another one doubts or refuses. */
static const char *const slips[] = {
    "1..3",
    "12 24 23",
    ".012,.024,.023",
    "12-16",
    "12-16-18",
    "1/0",
    "-",
    "8 9/8",
    "8 1/4/64/3",
    "1/4/64/3",
    "+8",
    "3 parsecs",
    "1e5",
    "0x12",
    "99999999999",
    "-99999999",
    "1234567.891",
    "1.012",
    "7/46",
    "6.5/46",
    "10+.5",
    "2+1/64",
    "30+.05",
    "0.3",
    "1",
    "2",
    "2.4",
    "4.4",
    "8",
    "15",
    "24",
    "42.25",
    "70",
    "120.125",
    "130",
    "240",
    "999",
    ".001",
    "0.0000001",
    "12345.678",
    "88.8888888",
    "21",
    "2062",
    "31/12/2062",
    "03/04",
    "24.6",
    "2062-01-01",
    "1950-01-01",
    "25:61",
    "E9",
    "C0",
    "H2",
    "Cb0",
    "rosewood",
    "none such!",
    "1962-03-02T10:42",
    "20262",
    "0-99",
    "a b c",
    "30.3.2026 at 12",
};

static void check_on_row(struct app *app, int row, const char *words, const char *typed)
{
    char text[4 * FRAME_COLUMNS_MAX];
    struct frame frame;

    assert_int_equal(frame_init(&frame, ROWS, COLUMNS), STATUS_OK);
    ui_compose(app, true, &frame);
    frame_row_text(&frame, row, text, sizeof text);
    if (!strstr(text, words) || strstr(text, "\xE2\x80\xA6"))
        fail_msg("%s, typed \"%s\": \"%s\" does not stand whole in \"%s\"",
                 field_get(app_cell(app)->key.field)->key, typed, words, text);
    frame_done(&frame);
}

/* Typed, and with Enter behind it where that does not file it. True where it is not filed. */
static bool check_slip(struct app *app, const char *typed)
{
    const bool is_letter = strchr("abcdefghijklmnopqrstuvwxyz", typed[0] | ' ') != NULL;

    /* To a cell of numbers a letter is a command. */
    if (is_letter && !app_takes_letters(app))
        return false;
    bench_press(app, "{Esc}");
    bench_press(app, typed);
    if (app->entry_view.good && app->doubt.kind == DOUBT_NONE)
        return false;
    if (app->doubt.kind != DOUBT_NONE)
        check_on_row(app, ROWS - 3, app->doubt_words, typed);
    bench_press(app, "{Enter}");
    if (app->tone == TONE_WARNING)
        check_on_row(app, ROWS - 3, app->message, typed);
    bench_press(app, "{Esc}");
    return true;
}

static int check_slips(struct app *app)
{
    bool seen[FIELD_COUNT_] = {false};
    int count = 0;

    for (int leaf = 0; leaf < LEAF_COUNT_; leaf++) {
        app_take_leaf(app, (enum leaf)leaf);
        for (int at = 0; at < app->route.count; at++) {
            const enum field_id field = app->route.cells[at].key.field;

            for (size_t i = 0; !seen[field] && i < sizeof slips / sizeof slips[0]; i++) {
                app->at = at;
                count += check_slip(app, slips[i]);
            }
            seen[field] = true;
        }
    }
    return count;
}

static void no_doubt_and_no_refusal_is_cut(void **state)
{
    (void)state;
    for (int metric = 0; metric < 2; metric++)
        for (int pass = 1; pass <= 2; pass++) {
            struct app *app = malloc(sizeof *app);

            scene_strings(app, STRINGS_MAX);
            if (metric)
                bench_press(app, "m");
            if (pass == 2)
                bench_press(app, "p");
            assert_true(check_slips(app) > 2000);
            app_done(app);
            free(app);
        }
}

static void an_empty_record_says_it_too(void **state)
{
    struct app *app = malloc(sizeof *app);
    struct record record;

    (void)state;
    record_init(&record);
    bench_start_record(app, &record, true, false);
    assert_true(check_all_cells(app) > 60);
    app_done(app);
    free(app);
}

/* Of every cell `?` says first which one it is and what is measured; no line is cut off. */
static void a_question_is_answered_for_every_cell(void **state)
{
    struct app *app = malloc(sizeof *app);

    (void)state;
    scene_strings(app, 6);
    for (int leaf = 0; leaf < LEAF_COUNT_; leaf++) {
        app_take_leaf(app, (enum leaf)leaf);
        for (app->at = 0; app->at < app->route.count; app->at++) {
            char memory[160];
            struct strbuf first = STRBUF(memory);
            struct explanation explanation;

            cell_words_add_name(app, app_cell(app), &first);
            strbuf_add(&first, ": ");
            cell_words_add_what(app, app_cell(app), &first);
            explain_reading(app, app_cell(app), &explanation);
            assert_string_equal(explanation.lines[0].text, memory);
            assert_true(explanation.count >= 2 && explanation.count < EXPLAIN_LINES_MAX);
            for (int i = 0; i < explanation.count; i++) {
                const char *line = explanation.lines[i].text;

                assert_true(strlen(line) + 1 < sizeof explanation.lines[i].text);
                /* A rule has no tenths of a 64th. */
                if (strstr(line, "asked about again") && strstr(line, "/64"))
                    assert_null(strchr(line, '.'));
            }
        }
    }
    app_done(app);
    free(app);
}

static void the_answer_begins_with_the_reading(void **state)
{
    struct app *app = malloc(sizeof *app);
    struct frame frame;

    (void)state;
    scene_strings(app, 6);
    bench_press(app, "?");
    assert_int_equal(frame_init(&frame, ROWS, COLUMNS), STATUS_OK);
    ui_compose(app, true, &frame);
    assert_true(scene_shows(&frame, "relief at fret 6: straightedge on frets 1 and 12"));
    assert_true(scene_shows(&frame, "What follows from it"));
    assert_true(scene_shows(&frame, "the neck dips by"));
    frame_done(&frame);
    /* Another figure is asked for by itself. */
    bench_press(app, "{Right}");
    assert_int_equal(frame_init(&frame, ROWS, COLUMNS), STATUS_OK);
    ui_compose(app, true, &frame);
    assert_false(scene_shows(&frame, "What follows from it"));
    assert_true(scene_shows(&frame, "how sharply the neck bends"));
    frame_done(&frame);
    app_done(app);
    free(app);
}

/* A note is called the same wherever it stands, here as half a step down calls it. */
static void a_note_has_the_tuning_s_name_everywhere(void **state)
{
    static const char *const typed[] = {"", "D#4", "A#3", "F#3", "C#3", "G#2", "D#2"};
    struct app *app = malloc(sizeof *app);
    struct frame frame;

    (void)state;
    scene_strings(app, 6);
    for (int s = 1; s <= 6; s++) {
        const struct reading_key key = reading_key_string(FIELD_STRING_NOTE, s);

        assert_int_equal(record_put(&app->record, &key, typed[s], false, NULL), STATUS_OK);
    }
    for (int leaf = 0; leaf < LEAF_COUNT_; leaf++) {
        app_take_leaf(app, (enum leaf)leaf);
        for (int asked = 0; asked < 2; asked++) {
            bench_press(app, asked ? "?" : "{Esc}");
            assert_int_equal(frame_init(&frame, ROWS, COLUMNS), STATUS_OK);
            ui_compose(app, true, &frame);
            assert_false(scene_shows(&frame, "now D#2"));
            assert_false(scene_shows(&frame, "G#2"));
            assert_false(scene_shows(&frame, "A#3"));
            if (leaf == LEAF_STRINGS)
                assert_true(scene_shows(&frame, "Eb2"));
            frame_done(&frame);
        }
        bench_press(app, "{Esc}");
    }
    app_done(app);
    free(app);
}

/* Ten kinds stand together, numbered, and of the woods those that are meant. */
static void a_list_shows_its_names(void **state)
{
    struct app *app = malloc(sizeof *app);
    const struct name_list list = name_list_of_field(field_get(FIELD_KIND));
    struct frame frame;

    (void)state;
    scene_strings(app, 6);
    app_take_leaf(app, LEAF_INTAKE);
    app->at = 0;
    while (app_cell(app)->key.field != FIELD_KIND)
        app->at++;
    bench_press(app, "+");
    assert_int_equal(frame_init(&frame, ROWS, COLUMNS), STATUS_OK);
    ui_compose(app, true, &frame);
    for (int k = 0; k < name_list_count(&list); k++) {
        char memory[64], name[NAME_LIST_NAME_SIZE];
        struct strbuf text = STRBUF(memory);

        assert_true(name_list_name(&list, k, name, sizeof name));
        strbuf_addf(&text, "%2d %s", k + 1, name);
        if (!scene_shows(&frame, memory))
            fail_msg("%s is not shown", memory);
    }
    frame_done(&frame);

    bench_press(app, "{Esc}");
    app_take_leaf(app, LEAF_NECK);
    while (app_cell(app)->key.field != FIELD_BOARD_WOOD)
        app->at++;
    bench_press(app, "maple");
    assert_int_equal(frame_init(&frame, ROWS, COLUMNS), STATUS_OK);
    ui_compose(app, true, &frame);
    assert_true(scene_shows(&frame, " 1 sugar maple"));
    assert_true(scene_shows(&frame, " 2 red maple"));
    assert_false(scene_shows(&frame, " 3 black cherry"));
    frame_done(&frame);

    /* The one in hand is always there. */
    bench_press(app, "{Esc}18");
    assert_int_equal(frame_init(&frame, ROWS, COLUMNS), STATUS_OK);
    ui_compose(app, true, &frame);
    assert_true(scene_shows(&frame, "18 ebony"));
    frame_done(&frame);
    app_done(app);
    free(app);
}

/* --- work lines --- */

/* How often a word stands on a screen. */
static int count_on_screen(const struct frame *frame, const char *word)
{
    char text[4 * FRAME_COLUMNS_MAX];
    int count = 0;

    for (int row = 0; row < frame->rows; row++) {
        frame_row_text(frame, row, text, sizeof text);
        for (const char *at = strstr(text, word); at; at = strstr(at + 1, word))
            count++;
    }
    return count;
}

/* Words in the cells of three lines, each of which occurs once. */
static const char *const worked[] = {"newnut ofbone",
                                     "shapeddown from oversize slotscut inthree",
                                     "theold wascracked onthe trebleside",
                                     "fretsix seated",
                                     "thinglue underits tang",
                                     "clamped fortyminutes",
                                     "loosebrace",
                                     "glued",
                                     "heldby magneticprops overnight"};

static void check_worked(struct app *app, int rows, int columns)
{
    struct frame frame;

    assert_int_equal(frame_init(&frame, rows, columns), STATUS_OK);
    ui_compose(app, true, &frame);
    for (size_t i = 0; i < sizeof worked / sizeof worked[0]; i++) {
        char words[120], *rest = words;

        strcpy(words, worked[i]);
        for (char *word = strtok_r(words, " ", &rest); word; word = strtok_r(NULL, " ", &rest))
            if (count_on_screen(&frame, word) != 1)
                fail_msg("\"%s\" of \"%s\" does not stand once on %d columns", word, worked[i],
                         columns);
    }
    frame_done(&frame);
}

/* Whatever cell is in hand, a move's or a line's. */
static void every_work_line_is_read_whole(void **state)
{
    static const int sizes[][2] = {{24, 80}, {30, 100}, {43, 132}};
    struct app *app = malloc(sizeof *app);
    struct field_fault fault;

    (void)state;
    assert_non_null(app);
    scene_profile(app, SILLET_PROFILES "/parlour.ini", false);
    for (int i = 0; i < 9; i++) {
        const struct reading_key key = work_key((enum work_column)(i % 3), app->visit, 1 + i / 3);
        assert_int_equal(record_put(&app->record, &key, worked[i], false, &fault), STATUS_OK);
    }
    app_take_leaf(app, LEAF_WORK);
    for (int size = 0; size < 3; size++)
        for (app->at = 0; app->at < app->route.count; app->at++)
            check_worked(app, sizes[size][0], sizes[size][1]);
    app_done(app);
    free(app);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_cell_says_what_is_measured),
        cmocka_unit_test(no_doubt_and_no_refusal_is_cut),
        cmocka_unit_test(an_empty_record_says_it_too),
        cmocka_unit_test(a_question_is_answered_for_every_cell),
        cmocka_unit_test(the_answer_begins_with_the_reading),
        cmocka_unit_test(a_list_shows_its_names),
        cmocka_unit_test(a_note_has_the_tuning_s_name_everywhere),
        cmocka_unit_test(every_work_line_is_read_whole),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
