/* SPDX-License-Identifier: MIT */

/* Changes of the terminal's size in the middle of an entry. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "bench_screen.h"

static struct terminal *start_in_mid_entry(struct bench *bench)
{
    bench_copy(bench, "worked-example.ini");
    struct terminal *terminal = bench_start(bench);

    bench_enter(terminal, ".014");
    bench_expect_gap(terminal, 6);
    terminal_type(terminal, ".03");
    terminal_expect(terminal, "> .03");
    return terminal;
}

/* The entry goes on as if nothing had been. */
static void finish_entry(struct bench *bench)
{
    struct terminal *terminal = bench->terminal;

    terminal_type(terminal, "1");
    terminal_expect(terminal, "> .031");
    terminal_key(terminal, TERMINAL_ENTER);
    bench_expect_gap(terminal, 5);
    bench_quit(terminal);
    bench_expect_line(bench, "relief = .014 in");
    bench_expect_line(bench, "nut_gap.6 = .031 in");
}

static void expect_board(struct terminal *terminal)
{
    bench_expect_gap(terminal, 6);
    terminal_expect(terminal, "> .03");
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".014");
    bench_expect_row(terminal, ROW_TITLED_ACTION, "8.25");
    bench_expect_row(terminal, ROW_TITLED_EXPOSURE, "4.5");
}

static void test_small_and_back(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = start_in_mid_entry(bench);

    terminal_resize(terminal, 10, 40);
    terminal_expect(terminal, SEEN_TOO_SMALL);
    terminal_resize(terminal, 24, 80);
    expect_board(terminal);
    terminal_check(terminal, terminal_find(terminal, SEEN_TOO_SMALL, NULL) < 0);
    terminal_resize(terminal, 43, 132);
    terminal_expect_gone(terminal, SEEN_TOO_SMALL);
    expect_board(terminal);
    finish_entry(bench);
}

/* One row or one column short is too small; exactly 80x24 is not. */
static void test_the_smallest_size(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = start_in_mid_entry(bench);

    terminal_resize(terminal, 23, 80);
    terminal_expect(terminal, SEEN_TOO_SMALL);
    terminal_resize(terminal, 24, 80);
    terminal_expect_gone(terminal, SEEN_TOO_SMALL);
    terminal_resize(terminal, 24, 79);
    terminal_expect(terminal, SEEN_TOO_SMALL);
    terminal_resize(terminal, 24, 80);
    expect_board(terminal);
    finish_entry(bench);
}

static void test_one_by_one_and_back(void **state)
{
    static const int sizes[][2] = {{1, 1}, {2, 2}, {1, 200}, {100, 1}, {1, 1}};
    struct bench *bench = *state;
    struct terminal *terminal = start_in_mid_entry(bench);

    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        terminal_resize(terminal, sizes[i][0], sizes[i][1]);
        terminal_settle(terminal);
    }
    terminal_resize(terminal, 24, 80);
    expect_board(terminal);
    finish_entry(bench);
}

/* Keys that arrive while there is no room to show them count all the same. */
static void test_typing_unseen(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = start_in_mid_entry(bench);

    terminal_resize(terminal, 10, 40);
    terminal_expect(terminal, SEEN_TOO_SMALL);
    bench_enter(terminal, "1");
    terminal_settle(terminal);
    terminal_resize(terminal, 24, 80);
    bench_expect_gap(terminal, 5);
    bench_expect_row(terminal, ROW_TITLED_GAP, ".031");
    bench_quit(terminal);
    bench_expect_line(bench, "nut_gap.6 = .031 in");
}

static void test_starting_small(void **state)
{
    struct bench *bench = *state;

    bench_copy(bench, "worked-example.ini");
    const char *const argv[] = {bench_program(), bench->profile, NULL};
    bench->terminal = terminal_start(
        &(struct terminal_setup){.argv = argv, .home = bench->home, .rows = 5, .columns = 30});
    terminal_expect(bench->terminal, SEEN_TOO_SMALL);
    terminal_resize(bench->terminal, 24, 80);
    terminal_expect(bench->terminal, SEEN_PROMPT_RELIEF);
    bench_quit(bench->terminal);
}

/* A window being dragged: keys between many sizes. */
static void test_storm(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = start_in_mid_entry(bench);

    for (int i = 0; i < 40; i++) {
        terminal_resize(terminal, 3 + i % 40, 10 + (7 * i) % 120);
        terminal_key(terminal, i % 2 ? TERMINAL_BACKSPACE : TERMINAL_DOWN);
        terminal_type(terminal, "9");
        terminal_key(terminal, TERMINAL_ESCAPE);
    }
    terminal_settle(terminal);
    terminal_resize(terminal, 24, 80);
    terminal_expect(terminal, SEEN_NEXT_MOVES);
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".014");
    bench_quit(terminal);
    bench_expect_line(bench, "relief = .014 in");
    bench_expect_line(bench, "nut_gap.6 = .030 in");
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        BENCH_CASE(test_small_and_back),      BENCH_CASE(test_the_smallest_size),
        BENCH_CASE(test_one_by_one_and_back), BENCH_CASE(test_typing_unseen),
        BENCH_CASE(test_starting_small),      BENCH_CASE(test_storm),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
