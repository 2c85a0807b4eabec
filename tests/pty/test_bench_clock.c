/* SPDX-License-Identifier: MIT */

/* A clock that is wrong, or is set back in the middle of work: nothing is lost, visits and
 * generations keep their order, locks and repeated saves do not depend on it. */
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include <cmocka.h>

#include "bench_screen.h"
#include "store/profile/copies.h"

#define YEARS(count) ((count)*31557600L)

static void set_clock(const struct bench *bench, long offset)
{
    char text[32];

    snprintf(text, sizeof text, "%ld\n", offset);
    tree_write_text(tree_path(bench->tree, "clock"), text);
}

static struct terminal *start(struct bench *bench)
{
    char clock[400];

    snprintf(clock, sizeof clock, "TEST_CLOCK=%s", tree_path(bench->tree, "clock"));
    const char *const env[] = {clock, NULL};
    return bench_start_with(bench, (struct terminal_setup){.env = env});
}

/* "date = 2026-03-02" of a year that many seconds from now. */
static const char *date_line(long offset)
{
    static char line[40];
    const time_t then = time(NULL) + offset;
    struct tm utc;

    assert_non_null(gmtime_r(&then, &utc));
    assert_true(strftime(line, sizeof line, "date = %Y-%m-%d", &utc) > 0);
    return line;
}

/* Three visits, the second by a clock 20 years behind, the third by one 5 years ahead. */
static void test_visits_keep_their_order(void **state)
{
    static const long offsets[] = {YEARS(-20), YEARS(5), 0};
    struct bench *bench = *state;
    struct copies kept;

    bench_copy(bench, "worked-example.ini");
    for (int i = 0; i < 3; i++) {
        char visit[32], relief[16], line[32];

        set_clock(bench, offsets[i]);
        struct terminal *terminal = start(bench);
        terminal_type(terminal, "v");
        snprintf(visit, sizeof visit, "visit %d", i + 2);
        terminal_expect(terminal, visit);
        snprintf(relief, sizeof relief, ".02%d", i);
        bench_enter(terminal, relief);
        bench_expect_row(terminal, ROW_TITLED_RELIEF, relief);
        terminal_expect(terminal, SEEN_KEPT);
        bench_quit(terminal);
        snprintf(line, sizeof line, "relief = .02%d in", i);
        bench_expect_line(bench, line);
        bench_expect_line(bench, date_line(offsets[i]));
        snprintf(line, sizeof line, "[visit.%d.pass.1]", i + 2);
        bench_expect_line(bench, line);
    }
    bench_expect_line(bench, "relief = .013 in");
    /* The newest state is the newest by number, whatever its date says. */
    assert_int_equal(copies_list(bench->profile, COPY_EARLIER, &kept), STATUS_OK);
    assert_int_equal(kept.count, 3);
    for (size_t i = 0; i < kept.count; i++) {
        char *bytes = tree_read(kept.items[i].path, NULL);

        assert_non_null(bytes);
        assert_int_equal(strstr(bytes, "relief = .021 in") != NULL, i == 0);
        assert_int_equal(strstr(bytes, "relief = .020 in") != NULL, i < 2);
        free(bytes);
    }
    copies_done(&kept);
}

/* Set back by an hour, a day and ten years between two readings. */
static void test_set_back_between_readings(void **state)
{
    static const char *const readings[] = {"31", "29", "27"};
    static const long offsets[] = {-3600, -86400, YEARS(-10)};
    struct bench *bench = *state;
    char line[32];

    bench_copy(bench, "empty-visit.ini");
    set_clock(bench, 0);
    struct terminal *terminal = start(bench);
    bench_enter(terminal, ".014");
    bench_expect_gap(terminal, 6);
    for (int i = 0; i < 3; i++) {
        set_clock(bench, offsets[i]);
        bench_enter(terminal, readings[i]);
        bench_expect_gap(terminal, 5 - i);
        snprintf(line, sizeof line, "nut_gap.%d = %s th", 6 - i, readings[i]);
        bench_expect_line(bench, line);
    }
    bench_quit(terminal);
    bench_expect_line(bench, "relief = .014 in");
}

/* The lock is the system's, not a matter of its file's age. */
static void test_lock_holds(void **state)
{
    struct bench *bench = *state;
    char lock[420];
    const struct timespec times[2] = {{.tv_sec = 1000}, {.tv_sec = 1000}};

    bench_copy(bench, "empty-visit.ini");
    set_clock(bench, YEARS(10));
    struct terminal *first = start(bench);
    set_clock(bench, YEARS(-10));
    snprintf(lock, sizeof lock, "%s.lock", bench->profile);
    assert_int_equal(utimensat(-1, lock, times, 0), 0);
    struct terminal *second = bench_start_other(bench);
    terminal_expect(second, SEEN_IN_USE);
    bench_enter(first, ".014");
    bench_expect_gap(first, 6);
    bench_expect_line(bench, "relief = .014 in");
    bench_quit(second);
    bench_quit(first);
}

/* Whether it is time to try again is not asked of a clock that can be set. */
static void test_tries_go_on(void **state)
{
    struct bench *bench = *state;

    assert_int_equal(mkdir(tree_path(bench->tree, "stick"), 0700), 0);
    snprintf(bench->profile, sizeof bench->profile, "%s/stick/bench.ini", bench->tree->folder);
    bench_copy(bench, "empty-visit.ini");
    set_clock(bench, 0);
    struct terminal *terminal = start(bench);
    assert_int_equal(rename(tree_path(bench->tree, "stick"), tree_path(bench->tree, "away")), 0);
    bench_enter(terminal, ".014");
    terminal_expect(terminal, SEEN_NOT_ON_DISK);
    set_clock(bench, YEARS(-10));
    assert_int_equal(rename(tree_path(bench->tree, "away"), tree_path(bench->tree, "stick")), 0);
    terminal_expect_gone(terminal, SEEN_NOT_KEPT);
    bench_expect_line(bench, "relief = .014 in");
    bench_quit(terminal);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        BENCH_CASE(test_visits_keep_their_order),
        BENCH_CASE(test_set_back_between_readings),
        BENCH_CASE(test_lock_holds),
        BENCH_CASE(test_tries_go_on),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
