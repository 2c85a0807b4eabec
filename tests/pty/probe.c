/* SPDX-License-Identifier: MIT */
#include "probe.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

#include <cmocka.h>

#include "terminal_keys.h"

const char *const probe_terms[PROBE_TERMS] = {"xterm-256color", "xterm", "tmux-256color", "screen",
                                              "linux",          "vt100", "rxvt-unicode"};

static struct {
    const char *path;
    struct terminal *terminal;
} running;

const char *probe_path(void)
{
    return running.path;
}

bool probe_set_up(int argc, char **argv)
{
    if (argc < 2) {
        fprintf(stderr, "usage: %s PATH_OF_TERM_PROBE\n", argv[0]);
        return false;
    }
    running.path = argv[1];
    return true;
}

int probe_tear_down(void **state)
{
    (void)state;
    terminal_stop(running.terminal);
    running.terminal = NULL;
    return 0;
}

struct terminal *probe_start_argv(const char *const *argv, struct terminal_setup setup)
{
    terminal_stop(running.terminal);
    setup.argv = argv;
    running.terminal = terminal_start(&setup);
    return running.terminal;
}

struct terminal *probe_start_with(struct terminal_setup setup)
{
    const char *const argv[] = {running.path, NULL};
    return probe_start_argv(argv, setup);
}

struct terminal *probe_start(const char *term)
{
    struct terminal *terminal = probe_start_with((struct terminal_setup){.term = term});
    terminal_expect(terminal, "keys=0 ");
    return terminal;
}

bool probe_skips(const char *term)
{
    if (terminal_keys_known(term)) {
        return false;
    }
    print_error("!!! NOT TESTED: this machine has no terminfo entry for TERM=%s\n", term);
    return true;
}

void probe_expect_row(struct terminal *terminal, int row, const char *want)
{
    if (strcmp(terminal_row(terminal, row), want) != 0) {
        print_error("row %d is \"%s\", want \"%s\"\n", row, terminal_row(terminal, row), want);
        terminal_fail_at(terminal, "another row was expected", __FILE__, __LINE__);
    }
}

void probe_expect_log(struct terminal *terminal, const char *want)
{
    terminal_expect(terminal, want);
    probe_expect_row(terminal, 2, want);
    terminal_type(terminal, CTRL('x'));
    terminal_expect_gone(terminal, want);
}

void probe_expect_size(struct terminal *terminal, int rows, int columns)
{
    char want[32];
    snprintf(want, sizeof want, "%dx%d ", rows, columns);
    terminal_expect(terminal, want);
}

/* Whether what is pasted is still marked: by the last of the two sequences that say so. */
static bool marks_pastes(const struct terminal *terminal)
{
    bool on = false;

    for (const char *at = terminal_output(terminal); (at = strstr(at, "\033[?2004")); at += 8)
        on = at[8] == 'h';
    return on;
}

void probe_expect_restored(struct terminal *terminal)
{
    int row, column;
    bool visible;
    terminal_cursor(terminal, &row, &column, &visible);
    terminal_check(terminal, visible);
    terminal_check(terminal, !terminal_on_alternate_screen(terminal));
    terminal_check(terminal, terminal_modes_restored(terminal));
    terminal_check(terminal, !marks_pastes(terminal));
}

double probe_now_s(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}
