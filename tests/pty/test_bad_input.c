/* SPDX-License-Identifier: MIT */

/* Whatever may be given in place of a profile: refused in words, touched by nobody. */
#include <fcntl.h>
#include <setjmp.h>
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

#include "bench_command.h"
#include "bench_screen.h"
#include "seeded.h"

static const char *const words[] = {"figures", "check"};

enum { WORDS = sizeof words / sizeof words[0], FINDINGS = 1, CANNOT = 3 };

/* --- what must not change --- */

struct facts {
    mode_t mode;
    struct timespec changed;
    off_t size;
    char *bytes; /* of a regular file that is not huge */
    size_t length;
};

static void look(const char *path, struct facts *ret_facts)
{
    enum { SMALL = 1 << 20 };
    struct stat found;

    *ret_facts = (struct facts){.size = -1};
    if (lstat(path, &found) != 0)
        return;
    ret_facts->mode = found.st_mode;
    ret_facts->changed = found.st_mtim;
    ret_facts->size = found.st_size;
    if (S_ISREG(found.st_mode) && found.st_size < SMALL)
        ret_facts->bytes = tree_read(path, &ret_facts->length);
}

static void expect_untouched(const char *path, struct facts *before)
{
    struct facts now;

    look(path, &now);
    assert_int_equal(now.mode, before->mode);
    assert_int_equal(now.changed.tv_sec, before->changed.tv_sec);
    assert_int_equal(now.changed.tv_nsec, before->changed.tv_nsec);
    assert_int_equal(now.size, before->size);
    assert_int_equal(now.length, before->length);
    if (now.bytes)
        assert_memory_equal(now.bytes, before->bytes, now.length);
    free(now.bytes);
    free(before->bytes);
}

/* --- the three ways in --- */

static bool holds(const char *bytes, size_t length, const char *part)
{
    const size_t part_length = strlen(part);

    for (size_t i = 0; i + part_length <= length; i++)
        if (memcmp(bytes + i, part, part_length) == 0)
            return true;
    return false;
}

/* Refused: exit status 3, and one clear sentence that holds `why`. */
static void check_refused_command(const struct bench *bench, const char *word, const char *path,
                                  const char *why)
{
    struct command command;

    command_run(bench, word, path, &command);
    if (command.signalled || command.code != CANNOT || !strstr(command.err, why))
        fail_msg("sillet %s %s: %s %d, \"%s\"; want 3 and \"%s\"", word, path,
                 command.signalled ? "signal" : "exit", command.code, command.err, why);
    assert_int_equal(strncmp(command.err, "sillet: ", 8), 0);
    assert_int_equal(command.out_length, 0);
    assert_true(command_is_harmless(command.err, command.err_length));
    command_done(&command);
}

/* At the terminal: the sentence on the screen that was there, no other screen, exit 3. */
static void check_refused_session(struct bench *bench, const char *path, const char *why)
{
    const char *const argv[] = {bench_program(), path, NULL};

    terminal_stop(bench->terminal);
    bench->terminal = terminal_start(&(struct terminal_setup){
        .argv = argv, .home = bench->home, .columns = 240}); /* the sentence on one line */
    const int status = terminal_expect_end(bench->terminal);
    terminal_check(bench->terminal, WIFEXITED(status) && WEXITSTATUS(status) == CANNOT);
    terminal_expect(bench->terminal, why);
    bench_expect_restored(bench->terminal);
    terminal_check(bench->terminal, !holds(terminal_output(bench->terminal),
                                           terminal_bytes(bench->terminal), "\033"));
}

static void check_refused(struct bench *bench, const char *path, const char *why)
{
    struct facts before;

    look(path, &before);
    for (int i = 0; i < WORDS; i++)
        check_refused_command(bench, words[i], path, why);
    check_refused_session(bench, path, why);
    expect_untouched(path, &before);
    assert_int_equal(tree_count(bench->tree->folder, ".lock"), 0);
}

/* --- no file at all --- */

