/* SPDX-License-Identifier: MIT */

/* A day in the shop, step by step, from an empty shelf to the instrument's second visit. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

#include <cmocka.h>

#include "bench_command.h"
#include "bench_figures.h"
#include "near.h"
#include "shop_day.h"

#define NAME      "Harbour No. 7"
#define FILE_NAME "harbour-no-7.ini"
#define REASON    "buzzes on the bass side, stiff up the neck"

/* Under the board, so that the board stands when it does. */
#define SEEN_BRACKETS "( ) is expected after"

static const double mm_per_inch = 25.4, mm_per_64th = 25.4 / 64;

/* As found: too much relief, high at both ends. Wanted by the starting point: relief .008 in,
 * gaps .018 to .012 in, action 6 to 4 /64. */
static const struct day_pass as_found = {.relief = ".014",
                                         .gap = {"28", "26", "25", "22", "20", "19"},
                                         .action = {"9", "8.5", "8", "7.5", "7", "6.5"},
                                         .exposure = {"14", "12.5"}};
static const struct day_pass after_rod = {
    .relief = ".008",
    .rod_turned = ".25",
    .gap = {"24", "23", "21", "18", "16", "15"},
    .action = {"8.25", "7.75", "7.25", "6.75", "6.25", "5.75"},
    .exposure = {"14", "12.5"}};
static const struct day_pass after_saddle = {.relief = ".008",
                                             .gap = {"18", "17", "16", "15", "13", "12"},
                                             .action = {"6", "5.5", "5.25", "4.75", "4.5", "4"},
                                             .exposure = {"9.5", "9"}};
/* Half a year later: the neck came up by .003 in. */
static const struct day_pass came_back = {.relief = ".011",
                                          .gap = {"18", "17", "16", "15", "13", "12"},
                                          .action = {"6.5", "6", "5.5", "5.25", "4.75", "4.25"},
                                          .exposure = {"9.5", "9"}};

/* --- an instrument comes in --- */

static void file_instrument(struct terminal *terminal)
{
    terminal_expect(terminal, "begins the first instrument");
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, "> Steel-string flat-top, 14 frets");
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, "its name >");
    bench_enter(terminal, NAME);
    terminal_expect(terminal, "1 inches  2 millimetres >");
    terminal_type(terminal, "1");
    terminal_expect(terminal, SEEN_BENCH);
    terminal_expect(terminal, "visit 1");
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".008 in");
    bench_expect_row(terminal, ROW_TITLED_ACTION, "6 to 4 /64");
    bench_expect_row(terminal, ROW_TITLED_ROD, "measure the relief first");
}

static void take_in(struct terminal *terminal)
{
    day_turn_to(terminal, "Intake");
    day_find_cell(terminal, TERMINAL_DOWN, " reason >");
    day_write(terminal, " reason >", REASON);
    terminal_expect(terminal, REASON);
    day_read(terminal, " promised for >", NULL);
    day_read(terminal, " humidity >", "46");
    day_read(terminal, " temperature >", "70");
    /* 46 % at 70 F: 8.6 % by the Wood Handbook (FPL-GTR-282), eq. (4-5). */
    terminal_expect(terminal, "46 % 70 F EMC 8.6 %");
    day_find_cell(terminal, TERMINAL_DOWN, " owner >");
    day_write(terminal, " owner >", "Marlo");
    terminal_expect(terminal, "Marlo");
    day_find_cell(terminal, TERMINAL_DOWN, " scale length >");
    day_read(terminal, " scale length >", "25.5");
    terminal_expect(terminal, "25.5 in");
}

static void measure_as_found(struct bench *bench, struct terminal *terminal)
{
    day_turn_to(terminal, "Bench");
    day_enter_pass(terminal, &as_found);
    terminal_expect(terminal, "as found");
    terminal_expect(terminal, SEEN_KEPT);
    bench_expect_row(terminal, ROW_TITLED_RELIEF, "high");
    bench_expect_row(terminal, ROW_TITLED_ACTION, "high");
    bench_expect_row(terminal, ROW_TITLED_EXPOSURE, "good");
    bench_expect_row(terminal, ROW_TITLED_ROD, "relief -.006"); /* .008 less .014 */
    char *figures = day_figures(bench);

    figures_expect_row(terminal, ROW_TITLED_SLOTS, figures, "slot", DAY_STRINGS);
    figures_expect_row(terminal, ROW_TITLED_SADDLE, figures, "saddle", DAY_STRINGS);
    free(figures);
}

/* --- what if it were tuned lower --- */

