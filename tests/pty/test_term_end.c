/* SPDX-License-Identifier: MIT */

/* Restoring the terminal on every way out, and refusing to take it over. */
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <sys/wait.h>

#include <cmocka.h>

#include "probe.h"

/* --- the end --- */

static void test_leaves_the_terminal_as_it_was(void **state)
{
    (void)state;
    for (int i = 0; i < PROBE_TERMS; i++) {
        if (probe_skips(probe_terms[i])) {
            continue;
        }
        struct terminal *terminal = probe_start(probe_terms[i]);
        terminal_check(terminal, !terminal_modes_restored(terminal));
        terminal_type(terminal, CTRL('q'));
        int status = terminal_expect_end(terminal);
        terminal_check(terminal, WIFEXITED(status) && WEXITSTATUS(status) == 0);
        probe_expect_restored(terminal);
    }
}

static void test_signals_that_end(void **state)
{
    (void)state;
    const int numbers[] = {SIGHUP,  SIGTERM, SIGINT,  SIGQUIT, SIGUSR1,   SIGUSR2,  SIGALRM,
                           SIGPIPE, SIGPROF, SIGXCPU, SIGPOLL, SIGVTALRM, SIGRTMIN, SIGRTMAX};
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        char want[40];
        struct terminal *terminal = probe_start("xterm-256color");
        terminal_check(terminal, terminal_on_alternate_screen(terminal));
        terminal_signal(terminal, numbers[i]);
        int status = terminal_expect_end(terminal);
        terminal_check(terminal, WIFEXITED(status) && WEXITSTATUS(status) == 5);
        probe_expect_restored(terminal);
        snprintf(want, sizeof want, "ended, signal %d", numbers[i]);
        terminal_expect(terminal, want);
    }
}

/* A sanitizer would report the crash, on the terminal just given back, and exit. */
static const char *const bare_crash[] = {
    "ASAN_OPTIONS=handle_segv=0:handle_abort=0:handle_sigbus=0:handle_sigfpe=0:handle_sigill=0",
    NULL};

static void check_crash(const char *term, const char *command, int number)
{
    struct terminal *terminal =
        probe_start_with((struct terminal_setup){.term = term, .env = bare_crash});
    terminal_expect(terminal, "keys=0 ");
    terminal_type(terminal, command);
    int status = terminal_expect_end(terminal);
    terminal_check(terminal, WIFSIGNALED(status) && WTERMSIG(status) == number);
    probe_expect_restored(terminal);
}

static void test_crashes(void **state)
{
    (void)state;
    check_crash("xterm-256color", CTRL('a'), SIGABRT);
    check_crash("xterm-256color", CTRL('d'), SIGSEGV);
    check_crash("xterm-256color", CTRL('o'), SIGSEGV); /* out of stack */
    check_crash("linux", CTRL('d'), SIGSEGV);
    check_crash("vt100", CTRL('a'), SIGABRT);
}

static void test_crash_signals_from_outside(void **state)
{
    (void)state;
    static const int numbers[] = {SIGBUS, SIGFPE, SIGILL, SIGSYS, SIGTRAP};
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        struct terminal *terminal = probe_start_with((struct terminal_setup){.env = bare_crash});
        terminal_expect(terminal, "keys=0 ");
        terminal_signal(terminal, numbers[i]);
        int status = terminal_expect_end(terminal);
        terminal_check(terminal, WIFSIGNALED(status) && WTERMSIG(status) == numbers[i]);
        probe_expect_restored(terminal);
    }
}

static void read_end(const struct terminal *terminal, char *out, size_t size)
{
    char path[512];
    snprintf(path, sizeof path, "%s/end", terminal_home(terminal));
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    out[fread(out, 1, size - 1, file)] = '\0';
    fclose(file);
}

static void check_terminal_closed(bool ignore_hangup, const char *want)
{
    struct terminal *terminal =
        probe_start_with((struct terminal_setup){.ignore_hangup = ignore_hangup});
    char text[64];
    int status = 0;
    terminal_expect(terminal, "keys=0 ");
    terminal_hang_up(terminal);
    assert_true(terminal_ended(terminal, TERMINAL_DEADLINE_MS, &status));
    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), 5);
    read_end(terminal, text, sizeof text);
    assert_string_equal(text, want);
}

static void test_terminal_closed(void **state)
{
    (void)state;
    check_terminal_closed(false, "signal 1\n");
    check_terminal_closed(true, "signal 0\n");
}

static void test_suspend(void **state)
{
    (void)state;
    struct terminal *terminal = probe_start("xterm-256color");
    /* Nobody could continue it here (an orphaned group), so it comes straight back. */
    terminal_type(terminal, CTRL('z'));
    terminal_expect(terminal, "resumes=1.");
    terminal_signal(terminal, SIGTSTP);
    terminal_expect(terminal, "resumes=2.");
    terminal_check(terminal, terminal_on_alternate_screen(terminal));
    terminal_check(terminal, !terminal_modes_restored(terminal));
    terminal_type(terminal, "k");
    terminal_expect(terminal, "keys=1 ");
}