static void test_missing(void **state)
{
    struct bench *bench = *state;

    check_refused(bench, bench->profile, "no such file");
    check_refused(bench, tree_path(bench->tree, "no/such/folder.ini"), "no such file");
    check_refused(bench, "", "no such file");
}

static void test_folder(void **state)
{
    struct bench *bench = *state;

    check_refused(bench, bench->tree->folder, "not a regular file");
}

/* Nobody ever writes into it: opening it for reading would wait for ever. */
static void test_fifo(void **state)
{
    struct bench *bench = *state;

    assert_int_equal(mkfifo(bench->profile, 0600), 0);
    check_refused(bench, bench->profile, "not a regular file");
}

static void check_refused_device(struct bench *bench, const char *path)
{
    for (int i = 0; i < WORDS; i++)
        check_refused_command(bench, words[i], path, "not a regular file");
    check_refused_session(bench, path, "not a regular file");
}

static void test_devices(void **state)
{
    check_refused_device(*state, "/dev/null");
    check_refused_device(*state, "/dev/zero");
    check_refused_device(*state, "/dev/tty");
}

static void test_dangling_link(void **state)
{
    struct bench *bench = *state;

    assert_int_equal(symlink("nowhere.ini", bench->profile), 0);
    check_refused(bench, bench->profile, "no such file");
}

/* --- no text --- */

static void test_huge(void **state)
{
    struct bench *bench = *state;
    const int fd = open(bench->profile, O_WRONLY | O_CREAT, 0600);

    assert_true(fd >= 0);
    assert_int_equal(ftruncate(fd, 100 * 1024 * 1024), 0);
    close(fd);
    check_refused(bench, bench->profile, "larger than");
}

static void test_binary_junk(void **state)
{
    struct bench *bench = *state;
    struct seeded seeded = seeded_start("binary junk");
    char bytes[9000];

    for (size_t i = 0; i < sizeof bytes; i++)
        bytes[i] = (char)seeded_whole(&seeded, 0, 255);
    tree_write(bench->profile, bytes, sizeof bytes);
    check_refused(bench, bench->profile, "no text file");
}

static void test_other_text(void **state)
{
    struct bench *bench = *state;

    tree_write_text(bench->profile, "Dear shop,\n\nmy guitar buzzes.\n");
    check_refused(bench, bench->profile, "not understood");
}

/* One line without an end. */
static void test_endless_line(void **state)
{
    struct bench *bench = *state;
    char *bytes = malloc(500000);

    assert_non_null(bytes);
    memset(bytes, 'a', 500000);
    memcpy(bytes, "[instrument]\nname = ", 20);
    tree_write(bench->profile, bytes, 500000);
    free(bytes);
    check_refused(bench, bench->profile, "line");
}

/* --- half a profile --- */

/* Runs the commands on what may be read: no crash, nothing raw, the file untouched. */
static void check_survives(struct bench *bench, const char *path, bool findings_wanted)
{
    struct facts before;

    look(path, &before);
    for (int i = 0; i < WORDS; i++) {
        struct command command;

        command_run(bench, words[i], path, &command);
        if (command.signalled || command.code > CANNOT || command.code == 2)
            fail_msg("sillet %s: %s %d", words[i], command.signalled ? "signal" : "exit",
                     command.code);
        if (command.code != 0 || findings_wanted)
            assert_true(command.err_length > 0 || strcmp(words[i], "figures") == 0);
        assert_true(command_is_harmless(command.err, command.err_length));
        assert_true(command_is_harmless(command.out, command.out_length));
        command_done(&command);
    }
    expect_untouched(path, &before);
}

static void test_empty(void **state)
{
    struct bench *bench = *state;
    struct command command;

    tree_write_text(bench->profile, "");
    check_survives(bench, bench->profile, true);
    command_run(bench, "check", bench->profile, &command);
    assert_int_equal(command.code, FINDINGS);
    assert_non_null(strstr(command.err, "scale"));
    command_done(&command);
    bench_quit(bench_start(bench)); /* opens, asks for what is missing */
    tree_assert_text(bench->profile, "");
}

