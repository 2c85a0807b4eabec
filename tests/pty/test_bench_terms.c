/* SPDX-License-Identifier: MIT */

/* The bench on every kind of terminal, in UTF-8 and ASCII, in colour and without. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "bench_screen.h"
#include "terminal_keys.h"

static const char *const terms[] = {"xterm-256color", "tmux-256color", "linux", "vt100", "screen"};

enum { TERMS = sizeof terms / sizeof terms[0], ROWS = 24, COLUMNS = 80 };

static bool skips(const char *term)
{
    if (terminal_keys_known(term))
        return false;
    print_error("!!! NOT TESTED: this machine has no terminfo entry for TERM=%s\n", term);
    return true;
}

/* The cell in hand, where the cursor stands, differs from its neighbour by more than colour. */
static void expect_cell_stands_out(struct terminal *terminal)
{
    int row, column;
    bool visible;

    bench_expect_gap(terminal, 6);
    terminal_settle(terminal);
    terminal_cursor(terminal, &row, &column, &visible);
    terminal_check(terminal, visible && row == bench_row(terminal, ROW_TITLED_GAP, 0));
    const struct terminal_cell here = terminal_cell(terminal, row, column);
    const struct terminal_cell beside = terminal_cell(terminal, row, column + 7);
    terminal_check(terminal, here.reverse || here.underline);
    terminal_check(terminal, !beside.reverse && !beside.underline);
}

static bool any_colour(struct terminal *terminal)
{
    for (int row = 0; row < ROWS; row++)
        for (int column = 0; column < COLUMNS; column++) {
            const struct terminal_cell cell = terminal_cell(terminal, row, column);

            if (cell.foreground != -1 || cell.background != -1)
                return true;
        }
    return false;
}

static bool all_ascii(const struct terminal *terminal)
{
    const char *bytes = terminal_output(terminal);

    for (size_t i = 0; i < terminal_bytes(terminal); i++)
        if ((unsigned char)bytes[i] >= 0x80)
            return false;
    return true;
}

/* A replacement sign or a blank where a sign of ours should be would pass as ASCII too. */
static void expect_plain_signs(struct terminal *terminal)
{
    bench_expect_row(terminal, ROW_TITLED_ROD, "+-");
    terminal_check(terminal, terminal_find(terminal, "\xEF\xBF\xBD", NULL) < 0);
    terminal_check(terminal, terminal_find(terminal, "------", NULL) >= 0);
}

static void use_it(struct bench *bench)
{
    struct terminal *terminal = bench->terminal;

    bench_expect_row(terminal, ROW_TITLED_ACTION, "8.25");
    bench_expect_row(terminal, ROW_TITLED_SADDLE, "-.036");
    terminal_key(terminal, TERMINAL_DOWN);
    expect_cell_stands_out(terminal);
    bench_pad(terminal, "31\r");
    bench_expect_gap(terminal, 5);
    terminal_key(terminal, TERMINAL_BACKSPACE);
    bench_expect_gap(terminal, 6);
    bench_expect_row(terminal, ROW_TITLED_GAP, "31");
    terminal_type(terminal, "h");
    terminal_expect(terminal, SEEN_HELP);
    terminal_type(terminal, "h");
    terminal_type(terminal, "?");
    terminal_expect(terminal, SEEN_WHY);
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_expect(terminal, SEEN_NEXT_MOVES);
}

static void check_terminal(struct bench *bench, const char *term, const char *lang,
                           const char *const *env)
{
    bench_copy(bench, "worked-example.ini");
    bench_start_with(bench, (struct terminal_setup){.term = term, .lang = lang, .env = env});
    use_it(bench);
}

static void test_utf8(void **state)
{
    for (int i = 0; i < TERMS; i++) {
        struct bench *bench = *state;

        if (skips(terms[i]))
            continue;
        check_terminal(bench, terms[i], "C.UTF-8", NULL);
        terminal_check(bench->terminal, !all_ascii(bench->terminal)); /* the picture's dots */
        bench_expect_row(bench->terminal, ROW_TITLED_ROD, "\xC2\xB1");
        bench_quit(bench->terminal);
    }
}

static void test_ascii(void **state)
{
    for (int i = 0; i < TERMS; i++) {
        struct bench *bench = *state;

        if (skips(terms[i]))
            continue;
        check_terminal(bench, terms[i], "C", NULL);
        expect_plain_signs(bench->terminal);
        bench_quit(bench->terminal);
        terminal_check(bench->terminal, all_ascii(bench->terminal));
    }
}

static void test_colour(void **state)
{
    struct bench *bench = *state;

    check_terminal(bench, "xterm-256color", NULL, NULL);
    terminal_check(bench->terminal, any_colour(bench->terminal));
    bench_quit(bench->terminal);
}

static void test_no_color(void **state)
{
    static const char *const env[] = {"NO_COLOR=1", NULL};
    struct bench *bench = *state;

    for (int i = 0; i < TERMS; i++) {
        if (skips(terms[i]))
            continue;
        check_terminal(bench, terms[i], NULL, env);
        terminal_check(bench->terminal, !any_colour(bench->terminal));
        bench_quit(bench->terminal);
    }
}

/* A terminal that has none. */
static void test_mono(void **state)
{
    struct bench *bench = *state;

    if (skips("vt100"))
        skip();
    check_terminal(bench, "vt100", NULL, NULL);
    terminal_check(bench->terminal, !any_colour(bench->terminal));
    bench_quit(bench->terminal);
}

/* A message that warns is told from its surroundings without colour. */
static void test_warning_in_mono(void **state)
{
    static const char *const env[] = {"NO_COLOR=1", NULL};
    struct bench *bench = *state;
    int column;

    check_terminal(bench, "xterm-256color", NULL, env);
    terminal_key(bench->terminal, TERMINAL_HOME);
    terminal_type(bench->terminal, "<");
    terminal_expect(bench->terminal, "no earlier pass");
    const int row = terminal_find(bench->terminal, "no earlier pass", &column);
    const struct terminal_cell cell = terminal_cell(bench->terminal, row, column);
    terminal_check(bench->terminal, cell.reverse || cell.bold || cell.underline);
    bench_quit(bench->terminal);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        BENCH_CASE(test_utf8),     BENCH_CASE(test_ascii), BENCH_CASE(test_colour),
        BENCH_CASE(test_no_color), BENCH_CASE(test_mono),  BENCH_CASE(test_warning_in_mono),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