/* Stopped from outside; what is on the screen and the modes are somebody else's then. */
static void test_stopped_and_continued(void **state)
{
    (void)state;
    struct terminal *terminal = probe_start("xterm-256color");
    int status = 0;
    terminal_signal(terminal, SIGSTOP);
    assert_int_equal(waitpid(terminal_pid(terminal), &status, WUNTRACED), terminal_pid(terminal));
    assert_true(WIFSTOPPED(status));
    terminal_restore_modes(terminal);
    terminal_resize(terminal, 30, 90);
    terminal_type(terminal, "k\n"); /* the line is cooked now */
    terminal_signal(terminal, SIGCONT);
    probe_expect_size(terminal, 30, 90);
    terminal_expect(terminal, "resizes=1 resumes=1.");
    terminal_expect(terminal, "keys=2 ");
    terminal_check(terminal, !terminal_modes_restored(terminal));
}

/* Ctrl-Z as it is used: a shell with job control, which gets a usable terminal. */
static void test_suspend_under_a_shell(void **state)
{
    (void)state;
    char script[1024];
    snprintf(script, sizeof script, "'%s'; echo stopped; read x; fg >/dev/null; echo over",
             probe_path());
    const char *const argv[] = {"/bin/sh", "-m", "-c", script, NULL};
    struct terminal *terminal = probe_start_argv(argv, (struct terminal_setup){.rows = 24});
    terminal_expect(terminal, "keys=0 ");
    terminal_type(terminal, CTRL('z'));
    terminal_expect(terminal, "stopped");
    probe_expect_restored(terminal);
    terminal_resize(terminal, 30, 100);
    terminal_type(terminal, "\n");
    terminal_expect(terminal, "resizes=1 resumes=1.");
    probe_expect_size(terminal, 30, 100);
    terminal_check(terminal, terminal_on_alternate_screen(terminal));
    terminal_type(terminal, "k");
    terminal_expect(terminal, "keys=1 ");
    terminal_type(terminal, CTRL('q'));
    terminal_expect(terminal, "over");
    terminal_expect_end(terminal);
    probe_expect_restored(terminal);
}

/* --- refusals --- */

static void expect_refusal(struct terminal_setup setup, const char *want)
{
    struct terminal *terminal = probe_start_with(setup);
    int status = terminal_expect_end(terminal);
    terminal_expect(terminal, want);
    terminal_check(terminal, WIFEXITED(status) && WEXITSTATUS(status) == 3);
    terminal_check(terminal, terminal_modes_restored(terminal));
    terminal_check(terminal, !terminal_on_alternate_screen(terminal));
}

static void test_terminals_refused(void **state)
{
    (void)state;
    expect_refusal((struct terminal_setup){.term = "dumb"}, "terminal type \"dumb\" (TERM)");
}

static void test_unknown_terminals_get_the_usual_one(void **state)
{
    (void)state;
    static const char *const names[] = {"", "-", "unknown", "no-such-terminal", "../../x"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        struct terminal *terminal = probe_start_with((struct terminal_setup){.term = names[i]});
        terminal_expect(terminal, "24x80 utf8 colours=256");
        terminal_keypad(terminal, '+');
        probe_expect_log(terminal, "+");
    }
}

/* Runs the probe behind a shell that redirects; gives its exit status and first line. */
static int run_redirected(const char *redirection, char *out, size_t size)
{
    char command[1024];
    snprintf(command, sizeof command, "TERM=xterm '%s' 2>&1 %s", probe_path(), redirection);
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    if (fgets(out, (int)size, pipe) == NULL) {
        out[0] = '\0';
    }
    return WEXITSTATUS(pclose(pipe));
}

static void test_no_terminal(void **state)
{
    (void)state;
    char line[200];
    assert_int_equal(run_redirected("</dev/null", line, sizeof line), 3);
    assert_non_null(strstr(line, "needs a terminal"));
    assert_null(strchr(line, '\033'));
    assert_int_equal(run_redirected("<&- >&-", line, sizeof line), 3);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        PROBE_CASE(test_leaves_the_terminal_as_it_was),
        PROBE_CASE(test_signals_that_end),
        PROBE_CASE(test_crashes),
        PROBE_CASE(test_crash_signals_from_outside),
        PROBE_CASE(test_terminal_closed),
        PROBE_CASE(test_suspend),
        PROBE_CASE(test_stopped_and_continued),
        PROBE_CASE(test_suspend_under_a_shell),
        PROBE_CASE(test_terminals_refused),
        PROBE_CASE(test_unknown_terminals_get_the_usual_one),
        PROBE_CASE(test_no_terminal),
    };
    if (!probe_set_up(argc, argv)) {
        return 2;
    }
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