static void try_tunings(struct bench *bench, struct terminal *terminal)
{
    char *figures = day_figures(bench);
    const double newton_per_pound = 4.4482216152605; /* exact: the pound times g0 */
    const double total = figure_in(figures, "load", "tension_total_n");
    double now_n, now_lb, then_n, then_lb, change_lb;

    free(figures);
    day_turn_to(terminal, "Strings");
    terminal_type(terminal, "*nhalf step down\r");
    terminal_expect(terminal, "what if: half step down");
    terminal_expect(terminal, "-18.1");
    /* "736  165  |  656  147  -18.1", the line between them of one sort or another */
    const char *row = day_behind(terminal, " total ");
    assert_int_equal(
        sscanf(row, " %lf %lf %*s %lf %lf %lf", &now_n, &now_lb, &then_n, &then_lb, &change_lb), 5);
    assert_near(now_n, total, .5);
    assert_near(now_lb, total / newton_per_pound, .5);
    /* Tension goes with the square of the pitch (Mersenne), all strings a semitone down. */
    const double share = pow(2, -2.0 / 12);
    assert_near(then_n, total * share, .5);
    assert_near(then_lb, total * share / newton_per_pound, .5);
    assert_near(change_lb, total * (share - 1) / newton_per_pound, .05);
    assert_true(then_n < now_n);
    terminal_type(terminal, "*w");
    terminal_expect_gone(terminal, "half-step-down");
    terminal_expect(terminal, "26.4"); /* string 6 as before */
}

/* --- the moves --- */

/* The rod alone was turned: gaps and action come down with it, the saddle is as it was. */
static void expect_after_rod(struct terminal *terminal, const char *found)
{
    for (int i = 0; i < DAY_STRINGS; i++) {
        const int string = DAY_STRINGS - i;
        const double gap = day_bracket(terminal, ROW_TITLED_GAP, 1 + i);
        const double action = day_bracket(terminal, ROW_TITLED_ACTION, 1 + i);

        assert_near(gap, figure_of_string(found, string, "nut_gap_after_rod_mm") / mm_per_inch,
                    .0005);
        assert_near(action, figure_of_string(found, string, "action_after_rod_mm") / mm_per_64th,
                    .05);
        assert_true(gap < strtod(as_found.gap[i], NULL) / 1000);
        /* The saddle stays behind as the neck comes back: by more than the relief. */
        assert_true(strtod(as_found.action[i], NULL) - action > .006 * 64);
    }
    assert_near(day_bracket(terminal, ROW_TITLED_EXPOSURE, 1), 14, 1e-9);
    assert_near(day_bracket(terminal, ROW_TITLED_EXPOSURE, 2), 12.5, 1e-9);
}

static void turn_rod(struct bench *bench, struct terminal *terminal)
{
    char *found = day_figures(bench);

    day_turn_to(terminal, "Work");
    terminal_expect(terminal, "2 left, 0 done");
    terminal_expect(terminal, "relief -.006");
    terminal_expect(terminal, "a quarter turn");
    day_mark_done(terminal, "rod", "0 left, 1 done");
    day_read(terminal, "rod, turns >", after_rod.rod_turned);
    day_turn_to(terminal, "Bench");
    terminal_type(terminal, "p");
    terminal_expect(terminal, "pass 2");
    terminal_expect(terminal, SEEN_BRACKETS);
    /* What its turns do is not known until the relief is read: they took it to its target. */
    assert_true(isnan(day_bracket(terminal, ROW_TITLED_RELIEF, 1)));
    assert_true(isnan(day_bracket(terminal, ROW_TITLED_ACTION, 1)));
    terminal_type(terminal, "8\r");
    terminal_expect(terminal, "nut gap, string 6 >");
    bench_expect_row(terminal, ROW_TITLED_GAP, "(");
    expect_after_rod(terminal, found);
    free(found);
    terminal_type(terminal, "*1");
    day_enter_pass(terminal, &after_rod);
    bench_expect_row(terminal, ROW_TITLED_RELIEF, "good");
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".25");
    bench_expect_row(terminal, ROW_TITLED_ROD, "on target");
}

/* What slots and saddle should bring, by hand: a filed slot its target, 18 to 12 thousandths
 * in equal steps; one left alone comes down with its string, by the saddle's way times
 * x_1/L = 1 - 2^(-1/12); the action 6 to 4 in equal steps; the exposure by the saddle's way. */
static void expect_after_saddle(struct terminal *terminal, const char *before)
{
    const double share = 1 - pow(2, -1.0 / 12);

    for (int i = 0; i < DAY_STRINGS; i++) {
        const int string = DAY_STRINGS - i;
        const double way = figure_of_move(before, "saddle", string) / mm_per_inch;
        const bool filed = figure_of_move(before, "slot", string) < 0;
        const double gap =
            filed ? (18 - 1.2 * i) / 1000 : strtod(after_rod.gap[i], NULL) / 1000 + way * share;

        assert_near(day_bracket(terminal, ROW_TITLED_GAP, 1 + i), gap, filed ? .0011 : .00055);
        assert_near(day_bracket(terminal, ROW_TITLED_ACTION, 1 + i), 6 - .4 * i, .05);
    }
    assert_near(day_bracket(terminal, ROW_TITLED_EXPOSURE, 1),
                14 + figure_of_move(before, "saddle", 6) / mm_per_64th, .05);
    assert_near(day_bracket(terminal, ROW_TITLED_EXPOSURE, 2),
                12.5 + figure_of_move(before, "saddle", 1) / mm_per_64th, .05);
}

