/* SPDX-License-Identifier: MIT */

/* Anything that may be given in place of a profile is refused with a message and left untouched. */
#include <fcntl.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>

#include "bench_refusal.h"
#include "seeded.h"

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
    check_refused_commands(bench, path, "not a regular file");
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
    check_refused(bench, bench->profile, "leads nowhere");
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

/* --- the shop's own settings --- */

static void write_shop(const struct bench *bench, const char *text)
{
    char path[360];

    snprintf(path, sizeof path, "%s/.config", bench->home);
    (void)mkdir(path, 0700);
    snprintf(path, sizeof path, "%s/.config/sillet", bench->home);
    (void)mkdir(path, 0700);
    snprintf(path, sizeof path, "%s/.config/sillet/shop.ini", bench->home);
    tree_write_text(path, text);
}

static void test_shop_settings(void **state)
{
    struct bench *bench = *state;
    struct command command;

    bench_copy(bench, "worked-example.ini");
    write_shop(bench, "[shop]\nunits = inch\nfeeler = thou\ncolour = blue\n");
    command_run(bench, "check", bench->profile, &command);
    assert_int_equal(command.code, 1);
    assert_non_null(strstr(command.err, "/sillet/shop.ini:3: feeler \"thou\" is not understood; "
                                        "one of th, 100ths, mm is accepted\n"));
    assert_non_null(strstr(command.err, "/sillet/shop.ini:4: note: colour in [shop]"));
    command_done(&command);
    struct terminal *terminal = bench_start(bench);
    terminal_expect(terminal, "shop.ini:3: feeler \"thou\" is not understood");
    bench_quit(terminal);
    write_shop(bench, "[shop]\nunits = inch\n");
    command_run(bench, "check", bench->profile, &command);
    assert_null(strstr(command.err, "shop.ini"));
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
        BENCH_CASE(test_without_terminal),
        BENCH_CASE(test_shop_settings),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
