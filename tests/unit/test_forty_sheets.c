/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bench_session.h"
#include "commands/sheet_file.h"
#include "model/derive/derive.h"
#include "model/reading/work_line.h"
#include "model/setup/bench_goal.h"
#include "raster.h"
#include "seeded.h"
#include "sheet/sheet_make.h"
#include "sheet/sheet_page.h"
#include "sheet_faults.h"
#include "store/profile/preset.h"
#include "tree.h"

/*
 * Forty sheets handed over unread: every starting point twice, in five states of a job, with
 * readings drawn at random, in inches and in mm. The work is marked on the Work leaf as a tech
 * does it, the sheet is made as PDF, and the PDF's text is read for faults.
 */

#define SECRET    "zqsecret"
#define FOR_OWNER "Plays as asked."

enum state { FOUND, IN_WORK, LEFT, RESTRUNG, LATER, STATES };

static const char *const state_names[STATES] = {"as found", "in work", "as left", "restrung",
                                                "a later visit"};

enum { SHEETS = 40, PRESETS = 20 };

struct job {
    struct seeded *seed;
    struct record record;
    bool metric;
    double heard; /* how hard the notes are played, as a share of the touch; 0: nobody listens */
};

/* --- readings --- */

static void put(struct job *job, struct reading_key key, const char *text)
{
    struct field_fault fault;

    if (record_put(&job->record, &key, text, false, &fault) != STATUS_OK)
        fail_msg("%s of %s: %s", text, field_get(key.field)->key, fault.words);
}

static void put_mm(struct job *job, struct reading_key key, double mm)
{
    const bool rule = field_get(key.field)->measure == MEASURE_RULE;
    char text[40];

    if (job->metric)
        snprintf(text, sizeof text, "%.2f mm", mm);
    else if (rule)
        snprintf(text, sizeof text, "%.1f/64 in", floor(mm / 25.4 * 128 + 0.5) / 2);
    else
        snprintf(text, sizeof text, "%.3f in", mm / 25.4);
    put(job, key, text);
}

static void put_row(struct job *job, const struct outfit *outfit, const struct bench_row *row,
                    int visit, int pass, double off_mm)
{
    const bool by_string = bench_row_by_string(row);
    const struct setup setup = {.outfit = *outfit};

    for (int s = by_string ? outfit->strings : 1; s >= 1; s--) {
        const struct maybe wanted = by_string ? bench_goal_on(row, &job->record, &setup, s)
                                              : bench_goal_at(row, &job->record, END_BASS);

        if (by_string && (!outfit_is_read(outfit, s) || !outfit_asks(outfit, row->field[0], s)))
            continue;
        const double unlike_mm = by_string ? seeded_between(job->seed, -0.03, 0.03) : 0;
        for (int end = 0; end < (bench_row_has_ends(row) ? 2 : 1); end++)
            put_mm(job, bench_row_key(row, (enum bench_end)end, visit, pass, s),
                   fmax(maybe_or(wanted, 0.3) + off_mm + unlike_mm, 0));
    }
}

/* --- the ear --- */

/* Every third note of a string, and no others. */
static bool is_played(int string, int note)
{
    return (note + string) % 3 == 0;
}

/* What is heard: a note buzzes where the string swings wider than it has room. */
static void listen(struct job *job, int visit, int pass)
{
    struct derived derived;

    if (job->heard == 0)
        return;
    derive_pass(place_of(&job->record, visit, pass), &derived);
    for (int s = 1; s <= derived.setup.board.strings; s++)
        for (int buzz = 0; buzz <= 1; buzz++) {
            const double swing_mm = job->heard * derived.touch.mm[s] / derived.touch.share;
            char memory[200];
            struct strbuf notes = STRBUF(memory);

            for (int n = 0; n < derived.setup.board.frets; n++) {
                const struct maybe room = derived.clearance[s].headroom_mm[n];

                if (is_played(s, n) && room.given && buzz == (room.value < swing_mm))
                    strbuf_addf(&notes, "%s%d", notes.length > 0 ? " " : "", n);
            }
            if (notes.length > 0)
                put(job, reading_key_pass_at(buzz ? FIELD_BUZZ : FIELD_CLEAN, visit, pass, s, 0),
                    memory);
        }
}

