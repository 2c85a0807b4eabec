/* SPDX-License-Identifier: MIT */

/* The last moment of a session: nothing cuts the last save short, and it ends cleanly. */
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>

#include "bench_screen.h"

static char slow[300], no_memory[300];

/* The program, on a disk and with memory that answer to these two files. */
static struct terminal *start(struct bench *bench)
{
    static char slow_word[340], no_memory_word[340];
    const char *const env[] = {slow_word, no_memory_word, NULL};

    snprintf(slow, sizeof slow, "%s/slow", bench->tree->folder);
    snprintf(no_memory, sizeof no_memory, "%s/no-memory", bench->tree->folder);
    snprintf(slow_word, sizeof slow_word, "TEST_SLOW_DISK=%s", slow);
    snprintf(no_memory_word, sizeof no_memory_word, "TEST_NO_MEMORY=%s", no_memory);
    return bench_start_with(bench, (struct terminal_setup){.env = env});
}

/* Waits for a sync to begin, while the program goes on. */
static void expect_sync(struct terminal *terminal)
{
    char in[340];

    snprintf(in, sizeof in, "%s.in", slow);
    for (int i = 0; i < 4000 && access(in, F_OK) != 0; i++)
        (void)terminal_pump(terminal, 5);
    terminal_check(terminal, access(in, F_OK) == 0);
}

/* In that folder its file can be written again, but it takes its time. */
static void test_signals_in_the_last_save(void **state)
{
    static const int numbers[] = {SIGTERM, SIGINT, SIGINT, SIGHUP};
    struct bench *bench = *state;
    char away[300], there[300];

    snprintf(there, sizeof there, "%s/stick", bench->tree->folder);
    snprintf(away, sizeof away, "%s/away", bench->tree->folder);
    assert_int_equal(mkdir(there, 0700), 0);
    snprintf(bench->profile, sizeof bench->profile, "%s/bench.ini", there);
    bench_copy(bench, "worked-example.ini");
    struct terminal *terminal = start(bench);
    assert_int_equal(rename(there, away), 0);
    bench_enter(terminal, ".014");
    terminal_expect(terminal, SEEN_NOT_ON_DISK);
    tree_write_text(slow, "");
    assert_int_equal(rename(away, there), 0);
    terminal_signal(terminal, SIGTERM);
    expect_sync(terminal);
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++)
        terminal_signal(terminal, numbers[i]);
    assert_int_equal(unlink(slow), 0);
    const int status = terminal_expect_end(terminal);
    terminal_check(terminal, WIFEXITED(status) && WEXITSTATUS(status) == 0);
    bench_expect_restored(terminal);
    bench_expect_line(bench, "relief = .014 in");
    assert_int_equal(tree_count(there, ".lock"), 0);
}

/* Leaving asks for no memory that it cannot do without. */
static void test_no_memory_at_the_end(void **state)
{
    struct bench *bench = *state;

    bench_copy(bench, "worked-example.ini");
    struct terminal *terminal = start(bench);
    bench_enter(terminal, ".014");
    terminal_expect(terminal, SEEN_KEPT);
    tree_write_text(no_memory, "");
    bench_quit(terminal);
    bench_expect_line(bench, "relief = .014 in");
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        BENCH_CASE(test_signals_in_the_last_save),
        BENCH_CASE(test_no_memory_at_the_end),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