static void file_slots_and_saddle(struct bench *bench, struct terminal *terminal)
{
    char *before = day_figures(bench);

    assert_true(figure_of_move(before, "slot", 6) < 0);
    assert_near(figure_of_move(before, "slot", 1), 0, 1e-12);
    /* Nobody files a slot within a second of measuring it. */
    day_wait_second(terminal);
    day_mark_done(terminal, "slots", "left to do before it goes back: saddle");
    day_mark_done(terminal, "saddle", "measure again before it goes back");
    day_turn_to(terminal, "Bench");
    terminal_type(terminal, "p");
    terminal_expect(terminal, "pass 3");
    terminal_expect(terminal, SEEN_BRACKETS);
    expect_after_saddle(terminal, before);
    free(before);
    day_enter_pass(terminal, &after_saddle);
    bench_expect_row(terminal, ROW_TITLED_SADDLE, "on target");
}

/* --- pitch and frets --- */

/* The saddle has to go back by L l (k - 1)/(l - k L), l = L/2 the string left behind fret 12
 * and k = 2^(-c/1200); no setback was entered, so the saddle stands at the scale length. */
static double hand_setback_mm(double cents)
{
    const double scale = 25.5 * 25.4, left = scale / 2, k = pow(2, -cents / 1200);

    return scale * left * (k - 1) / (left - k * scale);
}

static void set_pitch(struct terminal *terminal)
{
    enum { CHANGE_PLACE = 8, CONTACT_PLACE = 10 };

    day_turn_to(terminal, "Pitch");
    day_read(terminal, "cents at fret 12, string 6 >", "6");
    day_read(terminal, "cents at fret 12, string 5 >", "4");
    terminal_expect(terminal, "cents at fret 12, string 4 >");
    assert_near(strtod(bench_word(terminal, "6 E2", CHANGE_PLACE), NULL),
                hand_setback_mm(6) / mm_per_inch, .0006);
    assert_near(strtod(bench_word(terminal, "5 A2", CHANGE_PLACE), NULL),
                hand_setback_mm(4) / mm_per_inch, .0006);
    /* Its setback was not entered: no place is given to mark. */
    assert_string_equal(bench_word(terminal, "6 E2", CONTACT_PLACE), "");
    day_steps(terminal, TERMINAL_UP, 2, "cents at fret 12, string 6 >");
    terminal_expect(terminal, "saddle back .089 in");
}

static void level_frets(struct terminal *terminal)
{
    day_turn_to(terminal, "Frets");
    day_read(terminal, "buzzing notes, string 6 >", "5+6");
    day_read(terminal, "clean notes, string 6 >", "7+8+9");
    terminal_expect(terminal, "buzzing notes, string 5 >");
    terminal_key(terminal, TERMINAL_HOME);
    /* Stopped at 5 and 6 it buzzes, at 7 no more: the fret between is the one. */
    const double high =
        strtod(day_behind(terminal, "buzzes at 5-6: fret 7 stands at least "), NULL);
    day_steps(terminal, TERMINAL_DOWN, DAY_STRINGS, "spot at fret 1 >");
    day_steps(terminal, TERMINAL_RIGHT, 6, "spot at fret 7 >");
    day_read(terminal, "spot at fret 7 >", ".004");
    day_steps(terminal, TERMINAL_LEFT, 1, "spot at fret 7 >");
    day_steps(terminal, TERMINAL_DOWN, 1, "crown at fret 7 >");
    day_read(terminal, "crown at fret 7 >", ".043");
    terminal_expect(terminal, ".039"); /* .043 less .004 in */
    assert_near(strtod(day_behind(terminal, "off spots      in"), NULL), .004, 1e-9);
    assert_near(strtod(day_behind(terminal, "off, all       in"), NULL), .004, 1e-9);
    day_steps(terminal, TERMINAL_HOME, 1, "buzzing notes, string 6 >");
    /* What the rocker found explains that much of it. */
    terminal_expect(terminal, "fret 7, .004 in high by the rocker");
    assert_near(high - .004, .001, .0011);
}

static void log_own_work(struct terminal *terminal)
{
    day_turn_to(terminal, "Work");
    terminal_type(terminal, "*a");
    terminal_expect(terminal, "own work >");
    bench_enter(terminal, "frets");
    day_write(terminal, "line 4, amount >", "fret 7 levelled");
    terminal_expect(terminal, "[x] frets       fret 7 levelled");
}

