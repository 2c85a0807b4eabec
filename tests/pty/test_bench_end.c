/* SPDX-License-Identifier: MIT */

/* Every way a session can end in the middle of an entry: what Enter took is in the file. */
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <sys/wait.h>

#include <cmocka.h>

#include "bench_screen.h"

/* Two readings taken and a third half typed. */
static struct terminal *start_in_mid_entry(struct bench *bench)
{
    bench_copy(bench, "empty-visit.ini");
    struct terminal *terminal = bench_start(bench);

    bench_enter(terminal, ".014");
    bench_expect_gap(terminal, 6);
    bench_enter(terminal, "31");
    bench_expect_gap(terminal, 5);
    terminal_type(terminal, "2");
    terminal_expect(terminal, "> 2");
    return terminal;
}

/* At most the cell being typed is lost, and the profile can be edited at once. */
static void expect_nothing_lost(struct bench *bench)
{
    bench_expect_line(bench, "relief = .014 in");
    bench_expect_line(bench, "nut_gap.6 = 31 th");
    bench_expect_no_line(bench, "nut_gap.5 = 2 th");
    struct terminal *terminal = bench_start(bench);
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".014");
    bench_expect_row(terminal, ROW_TITLED_GAP, "31");
    terminal_check(terminal, terminal_find(terminal, SEEN_READ_ONLY, NULL) < 0);
    bench_enter(terminal, ".015");
    bench_expect_gap(terminal, 6);
    bench_quit(terminal);
    bench_expect_line(bench, "relief = .015 in");
}

static void expect_no_litter(const struct bench *bench)
{
    assert_int_equal(tree_count(bench->tree->folder, ".lock"), 0);
    assert_int_equal(tree_count(bench->tree->folder, ".tmp"), 0);
}

static void check_signal(struct bench *bench, int number)
{
    struct terminal *terminal = start_in_mid_entry(bench);

    terminal_signal(terminal, number);
    const int status = terminal_expect_end(terminal);
    terminal_check(terminal, WIFEXITED(status) && WEXITSTATUS(status) == 0);
    bench_expect_restored(terminal);
    expect_no_litter(bench);
    expect_nothing_lost(bench);
}

static void test_hangup_signal(void **state)
{
    check_signal(*state, SIGHUP);
}

static void test_terminate_signal(void **state)
{
    check_signal(*state, SIGTERM);
}

static void test_interrupt_signal(void **state)
{
    check_signal(*state, SIGINT);
}

static void test_quit_signal(void **state)
{
    check_signal(*state, SIGQUIT);
}

/* In raw mode Ctrl-C is a key: here it is q, entry or none. */
static void test_ctrl_c(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = start_in_mid_entry(bench);

    terminal_type(terminal, BENCH_CTRL('c'));
    const int status = terminal_expect_end(terminal);
    terminal_check(terminal, WIFEXITED(status) && WEXITSTATUS(status) == 0);
    bench_expect_restored(terminal);
    expect_no_litter(bench);
    expect_nothing_lost(bench);
}

static void check_terminal_closed(struct bench *bench)
{
    int status = 0;

    terminal_hang_up(bench->terminal);
    assert_true(terminal_ended(bench->terminal, TERMINAL_DEADLINE_MS, &status));
    assert_true(WIFEXITED(status));
    expect_no_litter(bench);
    expect_nothing_lost(bench);
}

static void test_terminal_closed(void **state)
{
    start_in_mid_entry(*state);
    check_terminal_closed(*state);
}

/* Under nohup no signal tells of it. */
static void test_terminal_closed_without_signal(void **state)
{
    struct bench *bench = *state;

    bench_copy(bench, "empty-visit.ini");
    struct terminal *terminal =
        bench_start_with(bench, (struct terminal_setup){.ignore_hangup = true});
    bench_enter(terminal, ".014");
    bench_enter(terminal, "31");
    bench_expect_gap(terminal, 5);
    check_terminal_closed(bench);
}

/* Nobody reads the terminal any more, so that the program cannot go on saying anything: it
 * sleeps, and ends when it is told to. */
