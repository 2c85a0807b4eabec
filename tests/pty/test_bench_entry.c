/* SPDX-License-Identifier: MIT */

/* Entries at the bench: wrong ones, previews, marks, undo, navigation, overlays. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "bench_screen.h"

/* --- what is typed --- */

static void check_refused(struct bench *bench, const char *typed, const char *why)
{
    struct terminal *terminal = bench->terminal;

    terminal_type(terminal, typed);
    terminal_expect(terminal, why);
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".013"); /* no preview of nonsense */
    terminal_check(terminal, terminal_find(terminal, SEEN_PREVIEW, NULL) < 0);
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_expect_gone(terminal, why);
    terminal_expect(terminal, SEEN_PROMPT_RELIEF);
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".013");
}

static void test_wrong_entries(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);

    check_refused(bench, "7/0", SEEN_BAD_FRACTION);
    check_refused(bench, "1.2.3", SEEN_BAD_POINT);
    check_refused(bench, "999", SEEN_BAD_RANGE);
    check_refused(bench, "-1 in", SEEN_BAD_RANGE);
    check_refused(bench, "5 furlongs", "furlongs");
    bench_quit(terminal);
    bench_expect_line(bench, "relief = .013 in");
    bench_expect_no_line(bench, "[end]"); /* it was never written */
}

/* Enter on what is refused quotes it and says why; no digit is taken until it is emptied. */
static void test_wrong_entry_waits(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);

    bench_enter(terminal, "7/0");
    terminal_expect(terminal, "\"7/0\": ");
    terminal_expect(terminal, SEEN_BAD_FRACTION);
    terminal_type(terminal, "7");
    terminal_expect(terminal, "7/0 was not taken in relief");
    terminal_key(terminal, TERMINAL_BACKSPACE);
    bench_enter(terminal, "7");
    bench_expect_gap(terminal, 6);
    bench_quit(terminal);
    bench_expect_line(bench, "relief = 7 th");
}

static void test_preview(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);

    terminal_expect(terminal, SEEN_NEXT_MOVES);
    terminal_type(terminal, ".018");
    terminal_expect(terminal, SEEN_PREVIEW);
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".018");
    bench_expect_row(terminal, ROW_TITLED_ROD, "-.012");
    bench_expect_line(bench, "relief = .013 in"); /* nothing is kept before Enter */
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_expect(terminal, SEEN_NEXT_MOVES);
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".013");
    bench_expect_row(terminal, ROW_TITLED_ROD, "-.007");
    bench_quit(terminal);
    bench_expect_line(bench, "relief = .013 in");
}

static void test_unusual_is_held_and_marked(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);

    terminal_type(terminal, "60");
    terminal_expect(terminal, SEEN_ASKS_AGAIN);
    terminal_check(terminal, terminal_find(terminal, SEEN_PREVIEW, NULL) < 0);
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, SEEN_HELD_ENTRY);
    bench_expect_line(bench, "relief = .013 in");
    terminal_key(terminal, TERMINAL_ENTER);
    bench_expect_gap(terminal, 6);
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".060!");
    bench_quit(terminal);
    bench_expect_line(bench, "relief = 60 th");
    terminal = bench_start(bench);
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".060!");
    bench_quit(terminal);
}

/* More than a cell holds, and a screenful of digits: refused, not cut and taken. */
static void test_too_long(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);
    char keys[301];

    memset(keys, '1', 300);
    keys[300] = '\0';
    terminal_type(terminal, keys);
    terminal_expect(terminal, "full");
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, SEEN_PROMPT_RELIEF);
    terminal_key(terminal, TERMINAL_ESCAPE);
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".013");
    bench_quit(terminal);
    bench_expect_line(bench, "relief = .013 in");
}

/* --- what is pasted --- */