/* A profile as the program leaves it, with [end]. */
static char *kept_profile(struct bench *bench, size_t *ret_length)
{
    bench_copy(bench, "worked-example.ini");
    struct terminal *terminal = bench_start(bench);

    bench_enter(terminal, ".014");
    bench_expect_gap(terminal, 6);
    bench_quit(terminal);
    return tree_read(bench->profile, ret_length);
}

/* Cut anywhere it is not mistaken for whole. */
static void test_truncated(void **state)
{
    enum { STEP = 97 };
    struct bench *bench = *state;
    size_t length;
    char *whole = kept_profile(bench, &length);

    assert_non_null(whole);
    for (size_t cut = 1; cut < length; cut += STEP) {
        struct command command;

        tree_write(bench->profile, whole, cut);
        check_survives(bench, bench->profile, true);
        command_run(bench, "check", bench->profile, &command);
        if (!strstr(command.err, "[end]") && command.code != CANNOT)
            fail_msg("cut at %zu: taken as whole: %s", cut, command.err);
        command_done(&command);
    }
    free(whole);
}

/* Opened cut, looked at and left: still as cut. Written on: kept as found beside it. */
static void test_truncated_at_the_terminal(void **state)
{
    enum { STEP = 997 };
    struct bench *bench = *state;
    size_t length;
    char *whole = kept_profile(bench, &length);

    assert_non_null(whole);
    for (size_t cut = STEP; cut < length; cut += STEP) {
        tree_write(bench->profile, whole, cut);
        bench_quit(bench_start(bench));
        tree_assert_holds(bench->profile, whole, cut);
        struct terminal *terminal = bench_start(bench);
        bench_enter(terminal, ".014");
        terminal_expect(terminal, SEEN_KEPT);
        bench_quit(terminal);
        bench_expect_line(bench, "relief = .014 in");
        assert_int_equal(tree_count(bench->tree->folder, ".as-found"), 1 + cut / STEP);
    }
    free(whole);
}

/* --- what would steer a terminal --- */

/* ESC and a title, CSI in C1 as a byte and as UTF-8, a carriage return, a bell, a turn of
 * direction, DEL. */
static const char evil[] = "Evil\033]0;owned\007\033[31m\r\x9B"
                           "32m\xC2\x9B"
                           "33m\xE2\x80\xAE"
                           "live\177\xE2\x81\xA6";

static void expect_nothing_raw(const struct terminal *terminal)
{
    static const char *const parts[] = {"\033]0;", "\23332m", "\xC2\x9B", "\xE2\x80\xAE",
                                        "\xE2\x81\xA6", "\177"};

    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        if (holds(terminal_output(terminal), terminal_bytes(terminal), parts[i]))
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

/* Input or output that is no terminal. */
static void test_without_terminal(void **state)
{
    struct bench *bench = *state;
    struct command command;

    bench_copy(bench, "worked-example.ini");
    command_run(bench, NULL, bench->profile, &command);
    assert_false(command.signalled);
    assert_int_equal(command.code, CANNOT);
    assert_non_null(strstr(command.err, "needs a terminal"));
    assert_int_equal(command.out_length, 0);
    assert_int_equal(tree_count(bench->tree->folder, ".lock"), 0);
    command_done(&command);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        BENCH_CASE(test_missing),
        BENCH_CASE(test_folder),
        BENCH_CASE(test_fifo),
        BENCH_CASE(test_devices),
        BENCH_CASE(test_dangling_link),
        BENCH_CASE(test_huge),
        BENCH_CASE(test_binary_junk),
        BENCH_CASE(test_other_text),
        BENCH_CASE(test_endless_line),
        BENCH_CASE(test_empty),
        BENCH_CASE(test_truncated),
        BENCH_CASE(test_truncated_at_the_terminal),
        BENCH_CASE(test_evil_content_encoded),
        BENCH_CASE(test_evil_content_raw),
        BENCH_CASE(test_evil_file_name),
        BENCH_CASE(test_evil_terminal_name),
        BENCH_CASE(test_without_terminal),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