static void check_stuck(struct bench *bench, bool no_wait, bool stopped)
{
    bench_copy(bench, "empty-visit.ini");
    struct terminal *terminal =
        bench_start_with(bench, (struct terminal_setup){.no_wait = no_wait});

    bench_enter(terminal, ".014");
    bench_enter(terminal, "31");
    bench_expect_gap(terminal, 5);
    for (int i = 0; i < 200; i++)
        terminal_type(terminal, BENCH_CTRL('l'));
    terminal_stick(terminal, stopped);
    terminal_signal(terminal, SIGTERM);
    const int status = terminal_expect_end(terminal);
    terminal_check(terminal, WIFEXITED(status) && WEXITSTATUS(status) == 0);
    bench_expect_restored(terminal);
    expect_no_litter(bench);
    expect_nothing_lost(bench);
}

static void test_terminal_stuck(void **state)
{
    check_stuck(*state, false, false);
}

static void test_terminal_stopped(void **state)
{
    check_stuck(*state, false, true);
}

static void test_terminal_stuck_and_not_to_be_waited_for(void **state)
{
    check_stuck(*state, true, false);
}

static void test_other_signals(void **state)
{
    check_signal(*state, SIGUSR1);
    check_signal(*state, SIGALRM);
    check_signal(*state, SIGXCPU);
}

/* What the screen shows as taken is in the file: nothing is done for it afterwards. */
static void test_killed_after_enter(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = start_in_mid_entry(bench);
    int status = 0;

    terminal_expect(terminal, SEEN_KEPT);
    terminal_signal(terminal, SIGKILL);
    status = terminal_expect_end(terminal);
    assert_true(WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL);
    expect_nothing_lost(bench);
    expect_no_litter(bench); /* what the killed one left was swept */
}

/* Killed at some moment of a burst of entries: the file is whole, and holds at least what
 * was shown as kept. */
static void test_killed_in_a_burst(void **state)
{
    struct bench *bench = *state;

    for (int round = 0; round < 12; round++) {
        bench_copy(bench, "empty-visit.ini");
        struct terminal *terminal = bench_start(bench);

        terminal_type(terminal, ".014\r31\r29\r27\r25\r23\r21\r8\r7\r6\r5\r5\r5\r");
        terminal_expect(terminal, SEEN_KEPT);
        terminal_signal(terminal, SIGKILL);
        terminal_expect_end(terminal);
        bench_expect_line(bench, "relief = .014 in");
        bench_expect_line(bench, "[end]");
        terminal = bench_start(bench);
        bench_expect_row(terminal, ROW_TITLED_RELIEF, ".014");
        terminal_check(terminal, terminal_find(terminal, "damaged", NULL) < 0);
        bench_quit(terminal);
    }
}

/* Stopped and brought back by a shell with job control. */
static void test_suspended(void **state)
{
    struct bench *bench = *state;
    char script[1200];

    bench_copy(bench, "empty-visit.ini");
    snprintf(script, sizeof script, "'%s' '%s'; echo stopped; read x; fg >/dev/null; echo over",
             bench_program(), bench->profile);
    const char *const argv[] = {"/bin/sh", "-m", "-c", script, NULL};
    struct terminal *terminal =
        terminal_start(&(struct terminal_setup){.argv = argv, .home = bench->home});
    bench->terminal = terminal;
    terminal_expect(terminal, SEEN_BENCH);
    bench_enter(terminal, ".014");
    bench_expect_gap(terminal, 6);
    terminal_type(terminal, BENCH_CTRL('z'));
    terminal_expect(terminal, "stopped");
    bench_expect_restored(terminal);
    terminal_type(terminal, "\n");
    bench_expect_gap(terminal, 6);
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".014");
    bench_enter(terminal, "31");
    bench_expect_gap(terminal, 5);
    terminal_type(terminal, "q");
    terminal_expect(terminal, "over");
    terminal_expect_end(terminal);
    bench_expect_restored(terminal);
    bench_expect_line(bench, "nut_gap.6 = 31 th");
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        BENCH_CASE(test_hangup_signal),
        BENCH_CASE(test_terminate_signal),
        BENCH_CASE(test_interrupt_signal),
        BENCH_CASE(test_quit_signal),
        BENCH_CASE(test_other_signals),
        BENCH_CASE(test_terminal_stuck),
        BENCH_CASE(test_terminal_stopped),
        BENCH_CASE(test_terminal_stuck_and_not_to_be_waited_for),
        BENCH_CASE(test_ctrl_c),
        BENCH_CASE(test_terminal_closed),
        BENCH_CASE(test_terminal_closed_without_signal),
        BENCH_CASE(test_killed_after_enter),
        BENCH_CASE(test_killed_in_a_burst),
        BENCH_CASE(test_suspended),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
