/* SPDX-License-Identifier: MIT */

/* Passes and visits at the bench, and what can be switched: nut method, units. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "bench_screen.h"

/* --- passes and visits --- */

static void test_next_pass_expects(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);

    terminal_type(terminal, "p");
    terminal_expect(terminal, "pass 2");
    /* What a turn of the rod does is not known. */
    terminal_expect_gone(terminal, "(.006)");
    /* The worked example: action after the rod, in 64ths. */
    bench_expect_row(terminal, ROW_TITLED_ACTION, "(7.3)");
    bench_expect_row(terminal, ROW_TITLED_ACTION, "(5.1)");
    bench_enter(terminal, ".007");
    bench_expect_gap(terminal, 6); /* the rod's turns lie off the way */
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".007");
    terminal_type(terminal, "<");
    terminal_expect(terminal, "pass 1");
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".013");
    terminal_type(terminal, "<");
    terminal_expect(terminal, "no earlier pass");
    terminal_type(terminal, ">");
    terminal_expect(terminal, "pass 2");
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".007");
    terminal_type(terminal, ">");
    terminal_expect(terminal, "no later pass");
    bench_quit(terminal);
    bench_expect_line(bench, "[visit.1.pass.2]");
    bench_expect_line(bench, "relief = .013 in");
    bench_expect_line(bench, "relief = .007 in");
}

/* By the number pad alone: at the pass's end Enter only says what is next; * and 4 begin a pass. */
static void test_next_pass_by_pad(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);

    bench_pad(terminal, "\r\r\r\r\r\r\r\r\r\r\r\r\r\r\r");
    terminal_expect(terminal, SEEN_PASS_END);
    bench_pad(terminal, "\r");
    terminal_expect(terminal, "what is due is on Work");
    terminal_expect(terminal, SEEN_PASS_END);
    bench_pad(terminal, "*4");
    terminal_expect(terminal, "pass 2");
    terminal_expect(terminal, SEEN_PROMPT_RELIEF);
    bench_quit(terminal);
    bench_expect_no_line(bench, "[visit.1.pass.2]"); /* nothing was measured in it */
}

static void test_new_visit(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);

    terminal_type(terminal, "v");
    terminal_expect(terminal, "visit 2");
    terminal_type(terminal, "v");
    terminal_expect(terminal, "no reading yet");
    bench_enter(terminal, ".011");
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".011");
    terminal_type(terminal, "<");
    terminal_expect(terminal, "visit 1");
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".013");
    bench_quit(terminal);
    bench_expect_line(bench, "[visit.2.pass.1]");
    bench_expect_line(bench, "relief = .011 in");
    bench_expect_line(bench, "relief = .013 in");
}

/* --- toggles --- */

static void test_nut_method(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);

    terminal_type(terminal, "*o");
    terminal_expect(terminal, SEEN_HELD);
    bench_expect_line(bench, "nut_method = held-3");
    terminal_type(terminal, "*o");
    terminal_expect(terminal, "with the string open.");
    terminal_expect_gone(terminal, SEEN_HELD);
    bench_expect_line(bench, "nut_method = open");
    terminal_type(terminal, "u");
    terminal_expect(terminal, SEEN_HELD);
    bench_quit(terminal);
    bench_expect_line(bench, "nut_method = held-3");
}

static void test_units(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);

    bench_expect_row(terminal, ROW_TITLED_ACTION, "8.25");
    terminal_type(terminal, "m");
    terminal_expect(terminal, SEEN_METRIC);
    bench_expect_row(terminal, ROW_TITLED_ACTION, "2.38"); /* 6/64 in, in the row's own unit */
    bench_expect_row(terminal, ROW_TITLED_EXPOSURE, "4.5");
    terminal_key(terminal, TERMINAL_END);
    terminal_key(terminal, TERMINAL_BACKSPACE);
    bench_enter(terminal, "4.25"); /* a rule or caliper reads mm either way */
    terminal_expect(terminal, SEEN_PASS_END);
    terminal_key(terminal, TERMINAL_HOME);
    bench_enter(terminal, "31"); /* metric leaves: hundredths */
    bench_expect_gap(terminal, 6);
    bench_quit(terminal);
    bench_expect_line(bench, "exposure_treble = 4.25 mm");
    bench_expect_line(bench, "action.1 = 6/64 in"); /* what was typed stays */
    bench_expect_line(bench, "relief = 31/100 mm");
    terminal = bench_start(bench); /* the shop's gauges are remembered */
    terminal_expect(terminal, SEEN_METRIC);
    terminal_type(terminal, "m");
    terminal_expect_gone(terminal, SEEN_METRIC);
    terminal_expect(terminal, SEEN_INCH);
    bench_quit(terminal);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        BENCH_CASE(test_next_pass_expects),
        BENCH_CASE(test_next_pass_by_pad),
        BENCH_CASE(test_new_visit),
        BENCH_CASE(test_nut_method),
        BENCH_CASE(test_units),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
