/* SPDX-License-Identifier: MIT */

/* When a profile is opened, everything odd about it is reported, one message after the other. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "bench_screen.h"

#define SEEN_VERSION "Another version lies beside it"

/* Any file beside the profile. */
static void put_beside(const struct bench *bench, const char *suffix)
{
    char path[500];

    snprintf(path, sizeof path, "%s%s", bench->profile, suffix);
    tree_write_text(path, "[profile]\nformat = 1\n");
}

static void expect_next(struct terminal *terminal, const char *words)
{
    terminal_key(terminal, TERMINAL_DOWN);
    terminal_expect(terminal, words);
}

/* The last line of a text that was saved: as an edit by hand leaves it. */
static void edit_by_hand(const struct bench *bench)
{
    size_t length;
    char *bytes = tree_read(bench->profile, &length);
    char *whole = malloc(length + 100);

    assert_non_null(bytes);
    assert_non_null(whole);
    snprintf(whole, length + 100, "# by hand\n%s\n[end]\nlines = 1\nsum = 00000000\n", bytes);
    tree_write_text(bench->profile, whole);
    free(whole);
    free(bytes);
}

static void test_each_is_said(void **state)
{
    struct bench *bench = *state;

    bench_copy(bench, "worked-example.ini");
    edit_by_hand(bench);
    put_beside(bench, ".conflict");
    tree_write_text(tree_path(bench->tree, ".generations"), "in the way");
    struct terminal *terminal = bench_start(bench);
    terminal_expect(terminal, SEEN_VERSION "; on the shelf, * then e shows both.");
    expect_next(terminal, "Changed by hand or damaged");
    expect_next(terminal, "none is kept of what you change.");
    terminal_key(terminal, TERMINAL_DOWN);
    terminal_expect_gone(terminal, "none is kept of what you change.");
    bench_quit(terminal);
}

/* What is said in its turn does not stand in the way of an entry. */
static void test_none_hides_an_entry(void **state)
{
    struct bench *bench = *state;

    bench_copy(bench, "worked-example.ini");
    put_beside(bench, ".conflict");
    tree_write_text(tree_path(bench->tree, ".generations"), "in the way");
    struct terminal *terminal = bench_start(bench);
    terminal_expect(terminal, SEEN_VERSION);
    terminal_type(terminal, ".012");
    terminal_expect(terminal, "> .012");
    terminal_check(terminal, terminal_find(terminal, "none is kept", NULL) < 0);
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_expect(terminal, "none is kept of what you change.");
    bench_quit(terminal);
}

static void test_a_reader_is_told_of_versions(void **state)
{
    struct bench *bench = *state;

    bench_copy(bench, "worked-example.ini");
    put_beside(bench, ".conflict");
    terminal_expect(bench_start(bench), SEEN_VERSION);
    struct terminal *other = bench_start_other(bench);
    terminal_expect(other, SEEN_IN_USE);
    expect_next(other, SEEN_VERSION);
}

/* No shelf lists it, so none is named. */
static void test_a_file_that_no_shelf_lists(void **state)
{
    struct bench *bench = *state;

    snprintf(bench->profile, sizeof bench->profile, "%s/guitar.txt", bench->tree->folder);
    bench_copy(bench, "worked-example.ini");
    put_beside(bench, ".conflict");
    struct terminal *terminal = bench_start(bench);
    terminal_expect(terminal, SEEN_VERSION ": guitar.txt.conflict");
    bench_quit(terminal);
}

/* It can be read, but no file would hold one reading more. */
static void test_a_file_that_is_full(void **state)
{
    enum { LINES = 460000 };
    struct bench *bench = *state;
    size_t length;

    bench_copy(bench, "worked-example.ini");
    char *bytes = tree_read(bench->profile, &length);
    char *whole = malloc(length + 2 * LINES);
    assert_non_null(bytes);
    assert_non_null(whole);
    memcpy(whole, bytes, length);
    for (size_t i = 0; i < LINES; i++)
        memcpy(whole + length + 2 * i, "#\n", 2);
    tree_write(bench->profile, whole, length + 2 * LINES);
    free(whole);
    free(bytes);
    struct terminal *terminal = bench_start(bench);
    terminal_expect(terminal, "no file can hold more; go on in a copy (shelf: * f)");
    bench_quit(terminal);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        BENCH_CASE(test_each_is_said),
        BENCH_CASE(test_none_hides_an_entry),
        BENCH_CASE(test_a_reader_is_told_of_versions),
        BENCH_CASE(test_a_file_that_no_shelf_lists),
        BENCH_CASE(test_a_file_that_is_full),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
