/* SPDX-License-Identifier: MIT */

/* The customer's sheet, written from the real program. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "bench_screen.h"

#define SEEN_SHEET    "The sheet is in sheets/"
#define SEEN_NO_SHEET "No sheet: "

/* The folder beside the profile. */
static void find_folder(const struct bench *bench, char *out, size_t size)
{
    const char *slash = strrchr(bench->profile, '/');

    assert_non_null(slash);
    snprintf(out, size, "%.*s/sheets", (int)(slash - bench->profile), bench->profile);
}

static void test_sheet_lies_beside_the_profile(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);
    char folder[512];

    find_folder(bench, folder, sizeof folder);
    terminal_type(terminal, "c");
    terminal_expect(terminal, SEEN_SHEET);
    assert_int_equal(tree_count(folder, ""), 1);
    assert_int_equal(tree_count(folder, "bench-2026-03-02."), 1);
    /* Once more takes its place. */
    terminal_type(terminal, "*h");
    terminal_expect(terminal, SEEN_HELP);
    terminal_type(terminal, "h*c");
    terminal_expect(terminal, SEEN_SHEET);
    assert_int_equal(tree_count(folder, ""), 1);
    bench_quit(terminal);
}

/* The other papers lie beside it, under names of their own; a label needs cairo. */
static void test_other_papers_come_from_their_leaves(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);
    char folder[512];

    find_folder(bench, folder, sizeof folder);
    terminal_type(terminal, "*07*6");
    terminal_expect(terminal, "The card is in sheets/");
    terminal_type(terminal, "*01*6");
    terminal_expect(terminal, "The estimate is in sheets/");
    assert_int_equal(tree_count(folder, "bench-2026-03-02-card."), 1);
    assert_int_equal(tree_count(folder, "bench-2026-03-02-estimate."), 1);
    terminal_type(terminal, "*07*9");
    terminal_expect(terminal, " label");
    assert_int_equal(tree_count(folder, "label.txt"), 0);
    terminal_type(terminal, "*02");
    bench_quit(terminal);
}

/* On the number pad: * 7 on Intake asks for the prices, and the estimate has them. A file that
 * cannot be written is said. */
static void test_prices_are_typed_at_the_bench(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);
    char path[400];
    size_t length;

    snprintf(path, sizeof path, "%s/.config/sillet/shop.ini", bench->home);
    terminal_type(terminal, "*01*7");
    terminal_expect(terminal, "price: reset >");
    terminal_type(terminal, "\r25\r");
    terminal_expect(terminal, "reset ?, rod 25, frets ?");
    char *file = tree_read(path, &length);
    assert_non_null(strstr(file, "\nrod = 25\n"));
    free(file);
    assert_int_equal(unlink(path), 0);
    assert_int_equal(mkdir(path, 0700), 0);
    terminal_type(terminal, "180\r");
    terminal_expect(terminal, "The price stays as it was; shop.ini: ");
    terminal_type(terminal, "\033");
    terminal_expect_gone(terminal, "price: ");
    terminal_type(terminal, "*02");
    bench_quit(terminal);
}

/* As a file from another machine may hold it, in another character set. */
static void test_sheet_of_a_name_that_is_no_utf8(void **state)
{
    struct bench *bench = *state;
    char folder[512];
    size_t length;

    bench_copy(bench, "worked-example.ini");
    char *bytes = tree_read(bench->profile, &length);
    char *name = strstr(bytes, "\nname = ");
    assert_non_null(name);
    name[8] = '\xE9';
    tree_write(bench->profile, bytes, length);
    free(bytes);
    struct terminal *terminal = bench_start(bench);
    find_folder(bench, folder, sizeof folder);
    terminal_type(terminal, "c");
    terminal_expect(terminal, SEEN_SHEET);
    assert_int_equal(tree_count(folder, "bench-2026-03-02."), 1);
    bench_quit(terminal);
}

/* Nothing of the visit is on file yet: that is said, and no file is made. */
static void test_no_sheet_of_nothing(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);
    char folder[512];

    find_folder(bench, folder, sizeof folder);
    terminal_type(terminal, "v");
    terminal_expect(terminal, "visit 2");
    terminal_type(terminal, "*c");
    terminal_expect(terminal, SEEN_NO_SHEET "nothing of this visit");
    bench_quit(terminal);
    assert_int_not_equal(access(folder, F_OK), 0);
}

