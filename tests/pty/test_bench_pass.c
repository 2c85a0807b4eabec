/* SPDX-License-Identifier: MIT */

/* A whole as-found pass from the number pad alone, and its results. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "bench_command.h"
#include "bench_figures.h"
#include "bench_screen.h"
#include "near.h"

enum { CELLS = 15, STRINGS = 6 };

static const double mm_per_inch = 25.4, mm_per_64th = 25.4 / 64;

/* One cell of the route: what is typed, what stands in its row then, what the file keeps. */
struct step {
    const char *typed, *row, *shown, *kept;
};

/* The worked example as an inch shop would key it in: bare numbers take the row's gauge. Its
 * exposures are 5 and 4.5 mm. */
static const struct step bare[CELLS] = {
    {".013", ROW_TITLED_RELIEF, ".013", "relief = .013 in"},
    {"30", ROW_TITLED_GAP, "30", "nut_gap.6 = 30 th"},
    {"28", ROW_TITLED_GAP, "28", "nut_gap.5 = 28 th"},
    {".025", ROW_TITLED_GAP, ".025", "nut_gap.4 = .025 in"},
    {"24", ROW_TITLED_GAP, "24", "nut_gap.3 = 24 th"},
    {"21", ROW_TITLED_GAP, "21", "nut_gap.2 = 21 th"},
    {".020", ROW_TITLED_GAP, ".020", "nut_gap.1 = .020 in"},
    {"8.25", ROW_TITLED_ACTION, "8.25", "action.6 = 8.25/64 in"},
    {"7.75", ROW_TITLED_ACTION, "7.75", "action.5 = 7.75/64 in"},
    {"7.25", ROW_TITLED_ACTION, "7.25", "action.4 = 7.25/64 in"},
    {"6.75", ROW_TITLED_ACTION, "6.75", "action.3 = 6.75/64 in"},
    {"6.25", ROW_TITLED_ACTION, "6.25", "action.2 = 6.25/64 in"},
    {"6", ROW_TITLED_ACTION, "6", "action.1 = 6/64 in"},
    {".1968503937007874", ROW_TITLED_EXPOSURE, "12.6", "exposure_bass = .1968503937007874 in"},
    {"11.338582677165354", ROW_TITLED_EXPOSURE, "11.3",
     "exposure_treble = 11.338582677165354/64 in"},
};

/* The same lengths with fractions and leaves laid together. */
static const struct step stacked[CELLS] = {
    {".010+.003", ROW_TITLED_RELIEF, ".013", "relief = .010+.003 in"},
    {".025+.005", ROW_TITLED_GAP, ".030", "nut_gap.6 = .025+.005 in"},
    {"20+8", ROW_TITLED_GAP, "28", "nut_gap.5 = 20+8 th"},
    {"15+6+4", ROW_TITLED_GAP, "25", "nut_gap.4 = 15+6+4 th"},
    {"24", ROW_TITLED_GAP, "24", "nut_gap.3 = 24 th"},
    {"21", ROW_TITLED_GAP, "21", "nut_gap.2 = 21 th"},
    {"20", ROW_TITLED_GAP, "20", "nut_gap.1 = 20 th"},
    {"8-1/4", ROW_TITLED_ACTION, "8-1/4", "action.6 = 8-1/4/64 in"},
    {"7-3/4", ROW_TITLED_ACTION, "7-3/4", "action.5 = 7-3/4/64 in"},
    {"7.25/64", ROW_TITLED_ACTION, "7.25", "action.4 = 7.25/64 in"},
    {"6-3/4", ROW_TITLED_ACTION, "6-3/4", "action.3 = 6-3/4/64 in"},
    {"6-1/4", ROW_TITLED_ACTION, "6-1/4", "action.2 = 6-1/4/64 in"},
    {"3/32", ROW_TITLED_ACTION, "6-1/4      6", "action.1 = 3/32 in"},
    {".1+.0968503937007874", ROW_TITLED_EXPOSURE, "12.6",
     "exposure_bass = .1+.0968503937007874 in"},
    {"11+.338582677165354", ROW_TITLED_EXPOSURE, "11.3",
     "exposure_treble = 11/64+.338582677165354/64 in"},
};

