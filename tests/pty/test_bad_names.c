/* SPDX-License-Identifier: MIT */

/* Names with control characters: in the profile, in the file's own name, in TERM. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <sys/wait.h>

#include <cmocka.h>

#include "bench_refusal.h"

/* ESC and a title, CSI in C1 as a byte and as UTF-8, a carriage return, a bell, a turn of
 * direction, DEL. */
static const char evil[] = "Evil\033]0;owned\007\033[31m\r\x9B"
                           "32m\xC2\x9B"
                           "33m\xE2\x80\xAE"
                           "live\177\xE2\x81\xA6";

static void expect_nothing_raw(const struct terminal *terminal)
{
    static const char *const parts[] = {"\033]0;",      "\23332m",      "\xC2\x9B",
                                        "\xE2\x80\xAE", "\xE2\x81\xA6", "\177"};

    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        if (bytes_hold(terminal_output(terminal), terminal_bytes(terminal), parts[i]))
            fail_msg("part %zu of the evil name reached the terminal", i);
}

/* The instrument's name and a note, raw in the file or percent-encoded as it is kept. */
static void write_evil_profile(const struct bench *bench, bool encoded)
{
    char text[4096];
    size_t length = (size_t)snprintf(text, sizeof text,
                                     "[profile]\nformat = 1\n[board]\nscale = 24.9 in\n"
                                     "strings = 6\nfrets = 19\njoin_fret = 12\n"
                                     "[instrument]\nname = ");

    for (const char *at = evil; *at; at++)
        length += (size_t)snprintf(text + length, sizeof text - length, encoded ? "%%%02X" : "%c",
                                   encoded ? (unsigned char)*at : *at);
    length += (size_t)snprintf(text + length, sizeof text - length,
                               "\n[targets]\nrelief = .006\033[41m in\n[visit.1]\nhumidity = "
                               "4\033[5m1\n[evil\033[7m]\n");
    tree_write(bench->profile, text, length);
}

static void check_evil_content(struct bench *bench, bool encoded)
{
    struct command command;

    write_evil_profile(bench, encoded);
    command_run(bench, "check", bench->profile, &command);
    const bool readable = command.code != CANNOT;
    command_done(&command);
    assert_true(readable || !encoded);
    check_survives(bench, bench->profile, true);
    if (!readable) {
        check_refused_session(bench, bench->profile, "sillet: ");
        return;
    }
    struct terminal *terminal = bench_start(bench);
    terminal_expect(terminal, "Evil");
    terminal_type(terminal, "?");
    terminal_settle(terminal);
    terminal_key(terminal, TERMINAL_ESCAPE);
    bench_enter(terminal, ".013");
    terminal_expect(terminal, SEEN_KEPT);
    bench_quit(terminal);
    expect_nothing_raw(terminal);
}

static void test_evil_content_encoded(void **state)
{
    check_evil_content(*state, true);
}

static void test_evil_content_raw(void **state)
{
    check_evil_content(*state, false);
}

/* The file's own name. */
static void test_evil_file_name(void **state)
{
    struct bench *bench = *state;

    snprintf(bench->profile, sizeof bench->profile, "%s/%s", bench->tree->folder, evil);
    check_refused(bench, bench->profile, "no such file");
    expect_nothing_raw(bench->terminal);
    bench_copy(bench, "worked-example.ini");
    check_survives(bench, bench->profile, false);
    struct terminal *terminal = bench_start(bench);
    char stranger[] = "; a stranger was here\n";
    FILE *file = fopen(bench->profile, "a"); /* so that the name is said: a conflict */

    assert_non_null(file);
    fputs(stranger, file);
    fclose(file);
    bench_enter(terminal, ".014");
    terminal_expect(terminal, SEEN_OTHER_CHANGE);
    bench_quit(terminal);
    expect_nothing_raw(terminal);
}

/* A long path is said in full, so that FILE:LINE leads an editor there. */
static void test_long_name(void **state)
{
    struct bench *bench = *state;
    struct command command;
    char place[500];

    snprintf(bench->profile, sizeof bench->profile,
             "%s/a name that is a good deal longer than what is shown of a text in a "
             "message, with an \xC3\xA4 in it.ini",
             bench->tree->folder);
    tree_write_text(bench->profile, "[profile]\nformat = 1\n[board]\nscale = 648\n");
    snprintf(place, sizeof place, "sillet: %s:4: ", bench->profile);
    command_run(bench, "check", bench->profile, &command);
    assert_int_equal(command.code, 1);
    assert_non_null(strstr(command.err, place));
    command_done(&command);
}

/* The environment speaks too. */
static void test_evil_terminal_name(void **state)
{
    struct bench *bench = *state;
    const char *const argv[] = {bench_program(), bench->profile, NULL};

    bench_copy(bench, "worked-example.ini");
    bench->terminal =
        terminal_start(&(struct terminal_setup){.argv = argv, .home = bench->home, .term = "dumb"});
    const int status = terminal_expect_end(bench->terminal);
    terminal_check(bench->terminal, WIFEXITED(status) && WEXITSTATUS(status) == CANNOT);
    terminal_expect(bench->terminal, "TERM");
    bench_expect_restored(bench->terminal);
    terminal_stop(bench->terminal);
    bench->terminal = NULL;
    bench->terminal = terminal_start(
        &(struct terminal_setup){.argv = argv, .home = bench->home, .term = "x\033]0;owned\007"});
    terminal_expect(bench->terminal, SEEN_BENCH); /* unknown: the usual one is tried */
    bench_quit(bench->terminal);
    expect_nothing_raw(bench->terminal);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        BENCH_CASE(test_evil_content_encoded), BENCH_CASE(test_evil_content_raw),
        BENCH_CASE(test_evil_file_name),       BENCH_CASE(test_long_name),
        BENCH_CASE(test_evil_terminal_name),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