/* A file has the folder's name: the session goes on, and what is there stays. */
static void test_sheet_that_cannot_be_written(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);
    char folder[512];

    find_folder(bench, folder, sizeof folder);
    tree_write_text(folder, "not a folder");
    terminal_type(terminal, "c");
    terminal_expect(terminal, SEEN_NO_SHEET);
    bench_enter(terminal, ".011");
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".011");
    bench_quit(terminal);
    tree_assert_text(folder, "not a folder");
    bench_expect_line(bench, "relief = .011 in");
}

/* A received folder may hold anything by the sheet's name: nothing is written through it. */
static void test_sheet_goes_through_no_link(void **state)
{
    enum { LINK, HARD_LINK, NOWHERE, PROFILE, WAYS };
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);
    char folder[512], path[600], victim[600];

    find_folder(bench, folder, sizeof folder);
    terminal_type(terminal, "c");
    terminal_expect(terminal, SEEN_SHEET);
    const bool drawn = tree_count(folder, ".pdf") == 1;
    snprintf(path, sizeof path, "%s/bench-2026-03-02.%s", folder, drawn ? "pdf" : "txt");
    snprintf(victim, sizeof victim, "%s/../victim.ini", folder);
    for (int way = 0; way < WAYS; way++) {
        assert_int_equal(unlink(path), 0);
        tree_write_text(victim, "[profile]\n");
        if (way == LINK)
            assert_int_equal(symlink("../victim.ini", path), 0);
        else if (way == HARD_LINK)
            assert_int_equal(link(victim, path), 0);
        else if (way == NOWHERE)
            assert_int_equal(symlink("../made", path), 0);
        else
            tree_write_text(path, "[profile]\n");
        terminal_type(terminal, "*h");
        terminal_expect(terminal, SEEN_HELP);
        terminal_type(terminal, "h*c");
        terminal_expect(terminal, SEEN_NO_SHEET "sheets/bench-2026-03-02.");
        terminal_expect(terminal, "move it away");
        tree_assert_text(victim, "[profile]\n");
        if (way == PROFILE)
            tree_assert_text(path, "[profile]\n");
        assert_int_equal(tree_count(folder, ""), 1);
    }
    snprintf(victim, sizeof victim, "%s/../made", folder);
    assert_int_not_equal(access(victim, F_OK), 0);
    bench_quit(terminal);
}

/* A document of the tech's own, whatever made it, is no sheet. */
static void test_sheet_replaces_no_other_document(void **state)
{
    static const char own[] = "%PDF-1.4\n% drawn by hand\n%%EOF\n";
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);
    char folder[512], path[600];

    find_folder(bench, folder, sizeof folder);
    terminal_type(terminal, "c");
    terminal_expect(terminal, SEEN_SHEET);
    const bool drawn = tree_count(folder, ".pdf") == 1;
    snprintf(path, sizeof path, "%s/bench-2026-03-02.%s", folder, drawn ? "pdf" : "txt");
    tree_write_text(path, own);
    terminal_type(terminal, "*h");
    terminal_expect(terminal, SEEN_HELP);
    terminal_type(terminal, "h*c");
    terminal_expect(terminal, SEEN_NO_SHEET "sheets/bench-2026-03-02.");
    tree_assert_text(path, own);
    bench_quit(terminal);
}

/* And a sheets/ that leads elsewhere has nothing put there. */
static void test_sheets_is_a_folder_here(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);
    char folder[512];

    find_folder(bench, folder, sizeof folder);
    assert_int_equal(symlink(".", folder), 0);
    terminal_type(terminal, "c");
    terminal_expect(terminal, SEEN_NO_SHEET "sheets is not a folder here");
    bench_quit(terminal);
    assert_int_equal(tree_count(folder, "bench-2026-03-02"), 0);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        BENCH_CASE(test_sheet_lies_beside_the_profile),
        BENCH_CASE(test_other_papers_come_from_their_leaves),
        BENCH_CASE(test_prices_are_typed_at_the_bench),
        BENCH_CASE(test_sheet_of_a_name_that_is_no_utf8),
        BENCH_CASE(test_no_sheet_of_nothing),
        BENCH_CASE(test_sheet_that_cannot_be_written),
        BENCH_CASE(test_sheet_goes_through_no_link),
        BENCH_CASE(test_sheet_replaces_no_other_document),
        BENCH_CASE(test_sheets_is_a_folder_here),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
