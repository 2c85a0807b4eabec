/* SPDX-License-Identifier: MIT */

/* Every kind of instrument from the shelf's "new instrument" to "it can go back", by keys. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include <cmocka.h>

#include "bench_command.h"
#include "bench_figures.h"
#include "kind_table.h"
#include "near.h"
#include "shop_day.h"
#include "store/profile/preset.h"

#define SEEN_PRESETS "which of these is it most like?"
#define SEEN_READY   "all moves are on target and done: it can go back"

/* Rows enough for the longest leaf. */
enum { KINDS_MAX = 32, ROWS = 24, TALL_ROWS = 90, COLUMNS = 80 };

struct job {
    const struct kind *kind;
    struct bench *bench;
};

static int open_job(void **state)
{
    struct job *job = calloc(1, sizeof *job);
    void *bench = NULL;

    if (!job || bench_open(&bench) != 0)
        return -1;
    job->kind = *state;
    job->bench = bench;
    *state = job;
    return 0;
}

static int close_job(void **state)
{
    struct job *job = *state;
    void *bench = job->bench;

    free(job);
    return bench_close(&bench);
}

/* --- from the shelf --- */

static void write_shop(const struct job *job)
{
    char path[600];

    snprintf(path, sizeof path, "%s/.config", job->bench->home);
    assert_int_equal(mkdir(path, 0700), 0);
    snprintf(path, sizeof path, "%s/.config/sillet", job->bench->home);
    assert_int_equal(mkdir(path, 0700), 0);
    snprintf(path, sizeof path, "%s/.config/sillet/shop.ini", job->bench->home);
    tree_write_text(path, job->kind->metric ? "[shop]\nunits = metric\n" : "[shop]\nunits = inch\n");
}

static int number_of(const struct kind *kind)
{
    for (int i = 0; preset_get(i); i++)
        if (strcmp(preset_get(i)->id, kind->id) == 0)
            return i + 1;
    fail_msg("no starting point %s", kind->id);
    return 0;
}

static void begin(const struct job *job)
{
    struct terminal *terminal = day_begin(job->bench, "made.ini");
    char in_hand[120];

    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, SEEN_PRESETS);
    terminal_type(terminal, job->kind->find);
    snprintf(in_hand, sizeof in_hand, " > %2d %s", number_of(job->kind), job->kind->title);
    terminal_expect(terminal, in_hand);
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, "its name >");
    bench_enter(terminal, "Made");
    terminal_expect(terminal, SEEN_BENCH);
}

static void fill_in(struct terminal *terminal, const char *const cell[2])
{
    if (!cell[0])
        return;
    day_turn_to(terminal, "Intake");
    day_find_cell(terminal, TERMINAL_DOWN, cell[0]);
    day_write(terminal, cell[0], cell[1]);
    terminal_expect_gone(terminal, cell[0]);
    day_turn_to(terminal, "Bench");
}

/* --- a pass --- */

/* The next word of a list, which moves on. */
static void take_word(const char **list, char *ret_word, size_t size)
{
    *list += strspn(*list, " ");
    const size_t length = strcspn(*list, " ");

    assert_in_range(length, 1, size - 1);
    memcpy(ret_word, *list, length);
    ret_word[length] = '\0';
    *list += length;
}

static void read_cell(struct terminal *terminal, const char *prompt, const char *column,
                      const char *text)
{
    const char *place = strchr(prompt, '%');
    char whole[80];

    if (place)
        snprintf(whole, sizeof whole, " %.*s%s%s >", (int)(place - prompt), prompt, column,
                 place + 1);
    else
        snprintf(whole, sizeof whole, " %s >", prompt);
    terminal_expect(terminal, whole);
    bench_enter(terminal, text);
}

static int read_row(struct terminal *terminal, const struct kind_row *row, const char *texts)
{
    const char *columns = row->columns ? row->columns : "-";
    int count = 0;

    for (; *columns; count++) {
        char column[8], text[16];

        take_word(&columns, column, sizeof column);
        take_word(&texts, text, sizeof text);
        read_cell(terminal, row->prompt, column, text);
    }
    assert_string_equal(texts, "");
    return count;
}

/* Every question of the pass and no other, in their order. */
static void read_pass(struct terminal *terminal, const struct kind *kind, bool ready)
{
    int asked = 0;

    for (const struct kind_row *row = kind->rows; row->prompt; row++)
        asked += read_row(terminal, row, ready ? row->ready : row->found);
    terminal_expect(terminal, SEEN_PASS_END);
    assert_int_equal(asked, kind->readings);
}

/* --- the work --- */

static void mark(struct terminal *terminal, const struct kind_move *move)
{
    char text[64];

    snprintf(text, sizeof text, " %s, what was done >", move->name);
    terminal_expect(terminal, text);
    snprintf(text, sizeof text, "[ ] %s", move->name);
    terminal_expect(terminal, text);
    terminal_expect(terminal, move->words);
    terminal_type(terminal, " ");
    if (strcmp(move->name, "rod") == 0) {
        terminal_expect(terminal, "rod, turns >");
        terminal_key(terminal, TERMINAL_ENTER);
    }
    snprintf(text, sizeof text, "[x] %-6s done ", move->name);
    terminal_expect(terminal, text);
}

static void do_the_work(struct terminal *terminal, const struct kind *kind)
{
    char left[40];
    int count = 0;

    while (count < KIND_MOVES && kind->moves[count].name)
        count++;
    day_turn_to(terminal, "Work");
    snprintf(left, sizeof left, " %d left, 0 done ", count);
    terminal_expect(terminal, left);
    for (int i = 0; i < count; i++)
        mark(terminal, &kind->moves[i]);
    snprintf(left, sizeof left, " 0 left, %d done ", count);
    terminal_expect(terminal, left);
    day_turn_to(terminal, "Bench");
    terminal_type(terminal, "p");
    terminal_expect(terminal, "pass 2");
}