static void test_paste(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);

    terminal_key(terminal, TERMINAL_DOWN);
    bench_expect_gap(terminal, 6);
    terminal_type(terminal, "\033[200~31 29\r26\t240;22\033[201~");
    terminal_expect(terminal, "3 filed, ended at nut gap, string 3 by \"240\"");
    bench_expect_gap(terminal, 3);
    bench_quit(terminal);
    bench_expect_line(bench, "nut_gap.6 = 31 th");
    bench_expect_line(bench, "nut_gap.5 = 29 th");
    bench_expect_line(bench, "nut_gap.4 = 26 th");
    bench_expect_line(bench, "nut_gap.3 = .024 in");
    bench_expect_line(bench, "nut_gap.2 = .021 in");
}

/* Where the terminal marks no pastes: a column fills the route, what is held in it is not filed by
 * what follows, and a line with blanks goes into no cell. */
static void test_paste_without_marks(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);

    terminal_key(terminal, TERMINAL_DOWN);
    bench_expect_gap(terminal, 6);
    terminal_type(terminal, "31\r\n240\r\n26\r\n");
    terminal_expect(terminal, "Held: ");
    bench_expect_gap(terminal, 5); /* what came behind has not taken its place */
    terminal_key(terminal, TERMINAL_BACKSPACE);
    bench_enter(terminal, "26");
    bench_expect_gap(terminal, 4);
    terminal_type(terminal, "24 23 22\r");
    terminal_expect(terminal, "\"24 23 22\": ");
    bench_expect_gap(terminal, 4);
    terminal_key(terminal, TERMINAL_ESCAPE);
    bench_quit(terminal);
    bench_expect_line(bench, "nut_gap.6 = 31 th");
    bench_expect_line(bench, "nut_gap.5 = 26 th");
    bench_expect_line(bench, "nut_gap.4 = .025 in");
}

/* --- back and again --- */

static void test_undo_and_redo(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);

    bench_enter(terminal, ".020");
    bench_expect_gap(terminal, 6);
    bench_enter(terminal, "40");
    bench_expect_gap(terminal, 5);
    terminal_type(terminal, "u");
    terminal_expect(terminal, SEEN_TAKEN_BACK);
    bench_expect_gap(terminal, 6); /* it goes where the change was */
    bench_expect_row(terminal, ROW_TITLED_GAP, ".030");
    bench_pad(terminal, "*"); /* the same from the number pad */
    terminal_expect(terminal, "undo: relief");
    bench_pad(terminal, "1");
    terminal_expect(terminal, SEEN_PROMPT_RELIEF);
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".013");
    bench_expect_line(bench, "relief = .013 in");
    terminal_type(terminal, "u");
    terminal_expect(terminal, "Nothing to undo");
    terminal_type(terminal, "r");
    terminal_expect(terminal, SEEN_MADE_AGAIN);
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".020");
    bench_expect_row(terminal, ROW_TITLED_GAP, ".030");
    terminal_type(terminal, "r");
    bench_expect_row(terminal, ROW_TITLED_GAP, "40");
    bench_expect_line(bench, "nut_gap.6 = 40 th");
    terminal_type(terminal, "r");
    terminal_expect(terminal, "Nothing to redo");
    bench_quit(terminal);
    bench_expect_line(bench, "relief = .020 in");
}

static void test_clear(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);

    terminal_type(terminal, "*x");
    bench_expect_row(terminal, ROW_TITLED_RELIEF, "-");
    bench_expect_row(terminal, ROW_TITLED_ROD, "measure the relief");
    bench_expect_no_line(bench, "relief = .013 in");
    terminal_type(terminal, "u");
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".013");
    bench_expect_line(bench, "relief = .013 in");
    terminal_key(terminal, TERMINAL_DELETE);
    bench_expect_row(terminal, ROW_TITLED_ROD, "measure the relief");
    bench_quit(terminal);
    bench_expect_no_line(bench, "relief = .013 in");
}

/* --- getting about --- */