/* The figures of an independent program for the worked example, whole text. */
static char *read_figures(void)
{
    char *text = tree_read(bench_data("worked-example.figures"), NULL);

    assert_non_null(text);
    return text;
}

/* --- what the moves on screen say --- */

static void expect_rod(struct terminal *terminal, const char *figures)
{
    const int row = bench_row(terminal, ROW_TITLED_ROD, 0);
    const double change = .006 - figure_in(figures, "neck-curve", "relief_mm") / mm_per_inch;

    assert_near(change, -.007, 1e-9);
    assert_near(bench_number_behind(terminal, "relief ", row), change, .0005);
    /* What a turn does is not known: it is turned until the relief is right. */
    terminal_expect(terminal, "then relief .006 in, action 7.3 to 5.1");
}

static void expect_saddle(struct terminal *terminal, const char *figures)
{
    const int row = bench_row(terminal, ROW_TITLED_SADDLE, 0);

    figures_expect_row(terminal, ROW_TITLED_SADDLE, figures, "saddle", STRINGS);
    /* To the nearest half of a 64th. */
    assert_near(bench_number_behind(terminal, "exposure ", row),
                (5 + figure_of_move(figures, "saddle", 6)) / mm_per_64th, .2501);
    assert_near(bench_number_behind(terminal, "exposure 10.5 to ", row),
                (4.5 + figure_of_move(figures, "saddle", 1)) / mm_per_64th, .2501);
}

static void expect_moves(struct terminal *terminal, const char *figures)
{
    terminal_expect(terminal, SEEN_NEXT_MOVES);
    expect_rod(terminal, figures);
    figures_expect_row(terminal, ROW_TITLED_SLOTS, figures, "slot", STRINGS);
    expect_saddle(terminal, figures);
}

/* --- the pass --- */

static void expect_prompt(struct terminal *terminal, int cell)
{
    if (cell == 0)
        terminal_expect(terminal, SEEN_PROMPT_RELIEF);
    else if (cell <= STRINGS)
        bench_expect_gap(terminal, STRINGS + 1 - cell);
    else if (cell <= 2 * STRINGS)
        bench_expect_action(terminal, 2 * STRINGS + 1 - cell);
    else
        terminal_expect(terminal, cell < CELLS ? ROW_TITLED_EXPOSURE " >" : SEEN_PASS_END);
}

static void enter_pass(struct terminal *terminal, const struct step *steps, bool by_pad)
{
    for (int cell = 0; cell < CELLS; cell++) {
        expect_prompt(terminal, cell);
        if (by_pad) {
            bench_pad(terminal, steps[cell].typed);
            bench_pad(terminal, "\r");
        } else {
            bench_enter(terminal, steps[cell].typed);
        }
        bench_expect_row(terminal, steps[cell].row, steps[cell].shown);
    }
    expect_prompt(terminal, CELLS);
}

static void expect_file(const struct bench *bench, const struct step *steps, const char *figures)
{
    struct command command;

    for (int cell = 0; cell < CELLS; cell++)
        bench_expect_line(bench, steps[cell].kept);
    bench_expect_line(bench, "label = as found");
    command_run(bench, "figures", bench->profile, &command);
    assert_false(command.signalled);
    assert_int_equal(command.code, 0);
    figures_expect_moves(command.out, figures);
    command_done(&command);
}

static void check_pass(struct bench *bench, const struct step *steps, bool by_pad)
{
    char *figures = read_figures();
    struct command command;

    bench_copy(bench, "empty-visit.ini");
    struct terminal *terminal = bench_start(bench);
    enter_pass(terminal, steps, by_pad);
    terminal_expect(terminal, SEEN_KEPT);
    command_run(bench, "figures", bench->profile, &command);
    expect_moves(terminal, command.out);
    command_done(&command);
    bench_quit(terminal);
    expect_file(bench, steps, figures);
    free(figures);
}

