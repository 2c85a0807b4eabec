/* SPDX-License-Identifier: MIT */

/* Changes of size, and waiting. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "probe.h"

/* --- size --- */

static uint32_t hash_of(const char *keys, size_t count)
{
    uint32_t hash = 2166136261U;
    for (size_t i = 0; i < count; i++) {
        hash = (hash ^ (unsigned char)keys[i]) * 16777619U;
    }
    return hash;
}

static void test_resize(void **state)
{
    (void)state;
    struct terminal *terminal = probe_start("xterm-256color");
    static const int sizes[][2] = {{43, 132}, {10, 40}, {60, 200}, {24, 80}};
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        terminal_resize(terminal, sizes[i][0], sizes[i][1]);
        probe_expect_size(terminal, sizes[i][0], sizes[i][1]);
    }
    terminal_resize(terminal, 1, 1);
    terminal_settle(terminal);
    terminal_resize(terminal, 2, 2);
    terminal_type(terminal, "k");
    terminal_settle(terminal);
    terminal_resize(terminal, 24, 80);
    probe_expect_size(terminal, 24, 80);
    terminal_expect(terminal, "keys=1 ");
}

/* A key and a new size at the same moment, with nothing after them. */
static void test_key_with_resize(void **state)
{
    (void)state;
    struct terminal *terminal = probe_start("xterm-256color");
    for (int i = 1; i <= 40; i++) {
        char want[32];
        int rows = 24 + i % 7, columns = 80 + i;
        terminal_type(terminal, "5");
        terminal_resize(terminal, rows, columns);
        probe_expect_size(terminal, rows, columns);
        snprintf(want, sizeof want, "keys=%d ", i);
        terminal_expect(terminal, want);
    }
}

static void test_resize_storm_loses_no_key(void **state)
{
    (void)state;
    enum { TURNS = 50 };
    struct terminal *terminal = probe_start("xterm-256color");
    char keys[2 * TURNS];
    for (int i = 0; i < TURNS; i++) {
        keys[2 * i] = (char)('a' + i % 26);
        keys[2 * i + 1] = (char)('0' + i % 10);
        terminal_feed(terminal, &keys[2 * i], 1);
        terminal_resize(terminal, 20 + i % 9, 60 + i % 31);
        terminal_keypad(terminal, keys[2 * i + 1]); /* a sequence that a signal may split */
    }
    terminal_resize(terminal, 24, 80);
    probe_expect_size(terminal, 24, 80);
    char want[64];
    snprintf(want, sizeof want, "keys=%d hash=%08x", 2 * TURNS,
             (unsigned)hash_of(keys, sizeof keys));
    terminal_expect(terminal, want);
}

static void test_size_in_environment_is_ignored(void **state)
{
    (void)state;
    const char *const env[] = {"LINES=10", "COLUMNS=40", NULL};
    struct terminal *terminal = probe_start_with((struct terminal_setup){.env = env});
    probe_expect_size(terminal, 24, 80);
    terminal_expect(terminal, "resizes=0 "); /* right from the first frame */
    terminal_resize(terminal, 30, 100);
    probe_expect_size(terminal, 30, 100);
}

/* More than a frame can hold. */
static void test_extreme_sizes(void **state)
{
    (void)state;
    struct terminal *terminal = probe_start_with((struct terminal_setup){.rows = 600});
    probe_expect_size(terminal, 500, 80);
    terminal_expect(terminal, "resizes=0 ");
    terminal_resize(terminal, 24, 1100);
    probe_expect_size(terminal, 24, 1000);
    terminal_resize(terminal, 24, 80);
    probe_expect_size(terminal, 24, 80);
    terminal_expect(terminal, "resizes=2 ");
}

/* --- waiting --- */

static void test_wait_ends_in_time(void **state)
{
    (void)state;
    const char *const argv[] = {probe_path(), "100", NULL};
    double before = probe_now_s();
    struct terminal *terminal = probe_start_argv(argv, (struct terminal_setup){.rows = 24});
    terminal_expect(terminal, "ticks=3.");
    terminal_check(terminal, probe_now_s() - before >= 0.3);
    terminal_type(terminal, "k");
    terminal_expect(terminal, "keys=1 ");
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        PROBE_CASE(test_resize),
        PROBE_CASE(test_key_with_resize),
        PROBE_CASE(test_resize_storm_loses_no_key),
        PROBE_CASE(test_size_in_environment_is_ignored),
        PROBE_CASE(test_extreme_sizes),
        PROBE_CASE(test_wait_ends_in_time),
    };
    if (!probe_set_up(argc, argv)) {
        return 2;
    }
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
