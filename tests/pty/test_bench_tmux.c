/* SPDX-License-Identifier: MIT */

/* The bench inside tmux: a second terminal implementation, so that a fault of the first does
 * not go unnoticed. Skipped if tmux is not installed. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <cmocka.h>

#include "bench_screen.h"

enum { SKIPPED = 77, SCREEN_BYTES = 65536, COMMAND_BYTES = 4096 };

/* A server of its own for each test, with the socket in the test's folder. */
static void tmux(const struct bench *bench, const char *arguments, char *out)
{
    char command[COMMAND_BYTES];
    size_t length = 0;

    snprintf(command, sizeof command, "TMUX_TMPDIR='%s' TMUX= HOME='%s' tmux -u -f /dev/null %s",
             bench->tree->folder, bench->home, arguments);
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    if (out) {
        length = fread(out, 1, SCREEN_BYTES - 1, pipe);
        out[length] = '\0';
    }
    pclose(pipe);
}

static double now_s(void)
{
    struct timespec now;

    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static char screen[SCREEN_BYTES];

static void expect(const struct bench *bench, const char *text)
{
    const double deadline = now_s() + TERMINAL_DEADLINE_MS / 1000.0;

    do
        tmux(bench, "capture-pane -p 2>/dev/null", screen);
    while (!strstr(screen, text) && now_s() < deadline);
    if (!strstr(screen, text))
        fail_msg("not in tmux: \"%s\"\n%s", text, screen);
}

static void keys(const struct bench *bench, const char *names)
{
    char arguments[200];

    snprintf(arguments, sizeof arguments, "send-keys %s", names);
    tmux(bench, arguments, NULL);
}

static void start(struct bench *bench, const char *lang)
{
    char arguments[COMMAND_BYTES / 2];

    snprintf(
        arguments, sizeof arguments,
        "new-session -d -x 80 -y 24 \"LANG=%s LC_ALL= '%s' '%s'; echo over with \\$?; read x\"",
        lang, bench_program(), bench->profile);
    bench_copy(bench, "worked-example.ini");
    tmux(bench, arguments, NULL);
}

static int close_tmux(void **state)
{
    tmux(*state, "kill-server 2>/dev/null", NULL);
    return bench_close(state);
}

static void test_a_reading(void **state)
{
    struct bench *bench = *state;

    start(bench, "C.UTF-8");
    expect(bench, SEEN_PROMPT_RELIEF);
    keys(bench, ". 0 1 4");
    expect(bench, "> .014");
    expect(bench, SEEN_PREVIEW);
    keys(bench, "Enter");
    expect(bench, "string 6 >");
    keys(bench, "KP3 KP1 KPEnter");
    expect(bench, "string 5 >");
    keys(bench, "Down");
    expect(bench, "string 5 at fret 12 >");
    expect(bench, SEEN_KEPT);
    tmux(bench, "resize-window -x 60 -y 20", NULL);
    expect(bench, SEEN_TOO_SMALL);
    tmux(bench, "resize-window -x 132 -y 43", NULL);
    expect(bench, "string 5 at fret 12 >");
    keys(bench, "q");
    expect(bench, "over with 0");
    assert_null(strstr(screen, SEEN_BENCH)); /* the screen before came back */
    bench_expect_line(bench, "relief = .014 in");
    bench_expect_line(bench, "nut_gap.6 = 31 th");
}

static void test_ascii(void **state)
{
    struct bench *bench = *state;

    start(bench, "C");
    expect(bench, SEEN_PROMPT_RELIEF);
    keys(bench, "h");
    expect(bench, SEEN_HELP);
    keys(bench, "Escape");
    expect(bench, SEEN_NEXT_MOVES);
    for (const char *at = screen; *at; at++)
        if ((unsigned char)*at >= 0x80)
            fail_msg("not ASCII:\n%s", screen);
    keys(bench, "q");
    expect(bench, "over with 0");
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_a_reading, bench_open, close_tmux),
        cmocka_unit_test_setup_teardown(test_ascii, bench_open, close_tmux),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    if (system("command -v tmux >/dev/null 2>&1") != 0) {
        fprintf(stderr, "!!! NOT TESTED: tmux is not installed\n");
        return SKIPPED;
    }
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