static void measure_last_pass(struct terminal *terminal)
{
    day_turn_to(terminal, "Bench");
    terminal_type(terminal, "p");
    terminal_expect(terminal, "pass 4");
    terminal_expect(terminal, SEEN_BRACKETS);
    /* A crown that was levelled elsewhere moves no action. */
    assert_string_equal(bench_word(terminal, ROW_TITLED_ACTION, 1), "[6]");
    day_enter_pass(terminal, &after_saddle);
    bench_expect_row(terminal, ROW_TITLED_ROD, "on target");
    bench_expect_row(terminal, "2 frets", "hear it again");
    bench_expect_row(terminal, "3 slots", "on target");
    bench_expect_row(terminal, "4 saddle", "on target");
    bench_expect_row(terminal, "5 pitch", "tune and read");
    day_turn_to(terminal, "Work");
    terminal_expect(terminal, "0 left, 0 done");
    terminal_expect(terminal, "hear and tune again before it goes back: frets, pitch");
}

/* --- the next visit --- */

static void look_back(struct bench *bench, struct terminal *terminal)
{
    terminal_expect(terminal, "pass 4");
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".008");
    bench_expect_row(terminal, ROW_TITLED_ACTION, "5.25");
    terminal_type(terminal, "<<");
    terminal_expect(terminal, "pass 2");
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".25");
    terminal_type(terminal, "v");
    terminal_expect(terminal, "visit 2");
    day_enter_pass(terminal, &came_back);
    day_turn_to(terminal, "History");
    terminal_expect(terminal, "visit 2, pass 1");
    terminal_expect(terminal, "change since");
    terminal_expect(terminal, "visit 1");
    terminal_expect(terminal, "Enter: to the bench");
    const char *row = day_behind(terminal, "relief       in ");
    terminal_check(terminal, strstr(row, ".008") && strstr(row, ".011"));
    terminal_check(terminal, strstr(row, "+.003")); /* .011 less .008 */
    /* A quarter turn took .006 in out, so half as much takes an eighth. */
    terminal_expect(terminal, "relief -.024");
    terminal_expect(terminal, "next 1/8 tighter");
    bench_expect_line(bench, "[visit.2.pass.1]");
}

static void expect_file(const struct bench *bench)
{
    static const char *const lines[] = {
        "name = " NAME,     "owner = Marlo",    "reason = " REASON,      "scale = 25.5 in",
        "label = as found", "relief = .014 in", "rod_turn = .25 turn",   "cents.6.12 = 6 cents",
        "buzz.6 = 5 6",     "clean.6 = 7 8 9",  "spot.7 = .004 in",      "crown.7 = .043 in",
        "[visit.1.work.4]", "[visit.1.pass.4]", "action.4 = 5.25/64 in", "action.6 = 6.5/64 in",
        "relief = .011 in"};

    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++)
        bench_expect_line(bench, lines[i]);
    bench_expect_no_line(bench, "[visit.1.pass.5]");
    bench_expect_no_line(bench, "[visit.1.work.5]");
}

static void expect_commands(const struct bench *bench)
{
    const char *const listing[] = {"shelf", "--shelf", day_shelf(bench), NULL};
    struct command command;

    command_run(bench, "check", bench->profile, &command);
    assert_int_equal(command.code, 0);
    assert_string_equal(command.err, "");
    command_done(&command);
    command_run_words(bench, listing, &command);
    assert_int_equal(command.code, 0);
    assert_non_null(strstr(command.out, FILE_NAME "  " NAME));
    assert_non_null(strstr(command.out, "Marlo"));
    assert_non_null(strstr(command.out, "moves open")); /* of the second visit */
    assert_null(strstr(command.out, "in use"));
    command_done(&command);
}

static void a_day(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = day_begin(bench, FILE_NAME);

    file_instrument(terminal);
    take_in(terminal);
    measure_as_found(bench, terminal);
    try_tunings(bench, terminal);
    day_leave_and_return(terminal, NAME, true);
    turn_rod(bench, terminal);
    file_slots_and_saddle(bench, terminal);
    set_pitch(terminal);
    level_frets(terminal);
    log_own_work(terminal);
    measure_last_pass(terminal);
    day_leave_and_return(terminal, NAME, false);
    look_back(bench, terminal);
    terminal_type(terminal, "*q");
    terminal_expect(terminal, "[Shelf]");
    terminal_type(terminal, "*q");
    const int status = terminal_expect_end(terminal);
    assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 0);
    bench_expect_restored(terminal);
    expect_file(bench);
    expect_commands(bench);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {BENCH_CASE(a_day)};

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