static void test_arrows(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);

    terminal_key(terminal, TERMINAL_DOWN);
    bench_expect_gap(terminal, 6);
    terminal_key(terminal, TERMINAL_RIGHT);
    bench_expect_gap(terminal, 5);
    terminal_key(terminal, TERMINAL_RIGHT);
    bench_expect_gap(terminal, 4);
    terminal_key(terminal, TERMINAL_LEFT);
    bench_expect_gap(terminal, 5);
    terminal_key(terminal, TERMINAL_DOWN);
    bench_expect_action(terminal, 5);
    terminal_key(terminal, TERMINAL_DOWN);
    terminal_expect(terminal, "exposure >");
    terminal_key(terminal, TERMINAL_UP);
    terminal_key(terminal, TERMINAL_UP);
    terminal_key(terminal, TERMINAL_UP);
    terminal_expect(terminal, SEEN_PROMPT_RELIEF);
    terminal_key(terminal, TERMINAL_UP); /* the edge */
    terminal_key(terminal, TERMINAL_END);
    terminal_expect(terminal, SEEN_PASS_END);
    terminal_key(terminal, TERMINAL_HOME);
    terminal_expect(terminal, SEEN_PROMPT_RELIEF);
    bench_quit(terminal);
}

/* The one cursor follows the cell in hand, and the entry while something is typed. */
static void test_cursor_is_in_the_cell(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);
    int row, column, at = -1;
    bool visible;

    terminal_key(terminal, TERMINAL_DOWN);
    bench_expect_gap(terminal, 6);
    terminal_settle(terminal);
    terminal_cursor(terminal, &row, &column, &visible);
    terminal_check(terminal, visible);
    terminal_check(terminal, row == bench_row(terminal, ROW_TITLED_GAP, 0));
    terminal_check(terminal, terminal_cell(terminal, row, column).reverse);
    terminal_type(terminal, "31");
    terminal_expect(terminal, "> 31");
    terminal_settle(terminal);
    terminal_cursor(terminal, &row, &column, &visible);
    terminal_check(terminal, visible && row == terminal_find(terminal, "> 31", &at));
    terminal_check(terminal, column == at + 4);
}

/* --- overlays --- */

static void test_overlays(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);

    terminal_type(terminal, "h");
    terminal_expect(terminal, SEEN_HELP);
    terminal_key(terminal, TERMINAL_DOWN);
    terminal_expect_gone(terminal, SEEN_HELP);
    for (int i = 0; i < 60; i++)
        terminal_key(terminal, TERMINAL_DOWN);
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_expect(terminal, SEEN_NEXT_MOVES);
    terminal_type(terminal, "?");
    terminal_expect(terminal, SEEN_WHY);
    terminal_expect(terminal, "0.330"); /* its own numbers: .013 in */
    terminal_type(terminal, "5");       /* closes it, and is no reading */
    terminal_expect(terminal, SEEN_NEXT_MOVES);
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".013");
    terminal_check(terminal, terminal_find(terminal, SEEN_PREVIEW, NULL) < 0);
    bench_quit(terminal);
}

/* Keys that mean nothing do nothing, and say so or stay silent. */
static void test_stray_keys(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);

    terminal_type(terminal, "zZ~\033[34~\033[1;5A\xC2\xB5\xFF\x80");
    terminal_type(terminal,
                  "\033[201~\033[200~\033[201~"); /* the end of a paste, and an empty one */
    terminal_settle(terminal);
    terminal_expect(terminal, SEEN_PROMPT_RELIEF);
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".013");
    bench_quit(terminal);
    bench_expect_line(bench, "relief = .013 in");
    bench_expect_no_line(bench, "[end]");
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        BENCH_CASE(test_wrong_entries),
        BENCH_CASE(test_wrong_entry_waits),
        BENCH_CASE(test_preview),
        BENCH_CASE(test_unusual_is_held_and_marked),
        BENCH_CASE(test_too_long),
        BENCH_CASE(test_paste),
        BENCH_CASE(test_paste_without_marks),
        BENCH_CASE(test_undo_and_redo),
        BENCH_CASE(test_clear),
        BENCH_CASE(test_arrows),
        BENCH_CASE(test_cursor_is_in_the_cell),
        BENCH_CASE(test_overlays),
        BENCH_CASE(test_stray_keys),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