/* How far each row is off what is wanted: at most by that, mostly over it. */
static void put_pass(struct job *job, int visit, int pass, double most_mm)
{
    const struct reading_key note = reading_key_pass(FIELD_PASS_NOTE, visit, pass);
    struct outfit outfit;

    outfit_read(&outfit, &job->record, visit);
    for (int id = 0; id < ROW_COUNT_; id++) {
        const struct bench_row *row = bench_row_in(&outfit, id);
        const double most = row->goal == GOAL_LEAST ? 3 : most_mm * (id == ROW_RELIEF ? 0.3 : 1);

        if (row->goal != GOAL_NONE && bench_row_is_asked(row, &outfit))
            put_row(job, &outfit, row, visit, pass, seeded_between(job->seed, -0.2, 1) * most);
    }
    put(job, note, SECRET " of a pass");
    listen(job, visit, pass);
}

static void begin_visit(struct job *job, int visit, const char *date)
{
    put(job, reading_key_visit(FIELD_VISIT_DATE, visit), date);
    put(job, reading_key_visit(FIELD_VISIT_TICKET, visit), "1043");
    put(job, reading_key_visit(FIELD_VISIT_REASON, visit), "High, and it buzzes.");
    put(job, reading_key_visit(FIELD_HUMIDITY, visit), "45");
    put(job, reading_key_visit(FIELD_TEMPERATURE, visit), "21");
    put(job, reading_key_visit(FIELD_VISIT_NOTE, visit), SECRET " of a visit");
    put(job, reading_key_visit(FIELD_VISIT_FOR_OWNER, visit), FOR_OWNER);
}

/* --- the job --- */

/* A session on the record so far, which it takes over; close_session gives it back. */
static struct app *open_session(struct job *job, enum leaf leaf)
{
    struct app *app = calloc(1, sizeof *app);
    char keys[8];

    assert_non_null(app);
    bench_start_record(app, &job->record, job->metric, false);
    snprintf(keys, sizeof keys, "{F%d}", (int)leaf + 1);
    bench_press(app, keys);
    assert_int_equal(app->leaf, leaf);
    return app;
}

static void close_session(struct job *job, struct app *app)
{
    assert_int_equal(record_copy(&app->record, &job->record), STATUS_OK);
    bench_close(app);
}

/* Marks the moves that are due, as planned, the rod with its turns. */
static void mark_moves(struct job *job, int most)
{
    struct app *app = open_session(job, LEAF_WORK);

    for (int i = 0; i < most; i++) {
        bench_press(app, " ");
        if (app_cell(app) && app_cell(app)->key.field == FIELD_ROD_TURN)
            bench_press(app, "1/8{Enter}");
    }
    close_session(job, app);
    for (int line = record_last_work(&job->record, 1); line > 0; line--)
        put(job, work_key(WORK_NOTE, 1, line), SECRET " of a line");
}

static void restring(struct job *job)
{
    struct app *app = open_session(job, LEAF_STRINGS);

    bench_press(app, "*002");
    if (app->asked)
        bench_press(app, "{Enter}");
    close_session(job, app);
}

static int do_job(struct job *job, enum state state)
{
    begin_visit(job, 1, "2026-03-02");
    put_pass(job, 1, 1, 0.9);
    put(job, reading_key_pass(FIELD_PASS_TIME, 1, 1), "09:00");
    if (state == FOUND)
        return 1;
    mark_moves(job, state == IN_WORK ? 1 : MOVE_COUNT_);
    if (state == IN_WORK)
        return 1;
    put_pass(job, 1, 2, 0.02);
    put(job, reading_key_pass(FIELD_PASS_TIME, 1, 2), "12:00");
    if (state == RESTRUNG)
        restring(job);
    if (state != LATER)
        return 1;
    begin_visit(job, 2, "2026-09-02");
    put_pass(job, 2, 1, 0.5);
    return seeded_whole(job->seed, 1, 2);
}

/* --- the sheet --- */

/* The text of the PDF, to be freed. */
static char *read_back(void **state, const struct record *record, int visit, bool metric)
{
    const struct shop_units units = metric ? shop_units_metric() : shop_units_inch();
    const struct sheet_document document = {.record = record,
                                            .visit = visit,
                                            .units = &units,
                                            .format = SHEET_FORMAT_PDF,
                                            .paper = metric ? SHOP_PAPER_A4 : SHOP_PAPER_LETTER,
                                            .kind = SHEET_FOR_OWNER,
                                            .utf8 = true};
    const char *path = tree_path(*state, "sheet.pdf");
    char command[600];
    struct bytes bytes;

    bytes_init(&bytes);
    assert_int_equal(sheet_file_make(&document, &bytes), STATUS_OK);
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(bytes.data, 1, bytes.length, file), bytes.length);
    assert_int_equal(fclose(file), 0);
    bytes_done(&bytes);
    snprintf(command, sizeof command, "pdftotext -layout '%s' -", path);
    return raster_command(command);
}

