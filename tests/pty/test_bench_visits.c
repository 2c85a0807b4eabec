/* SPDX-License-Identifier: MIT */

/* Passes and visits at the bench, and what can be switched: nut method, units. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "bench_command.h"
#include "bench_screen.h"

/* --- passes and visits --- */

static void test_next_pass_expects(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);

    terminal_type(terminal, "p");
    terminal_expect(terminal, "pass 2");
    /* What a turn of the rod does is not known: it is turned until the relief is right. */
    bench_expect_row(terminal, ROW_TITLED_RELIEF, "(.006)");
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

/* --- what later visits leave alone --- */

/* All that the program says of a visit: its sheet, and its lines of all figures. */
static char *say_visit(const struct bench *bench, const char *visit)
{
    const char *const sheet[] = {"sheet", "--visit", visit, bench->profile, NULL};
    const char *const figures[] = {"figures", "--all-visits", bench->profile, NULL};
    struct command made, printed;

    command_run_words(bench, sheet, &made);
    command_run_words(bench, figures, &printed);
    assert_int_equal(made.code, 0);
    assert_int_equal(printed.code, 0);
    assert_true(made.out_length > 0);
    char *said = calloc(made.out_length + printed.out_length + 1, 1);
    assert_non_null(said);
    strcat(said, made.out);
    const size_t before = strlen(said);
    for (char *line = strtok(printed.out, "\n"); line; line = strtok(NULL, "\n"))
        if (strtol(line, NULL, 10) == strtol(visit, NULL, 10))
            strcat(strcat(said, line), "\n");
    assert_true(strlen(said) > before);
    command_done(&made);
    command_done(&printed);
    return said;
}

/* Restrung, with another target. */
static void work_in_visit_2(struct terminal *terminal)
{
    terminal_type(terminal, "v");
    terminal_expect(terminal, "visit 2");
    bench_enter(terminal, ".011");
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".011");
    terminal_key(terminal, TERMINAL_HOME);
    terminal_type(terminal, "k");
    terminal_expect(terminal, "from this visit on");
    terminal_type(terminal, "*0");
    terminal_type(terminal, "3");
    terminal_expect(terminal, "note, string 6, from this visit on");
    terminal_type(terminal, "*g");
    bench_enter(terminal, "steel-extra-light");
    terminal_expect(terminal, ".047");
    terminal_type(terminal, "*C");
    terminal_expect(terminal, "This visit was read");
    terminal_type(terminal, "+");
    terminal_expect(terminal, "Restrung");
    terminal_key(terminal, TERMINAL_RIGHT); /* out of the notes, where letters are text */
    terminal_expect(terminal, "gauge, string 6, from this visit on");
}

/* The slot refilled, and a saddle moved. */
static void work_in_visit_3(struct terminal *terminal)
{
    terminal_type(terminal, "v");
    terminal_expect(terminal, "visit 3");
    bench_enter(terminal, ".012");
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".012");
    terminal_type(terminal, "*0");
    terminal_type(terminal, "6");
    terminal_expect(terminal, "board width at the nut, all visits");
    for (int down = 0; down < 17; down++)
        terminal_key(terminal, TERMINAL_DOWN);
    terminal_expect(terminal, "recut width, from this visit on");
    bench_enter(terminal, ".25");
    terminal_expect(terminal, "recut depth, from this visit on");
    bench_enter(terminal, ".375");
    terminal_type(terminal, "*0");
    terminal_type(terminal, "3");
    terminal_expect(terminal, "note, string 6, from this visit on");
    for (int right = 0; right < 6; right++)
        terminal_key(terminal, TERMINAL_RIGHT);
    terminal_expect(terminal, "setback, string 6, from this pass on");
    bench_enter(terminal, ".2");
    terminal_expect(terminal, "setback, string 5, from this pass on");
}

/* All figures of one pass of visit 3. */
static char *say_pass_of_3(const struct bench *bench, int pass)
{
    const char *const figures[] = {"figures", "--all-visits", bench->profile, NULL};
    struct command printed;

    command_run_words(bench, figures, &printed);
    assert_int_equal(printed.code, 0);
    char *said = calloc(printed.out_length + 1, 1);
    assert_non_null(said);
    for (char *line = strtok(printed.out, "\n"); line; line = strtok(NULL, "\n")) {
        char *date = strchr(line, ','), *number = date ? strchr(date + 1, ',') : NULL;

        if (strtol(line, NULL, 10) == 3 && number && strtol(number + 1, NULL, 10) == pass)
            strcat(strcat(said, line), "\n");
    }
    assert_true(strlen(said) > 0);
    command_done(&printed);
    return said;
}

/* The saddle moved once more, and read again in the pass after. */
static void read_visit_3_again(struct terminal *terminal)
{
    terminal_expect(terminal, "visit 3");
    terminal_type(terminal, "p");
    terminal_expect(terminal, "pass 2");
    bench_enter(terminal, ".012");
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".012");
    terminal_type(terminal, "*0");
    terminal_type(terminal, "4");
    for (int string = 0; string < 6; string++)
        terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, "setback, string 6, from this pass on");
    bench_enter(terminal, ".3");
    terminal_expect(terminal, "setback, string 5, from this pass on");
}

static void test_later_visits_change_no_earlier_one(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal;

    bench_copy(bench, "worked-example.ini");
    char *first = say_visit(bench, "1");
    terminal = bench_start(bench);
    work_in_visit_2(terminal);
    bench_quit(terminal);
    bench_expect_line(bench, "format = 2");
    bench_expect_line(bench, "[visit.2.string.6]");
    bench_expect_line(bench, "[visit.2.targets]");
    bench_expect_line(bench, "kind = restrung");
    char *first_again = say_visit(bench, "1"), *second = say_visit(bench, "2");
    assert_string_equal(first_again, first);
    assert_non_null(strstr(second, "new, "));
    assert_non_null(strstr(second, ".047"));
    terminal = bench_start(bench);
    work_in_visit_3(terminal);
    bench_quit(terminal);
    bench_expect_line(bench, "[visit.3.neck]");
    bench_expect_line(bench, "setback.6 = .2 in");
    char *third_pass = say_pass_of_3(bench, 1);
    terminal = bench_start(bench);
    read_visit_3_again(terminal);
    bench_quit(terminal);
    bench_expect_line(bench, "setback.6 = .2 in");
    bench_expect_line(bench, "setback.6 = .3 in");
    char *third_pass_last = say_pass_of_3(bench, 1);
    assert_string_equal(third_pass_last, third_pass);
    free(third_pass);
    free(third_pass_last);
    char *first_last = say_visit(bench, "1"), *second_last = say_visit(bench, "2");
    assert_string_equal(first_last, first);
    assert_string_equal(second_last, second);
    free(first);
    free(first_again);
    free(first_last);
    free(second);
    free(second_last);
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
        BENCH_CASE(test_next_pass_expects), BENCH_CASE(test_next_pass_by_pad),
        BENCH_CASE(test_new_visit),         BENCH_CASE(test_later_visits_change_no_earlier_one),
        BENCH_CASE(test_nut_method),        BENCH_CASE(test_units),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
