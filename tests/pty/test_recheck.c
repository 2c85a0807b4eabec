/* SPDX-License-Identifier: MIT */

/*
 * An instrument that comes back as it left, in the real program: the readings of its last visit are
 * offered again, and what each key does with them. Keys are counted from the shelf on.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include <cmocka.h>

#include "bench_screen.h"

enum { KEYS_MOST = 20 };

#define SEEN_READY "nothing is due: it can go back"

/* A session at the shelf, and how many keys it was given. */
struct recheck {
    struct terminal *terminal;
    int keys;
};

static void press(struct recheck *recheck, enum terminal_key key)
{
    terminal_key(recheck->terminal, key);
    recheck->keys++;
}

static void press_letter(struct recheck *recheck, char letter)
{
    const char text[] = {letter, '\0'};

    terminal_type(recheck->terminal, text);
    recheck->keys++;
}

/* The demo guitar as its first visit left it, alone on a shelf. */
static struct recheck begin(struct bench *bench)
{
    char shelf[340], path[400];
    const char *const argv[] = {bench_program(), "--shelf", shelf, NULL};
    const struct terminal_setup setup = {
        .argv = argv, .home = bench->home, .rows = 24, .columns = 80};
    char *bytes = tree_read(bench_data("../../profiles/parlour.ini"), NULL);

    assert_non_null(bytes);
    char *second = strstr(bytes, "[visit.2]");
    assert_non_null(second);
    *second = '\0';
    snprintf(shelf, sizeof shelf, "%s/shelf", bench->tree->folder);
    snprintf(path, sizeof path, "%s/parlour.ini", shelf);
    assert_int_equal(mkdir(shelf, 0700), 0);
    tree_write_text(path, bytes);
    free(bytes);
    bench->terminal = terminal_start(&setup);
    terminal_expect(bench->terminal, ">Parlour No. 3");
    return (struct recheck){.terminal = bench->terminal};
}

/* Opens it and begins a visit: every reading of the last one stands there in brackets. */
static void begin_visit(struct recheck *recheck)
{
    press(recheck, TERMINAL_ENTER);
    terminal_expect(recheck->terminal, SEEN_BENCH);
    press_letter(recheck, 'v');
    terminal_expect(recheck->terminal, "visit 2 · pass 1");
    terminal_expect(recheck->terminal, "[.006] of visit 1: Enter files it, arrows pass");
    terminal_expect(recheck->terminal, "measure the relief first");
    assert_string_equal(bench_word(recheck->terminal, ROW_TITLED_GAP, 1), "[.018]");
    assert_string_equal(bench_word(recheck->terminal, ROW_TITLED_ACTION, 6), "[4]");
}

static void enter_next(struct recheck *recheck, const char *prompt)
{
    press(recheck, TERMINAL_ENTER);
    terminal_expect(recheck->terminal, prompt);
}

/* What the file holds of the new visit is what the last pass of the first one holds. */
static void expect_filed_as_left(const struct bench *bench)
{
    static const char *const lines[] = {
        "\nrelief = .006 in\n",       "\nnut_gap.6 = .018 in\n",     "\nnut_gap.1 = .012 in\n",
        "\naction.6 = 6/64 in\n",     "\naction.5 = 5.5/64 in\n",    "\naction.1 = 4/64 in\n",
        "\nexposure_bass = 4.4 mm\n", "\nexposure_treble = 4.3 mm\n"};
    char path[400];

    snprintf(path, sizeof path, "%s/shelf/parlour.ini", bench->tree->folder);
    char *bytes = tree_read(path, NULL);
    assert_non_null(bytes);
    const char *pass = strstr(bytes, "[visit.2.pass.1]");
    assert_non_null(pass);
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++)
        if (!strstr(pass, lines[i]))
            fail_msg("not in the new pass: %s", lines[i]);
    free(bytes);
}

static void nothing_changed_is_enter_all_the_way(void **state)
{
    struct bench *bench = *state;
    struct recheck recheck = begin(bench);
    char prompt[64];

    begin_visit(&recheck);
    for (int s = 6; s >= 1; s--) {
        snprintf(prompt, sizeof prompt, SEEN_PROMPT_GAP, s);
        enter_next(&recheck, prompt);
    }
    for (int s = 6; s >= 1; s--) {
        snprintf(prompt, sizeof prompt, SEEN_PROMPT_ACTION, s);
        enter_next(&recheck, prompt);
    }
    enter_next(&recheck, "bass exposure >");
    enter_next(&recheck, "treble exposure >");
    enter_next(&recheck, SEEN_READY);
    assert_in_range(recheck.keys, 1, KEYS_MOST);
    terminal_expect(recheck.terminal, SEEN_KEPT);
    expect_filed_as_left(bench);
}

static void rows_that_were_looked_over_take_a_key_each(void **state)
{
    struct bench *bench = *state;
    struct recheck recheck = begin(bench);
    char prompt[64];

    begin_visit(&recheck);
    press(&recheck, TERMINAL_UP);
    press_letter(&recheck, 's');
    terminal_expect(recheck.terminal, "The relief is filed by itself");
    press(&recheck, TERMINAL_DOWN);
    press_letter(&recheck, 's');
    terminal_expect(recheck.terminal, "Read the relief first");
    assert_string_equal(bench_word(recheck.terminal, ROW_TITLED_GAP, 1), "[.018]");
    press(&recheck, TERMINAL_UP);
    snprintf(prompt, sizeof prompt, SEEN_PROMPT_GAP, 6);
    enter_next(&recheck, prompt);
    terminal_expect(recheck.terminal, "s: this row is as it was");
    press_letter(&recheck, 's');
    terminal_expect(recheck.terminal, "6 readings filed as they were; u takes them back.");
    press_letter(&recheck, 'u');
    terminal_expect(recheck.terminal, SEEN_TAKEN_BACK);
    assert_string_equal(bench_word(recheck.terminal, ROW_TITLED_GAP, 1), "[.018]");
    for (int rows = 0; rows < 3; rows++) {
        press_letter(&recheck, 's');
        terminal_expect(recheck.terminal, "filed as they were");
        terminal_settle(recheck.terminal);
    }
    terminal_expect(recheck.terminal, SEEN_READY);
    assert_in_range(recheck.keys, 1, KEYS_MOST);
    expect_filed_as_left(bench);
}

/* A neck that moved has moved its strings: nothing is offered that stands over a crown. */
static void what_a_moved_neck_changed_is_read(void **state)
{
    struct recheck recheck = begin(*state);

    begin_visit(&recheck);
    bench_enter(recheck.terminal, ".010");
    terminal_expect(recheck.terminal, "nut gap, string 6 >");
    assert_string_equal(bench_word(recheck.terminal, ROW_TITLED_GAP, 1), "-");
    assert_string_equal(bench_word(recheck.terminal, ROW_TITLED_ACTION, 6), "-");
    assert_string_equal(bench_word(recheck.terminal, ROW_TITLED_EXPOSURE, 1), "[11.1]");
    press(&recheck, TERMINAL_ENTER);
    terminal_expect(recheck.terminal, "nut gap, string 5 >");
    assert_string_equal(bench_word(recheck.terminal, ROW_TITLED_GAP, 1), "-");
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        BENCH_CASE(nothing_changed_is_enter_all_the_way),
        BENCH_CASE(rows_that_were_looked_over_take_a_key_each),
        BENCH_CASE(what_a_moved_neck_changed_is_read),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