/* What was looked at, or the test looks at nothing. */
struct looked {
    int states, works, ranked;
    int long_ones; /* on two pages of Letter, the shorter paper */
};

static int letter_pages(const struct record *record, int visit, bool metric)
{
    const struct sheet_ask ask = {.visit = visit,
                                  .units = metric ? shop_units_metric() : shop_units_inch(),
                                  .shop = "Quayside Fret Works",
                                  .address = "3 Quay Steps, upstairs"};
    struct page_list *list;
    struct sheet sheet;

    assert_int_equal(sheet_make(record, &ask, &sheet), STATUS_OK);
    assert_int_equal(sheet_lay_pages(&sheet, page_letter, &list), STATUS_OK);
    const int pages = page_list_pages(list);
    page_list_free(list);
    sheet_done(&sheet);
    return pages;
}

static void check_sheet(void **tree, int index, struct seeded *seed, struct looked *looked)
{
    const struct preset *preset = preset_get(index / 2);
    const enum state state = (enum state)(index % STATES);
    struct job job = {.seed = seed,
                      .metric = index / STATES % 2,
                      .heard = index % 3 ? seeded_between(seed, 0.9, 1.6) : 0};
    char memory[600];

    assert_int_equal(preset_record(preset, &job.record), STATUS_OK);
    put(&job, reading_key_one(FIELD_NAME), "Number Forty");
    put(&job, reading_key_one(FIELD_NOTE), SECRET " of the instrument");
    const int visit = do_job(&job, state);

    char *text = read_back(tree, &job.record, visit, job.metric);
    const struct sheet_said said = {.text = text,
                                    .metric = job.metric,
                                    .secret = SECRET,
                                    .works = record_last_work(&job.record, visit),
                                    .heard = job.heard > 0};
    const char *fault = sheet_fault(&said, memory, sizeof memory);
    if (!fault && !strstr(text, FOR_OWNER))
        fault = "the words for the owner are missing";
    if (fault) {
        fputs(text, stderr);
        fail_msg("%s, %s, %s: %s", preset->title, state_names[state], job.metric ? "mm" : "inch",
                 fault);
    }
    if (getenv("SILLET_SHOW_SHEETS"))
        fputs(text, stderr);
    looked->states += sheet_fault_states(&said);
    looked->works += said.works;
    looked->long_ones += letter_pages(&job.record, visit, job.metric) > 1;
    looked->ranked += strstr(text, "Room for the strings to swing") != NULL;
    free(text);
    record_done(&job.record);
}

static void forty_sheets_are_handed_over_unread(void **state)
{
    struct seeded seed = seeded_start("forty sheets");
    struct looked looked = {.states = 0};

    assert_non_null(preset_get(PRESETS - 1));
    for (int i = 0; i < SHEETS; i++)
        check_sheet(state, i, &seed, &looked);
    print_message("%d states compared, %d lines of work read, %d sheets with room to swing, %d on "
                  "two pages of Letter\n",
                  looked.states, looked.works, looked.ranked, looked.long_ones);
    assert_true(looked.long_ones <= SHEETS / 10);
    assert_true(looked.states >= 4 * SHEETS && looked.works >= SHEETS * 3 / 4);
    assert_true(looked.ranked >= SHEETS / 4 && looked.ranked <= SHEETS * 2 / 3);
}

/* --- the faults are seen --- */

static const char sound[] =
    "Set-up sheet                                  2 March 2026\n\nAs found, as left\n"
    "neck, saddle over bridge      as found     as left       target  state\n"
    "relief at fret 6, in (mm)  .011 (0.28)  .006 (0.15)  .006 (0.15)  good\n"
    "saddle, bass, 64ths in     11.1 (4.40)  10.8 (4.30)  over 7.6 (3.00)  good\n\n"
    "            gap over fret 1, in (mm)               action at fret 12, 64ths in (mm)\n"
    "string     as found     as left      target   as found    as left     target\n"
    "6 E2    .034 (0.86) .018 (0.46) .018 (0.46) 8.5 (3.37) 6.0 (2.38) 6.0 (2.38)\n"
    "1 E4    .022 (0.56) .012 (0.30) .012 (0.30) 6.0 (2.38) 4.0 (1.59) 4.0 (1.59)\n"
    "state          high        good                   high       good\n\n"
    "Relief, gaps and action are where they are wanted, as far as the gauges tell.\n\n"
    "What was done\nTruss rod  tightened 1/4 turn\nSaddle     lowered by 0.9 mm\n\n"
    "\fStrings and tuning\na\nb\nc\nd\ne\nSet-up sheet: Parlour   2/2\n";