/* --- what the leaves say --- */

static void check_words(struct terminal *terminal, const struct kind_words *wanted)
{
    if (wanted->words[0] != '!') {
        terminal_expect(terminal, wanted->words);
    } else if (terminal_find(terminal, wanted->words + 1, NULL) >= 0) {
        print_error("on %s: \"%s\"\n", wanted->leaf, wanted->words + 1);
        terminal_fail_at(terminal, "words that must not be there", __FILE__, __LINE__);
    }
}

static void check_leaf(struct terminal *terminal, const struct kind *kind, const char *leaf)
{
    terminal_settle(terminal);
    for (int i = 0; i < KIND_WORDS && kind->words[i].leaf; i++)
        if (strcmp(kind->words[i].leaf, leaf) == 0)
            check_words(terminal, &kind->words[i]);
}

static void check_leaves(struct terminal *terminal, const struct kind *kind)
{
    static const char *const leaves[] = {"Intake", "Strings", "Pitch",  "Frets",
                                         "Neck",   "Work",    "History"};

    terminal_resize(terminal, TALL_ROWS, COLUMNS);
    terminal_settle(terminal);
    for (size_t i = 0; i < sizeof leaves / sizeof leaves[0]; i++) {
        day_turn_to(terminal, leaves[i]);
        check_leaf(terminal, kind, leaves[i]);
    }
    day_turn_to(terminal, "Work");
    terminal_expect(terminal, SEEN_READY);
    terminal_expect(terminal, " 0 left, 0 done ");
}

/* --- what the file says --- */

static void check_file(const struct job *job)
{
    struct command check;

    command_run(job->bench, "check", job->bench->profile, &check);
    if (check.signalled || check.code != 0 || check.out_length + check.err_length > 0)
        fail_msg("check: %s%s", check.out, check.err);
    command_done(&check);
    char *figures = day_figures(job->bench);

    assert_non_null(strstr(figures, "\nverdict = ready\n"));
    for (int i = 0; i < KIND_STRINGS && job->kind->strings[i].string; i++) {
        const struct kind_string *want = &job->kind->strings[i];

        assert_near(figure_of_string(figures, want->string, "pitch_hz"), want->hz, 1e-3);
        assert_near_relative(figure_of_string(figures, want->string, "tension_n"), want->pull_n,
                             1e-5);
    }
    free(figures);
}

/* What the owner reads. */
static void check_sheet(const struct job *job)
{
    struct command sheet;

    command_run(job->bench, "sheet", job->bench->profile, &sheet);
    assert_false(sheet.signalled);
    assert_int_equal(sheet.code, 0);
    for (int i = 0; i < KIND_WORDS && job->kind->words[i].leaf; i++) {
        const char *words = job->kind->words[i].words;
        const bool wanted = words[0] != '!';

        if (strcmp(job->kind->words[i].leaf, "Sheet") == 0 &&
            wanted != (strstr(sheet.out, words + !wanted) != NULL))
            fail_msg("%s: \"%s\"\n%s", wanted ? "missing" : "not wanted", words, sheet.out);
    }
    command_done(&sheet);
}

static void a_kind_from_its_starting_point_to_ready(void **state)
{
    const struct job *job = *state;

    write_shop(job);
    begin(job);
    struct terminal *terminal = job->bench->terminal;
    fill_in(terminal, job->kind->cell);
    read_pass(terminal, job->kind, false);
    check_leaf(terminal, job->kind, "Bench");
    do_the_work(terminal, job->kind);
    check_leaf(terminal, job->kind, "Next");
    read_pass(terminal, job->kind, true);
    check_leaves(terminal, job->kind);
    terminal_type(terminal, "*q");
    terminal_expect(terminal, "[Shelf]");
    terminal_type(terminal, "*q");
    (void)terminal_expect_end(terminal);
    check_file(job);
    check_sheet(job);
}

/* --- the table --- */

static const struct kind *kind_at(int i)
{
    if (i < kinds_of_guitars_count)
        return &kinds_of_guitars[i];
    i -= kinds_of_guitars_count;
    return i < kinds_of_others_count ? &kinds_of_others[i] : NULL;
}

static void every_starting_point_has_a_row(void **state)
{
    (void)state;
    for (int i = 0; preset_get(i); i++) {
        bool found = false;

        for (int k = 0; kind_at(k); k++)
            found = found || strcmp(kind_at(k)->id, preset_get(i)->id) == 0;
        if (!found)
            fail_msg("no row for %s", preset_get(i)->id);
    }
}

/* Which of how many parts of the table, so that parts run beside one another. */
int main(int argc, char **argv)
{
    struct CMUnitTest tests[KINDS_MAX] = {cmocka_unit_test(every_starting_point_has_a_row)};
    size_t count = 1;

    if (!bench_set_up(argc, argv) || argc < 5)
        return 2;
    const int part = atoi(argv[3]), parts = atoi(argv[4]);

    for (int i = 0; kind_at(i); i++)
        if (i % parts == part && count < KINDS_MAX)
            tests[count++] =
                (struct CMUnitTest){kind_at(i)->name, a_kind_from_its_starting_point_to_ready,
                                    open_job, close_job, (void *)(uintptr_t)kind_at(i)};
    return _cmocka_run_group_tests("kinds", tests, count, NULL, NULL) ? 1 : 0;
}