static void test_application_keypad(void **state)
{
    check_pass(*state, bare, true);
}

static void test_plain_keys(void **state)
{
    check_pass(*state, bare, false);
}

static void test_fractions_and_leaves_by_keypad(void **state)
{
    check_pass(*state, stacked, true);
}

static void test_fractions_and_leaves_by_plain_keys(void **state)
{
    check_pass(*state, stacked, false);
}

/* Typed ahead, faster than the program paints: nothing is lost, nothing doubled. */
static void test_all_at_once(void **state)
{
    struct bench *bench = *state;
    char *figures = read_figures();
    char keys[512] = "";

    for (int cell = 0; cell < CELLS; cell++)
        snprintf(keys + strlen(keys), sizeof keys - strlen(keys), "%s\r", bare[cell].typed);
    bench_copy(bench, "empty-visit.ini");
    struct terminal *terminal = bench_start(bench);
    terminal_type(terminal, keys);
    terminal_expect(terminal, SEEN_PASS_END);
    bench_quit(terminal);
    expect_file(bench, bare, figures);
    free(figures);
}

/* --- single keys of the pad --- */

static void test_negative_relief(void **state)
{
    struct bench *bench = *state;

    bench_copy(bench, "empty-visit.ini");
    struct terminal *terminal = bench_start(bench);
    bench_pad(terminal, "-.004\r");
    bench_expect_gap(terminal, 6);
    bench_expect_row(terminal, ROW_TITLED_RELIEF, "-.004");
    bench_expect_row(terminal, ROW_TITLED_RELIEF, "low");
    bench_expect_row(terminal, ROW_TITLED_ROD, "slacken");
    assert_near(bench_number_behind(terminal, "relief +", 0), .010, .0005);
    bench_quit(terminal);
    bench_expect_line(bench, "relief = -.004 in");
}

static void test_every_key_of_the_pad(void **state)
{
    struct bench *bench = *state;

    bench_copy(bench, "empty-visit.ini");
    struct terminal *terminal = bench_start(bench);
    bench_pad(terminal, "-1234567890./+");
    terminal_expect(terminal, "> -1234567890./+");
    terminal_expect(terminal, SEEN_PROMPT_RELIEF);
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_expect_gone(terminal, "> -1234567890./+");
    bench_quit(terminal);
}

static void test_backspace(void **state)
{
    struct bench *bench = *state;

    bench_copy(bench, "empty-visit.ini");
    struct terminal *terminal = bench_start(bench);
    bench_pad(terminal, ".013\r");
    bench_expect_gap(terminal, 6);
    bench_pad(terminal, "31");
    terminal_expect(terminal, "> 31");
    terminal_key(terminal, TERMINAL_BACKSPACE); /* takes a digit */
    terminal_expect_gone(terminal, "> 31");
    bench_pad(terminal, "0\r");
    bench_expect_gap(terminal, 5);
    terminal_key(terminal, TERMINAL_BACKSPACE); /* nothing typed: goes back */
    bench_expect_gap(terminal, 6);
    bench_expect_row(terminal, ROW_TITLED_GAP, "30");
    terminal_key(terminal, TERMINAL_BACKSPACE);
    terminal_expect(terminal, SEEN_PROMPT_RELIEF);
    bench_pad(terminal, "\r"); /* leaves the cell as it is */
    bench_expect_gap(terminal, 6);
    bench_quit(terminal);
    bench_expect_line(bench, "relief = .013 in");
    bench_expect_line(bench, "nut_gap.6 = 30 th");
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        BENCH_CASE(test_application_keypad),
        BENCH_CASE(test_plain_keys),
        BENCH_CASE(test_fractions_and_leaves_by_keypad),
        BENCH_CASE(test_fractions_and_leaves_by_plain_keys),
        BENCH_CASE(test_all_at_once),
        BENCH_CASE(test_negative_relief),
        BENCH_CASE(test_every_key_of_the_pad),
        BENCH_CASE(test_backspace),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