static const char *fault_of(const char *text, char *memory, size_t size)
{
    const struct sheet_said said = {.text = text, .secret = SECRET, .works = 2};

    return sheet_fault(&said, memory, size);
}

/* The same beside another section. */
static const char in_columns[] = "What was done                      Climate\n"
                                 "Truss rod  tightened 1/4 turn      In the shop: 38 %% humidity\n"
                                 "Saddle     %-20s    tune it to be safe: file -.02\n\n";

static void columns_are_told_apart(void **state)
{
    static const char *const saddles[] = {"lowered by 0.9 mm", "lower by 0.9 mm"};

    (void)state;
    for (int i = 0; i < 2; i++) {
        char memory[600], text[sizeof in_columns + 40];

        snprintf(text, sizeof text, in_columns, saddles[i]);
        const char *fault = fault_of(text, memory, sizeof memory);
        assert_int_equal(fault != NULL, i);
    }
}

/* Each fault is put into a sound sheet, and found. */
static void every_fault_is_seen(void **state)
{
    static const struct {
        const char *was, *is, *found;
    } faults[] = {
        {"tightened 1/4 turn", "tighten: relief -.004 +-.001", "a plan"},
        {"tightened 1/4 turn", "tightened 1/4 \xC2\xB1 1/8 turn", "a plan"},
        {"lowered by 0.9 mm", "lower by 0.9 mm", "a plan"},
        {"lowered by 0.9 mm", "string 6 -.016, 5 -.013 in", "a plan"},
        {"lowered by 0.9 mm", "lowered by 0.9 mm\nStrings    new set", "3 lines of work"},
        {"Parlour", SECRET, "shop's note"},
        {"2 March", "3 notes would buzz, 2 March", "would buzz"},
        {"\nWhat was done", "\nRoom for the strings to swing\n\nWhat was done", "nobody listened"},
        {"c\nd\ne\n", "", "last page of 3"},
        {"(0.15)  good", "(0.15)  high", "'high' against"},
        {"(0.15)  good", "(0.15)  high now", "'high' against"},
        {"(0.15)  good", "(0.15)  again", "'again' against"},
        {".006 (0.15)  .006 (0.15)  good", ".010 (0.25)  .006 (0.15)  high", "'high' against"},
        {".006 (0.15)  .006 (0.15)  good", ".012 (0.30)  .006 (0.15)  good", "'good' against"},
        {"(4.30)  over 7.6 (3.00)  good", "(2.30)  over 7.6 (3.00)  good", "'good' against"},
        {"(4.30)  over 7.6 (3.00)  good", "(4.30)  over 7.6 (3.00)  low", "'low' against"},
        {"high        good                   high", "high        high                   high",
         "'high' against"},
        {"high        good                   high", " low        good                   high",
         "'low' against"},
        {"high       good\n\n", "good       good\n\n", "'good' against"},
        {".012 (0.30) .012 (0.30)", ".022 (0.56) .012 (0.30)", "'good' against"},
    };
    char memory[600];

    (void)state;
    assert_null(fault_of(sound, memory, sizeof memory));
    for (size_t i = 0; i < sizeof faults / sizeof faults[0]; i++) {
        const char *at = strstr(sound, faults[i].was);
        char text[sizeof sound + 200];

        assert_non_null(at);
        snprintf(text, sizeof text, "%.*s%s%s", (int)(at - sound), sound, faults[i].is,
                 at + strlen(faults[i].was));
        const char *fault = fault_of(text, memory, sizeof memory);
        if (!fault || !strstr(fault, faults[i].found))
            fail_msg("'%s' in place of '%s' was found as: %s", faults[i].is, faults[i].was,
                     fault ? fault : "nothing");
    }
}

static int set_up(void **state)
{
    if (tree_setup(state) != 0)
        return -1;
    /* No shop.ini of the machine's. */
    return setenv("HOME", tree_path(*state, ""), 1) || unsetenv("XDG_CONFIG_HOME");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_fault_is_seen),
        cmocka_unit_test(columns_are_told_apart),
        cmocka_unit_test_setup_teardown(forty_sheets_are_handed_over_unread, set_up, tree_teardown),
    };

    if (!sheet_file_can_draw() || !raster_can_draw())
        return 77;
    return cmocka_run_group_tests_name("forty_sheets", tests, NULL, NULL) ? 1 : 0;
}
