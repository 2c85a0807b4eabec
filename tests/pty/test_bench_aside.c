/* SPDX-License-Identifier: MIT */

/* The folder of an open profile goes away: every reading is kept in a second place, and
 * comes back with the file. */
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>

#include "bench_screen.h"

#define SEEN_ASIDE "kept aside"
#define SEEN_BACK  "are back, and on disk now"

/* The profile in a folder of its own. */
static void put_in_folder(struct bench *bench)
{
    assert_int_equal(mkdir(tree_path(bench->tree, "stick"), 0700), 0);
    snprintf(bench->profile, sizeof bench->profile, "%s/stick/bench.ini", bench->tree->folder);
    bench_copy(bench, "worked-example.ini");
}

static void take_away(const struct bench *bench)
{
    assert_int_equal(rename(tree_path(bench->tree, "stick"), tree_path(bench->tree, "away")), 0);
}

static void bring_again(const struct bench *bench)
{
    assert_int_equal(rename(tree_path(bench->tree, "away"), tree_path(bench->tree, "stick")), 0);
}

/* Two readings that the file does not take, and a third half typed. */
static struct terminal *work_without_folder(struct bench *bench)
{
    put_in_folder(bench);
    struct terminal *terminal = bench_start(bench);

    take_away(bench);
    bench_enter(terminal, ".014");
    terminal_expect(terminal, SEEN_NOT_ON_DISK);
    terminal_expect(terminal, SEEN_ASIDE);
    bench_enter(terminal, "31");
    bench_expect_gap(terminal, 5);
    terminal_expect(terminal, SEEN_NOT_ON_DISK);
    return terminal;
}

static int count_aside(const struct bench *bench)
{
    return tree_count(tree_path(bench->tree, "home/state/sillet/aside"), "");
}

static void expect_all_back(struct bench *bench)
{
    bring_again(bench);
    struct terminal *terminal = bench_start(bench);

    terminal_expect(terminal, SEEN_BACK);
    terminal_expect(terminal, SEEN_KEPT);
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".014");
    bench_expect_line(bench, "relief = .014 in");
    bench_expect_line(bench, "nut_gap.6 = 31 th");
    assert_int_equal(count_aside(bench), 0);
    bench_quit(terminal);
}

static void test_left(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = work_without_folder(bench);

    terminal_type(terminal, "q");
    terminal_expect(terminal, SEEN_AGAIN_QUITS);
    terminal_type(terminal, "q");
    const int status = terminal_expect_end(terminal);
    terminal_check(terminal, WIFEXITED(status) && WEXITSTATUS(status) == 3);
    terminal_expect(terminal, "last save are kept in");
    bench_expect_restored(terminal);
    expect_all_back(bench);
}

static void test_told_to_end(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = work_without_folder(bench);

    terminal_type(terminal, "2");
    terminal_expect(terminal, "> 2");
    terminal_signal(terminal, SIGTERM);
    const int status = terminal_expect_end(terminal);
    terminal_check(terminal, WIFEXITED(status) && WEXITSTATUS(status) == 3);
    bench_expect_restored(terminal);
    expect_all_back(bench);
}

static void test_terminal_gone(void **state)
{
    struct bench *bench = *state;
    int status = 0;

    work_without_folder(bench);
    terminal_hang_up(bench->terminal);
    assert_true(terminal_ended(bench->terminal, TERMINAL_DEADLINE_MS, &status));
    assert_true(WIFEXITED(status));
    expect_all_back(bench);
}

/* What is kept aside is on disk, so that it outlives the program. */
static void test_killed(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = work_without_folder(bench);

    terminal_signal(terminal, SIGKILL);
    terminal_expect_end(terminal);
    expect_all_back(bench);
}

static void test_comes_back_in_the_session(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = work_without_folder(bench);

    bring_again(bench);
    terminal_expect_gone(terminal, SEEN_NOT_KEPT);
    bench_expect_line(bench, "nut_gap.6 = 31 th");
    bench_quit(terminal);
    assert_int_equal(count_aside(bench), 0);
}

/* What was mounted there is gone, and what is under it can be written: nothing is begun in it. */
static void test_empty_mount_point(void **state)
{
    struct bench *bench = *state;
    const char *stick = tree_path(bench->tree, "stick");

    put_in_folder(bench);
    struct terminal *terminal = bench_start(bench);
    take_away(bench);
    assert_int_equal(mkdir(stick, 0700), 0);
    bench_enter(terminal, ".014");
    terminal_expect(terminal, "folder is another one");
    terminal_expect(terminal, SEEN_ASIDE);
    bench_enter(terminal, "31");
    bench_expect_gap(terminal, 5);
    terminal_expect(terminal, SEEN_NOT_KEPT);
    assert_int_equal(tree_count(stick, ""), 0);
    terminal_type(terminal, "qq");
    terminal_expect_end(terminal);
    bench_expect_restored(terminal);
    assert_int_equal(rmdir(stick), 0);
    expect_all_back(bench);
}

/* Removed by someone else: it is written again, and the screen says so. */
static void test_file_removed(void **state)
{
    struct bench *bench = *state;

    put_in_folder(bench);
    struct terminal *terminal = bench_start(bench);
    assert_int_equal(unlink(bench->profile), 0);
    bench_enter(terminal, ".014");
    terminal_expect(terminal, "it has been written again");
    terminal_expect(terminal, SEEN_KEPT);
    bench_quit(terminal);
    bench_expect_line(bench, "relief = .014 in");
}

/* The file was changed meanwhile: neither is thrown away. */
static void test_changed_meanwhile(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = work_without_folder(bench);
    char path[420];

    terminal_type(terminal, "qq");
    terminal_expect_end(terminal);
    bring_again(bench);
    bench_copy(bench, "empty-visit.ini");
    terminal = bench_start(bench);
    terminal_expect(terminal, "bench.ini.aside");
    bench_quit(terminal);
    bench_expect_no_line(bench, "relief = .014 in");
    snprintf(path, sizeof path, "%s.aside", bench->profile);
    char *bytes = tree_read(path, NULL);
    assert_non_null(bytes);
    assert_non_null(strstr(bytes, "\nnut_gap.6 = 31 th\n"));
    free(bytes);
    assert_int_equal(count_aside(bench), 0);
}

/* That readings are back does not hide what else there is to say. */
static void test_comes_back_beside_a_version(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = work_without_folder(bench);

    terminal_type(terminal, "q");
    terminal_expect(terminal, SEEN_AGAIN_QUITS);
    terminal_type(terminal, "q");
    (void)terminal_expect_end(terminal);
    bring_again(bench);
    tree_write_text(tree_path(bench->tree, "stick/bench.ini.conflict"), "[profile]\n");
    terminal = bench_start(bench);
    terminal_expect(terminal, SEEN_BACK);
    terminal_key(terminal, TERMINAL_DOWN);
    terminal_expect(terminal, "Another version lies beside it");
    bench_quit(terminal);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        BENCH_CASE(test_left),
        BENCH_CASE(test_told_to_end),
        BENCH_CASE(test_terminal_gone),
        BENCH_CASE(test_killed),
        BENCH_CASE(test_comes_back_in_the_session),
        BENCH_CASE(test_empty_mount_point),
        BENCH_CASE(test_file_removed),
        BENCH_CASE(test_changed_meanwhile),
        BENCH_CASE(test_comes_back_beside_a_version),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
