/* SPDX-License-Identifier: MIT */

/*
 * Three jobs from the bench, on the demo instruments, done by what the screen says and nothing
 * else: a neck reset, a six-minute electric, and an instrument that comes back in drier air.
 */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "shop_day.h"

#define BASS    "../../profiles/bass.ini"
#define PARLOUR "../../profiles/parlour.ini"
#define BOLT_ON "../../profiles/bolt-on.ini"

#define SEEN_READ_ALL_AGAIN "a reset changes everything, so measure it all again"
#define SEEN_SEASON         "wait: the season moved the neck; cut nothing yet"
#define SEEN_ON_TARGET      "on target, leave it"
#define SEEN_LEFT           "left to do before it goes back: "
#define SEEN_DUE_IS_DONE    "what is due is marked done: measure again; "
#define SEEN_READY          "all moves are on target and done: it can go back"

enum { READINGS_MAX = 3 + 2 * DAY_STRINGS, TEXT_SIZE = 16 };

/* What the gauges read, in the order of the bench's route: relief, gaps and actions from the bass
 * side, exposure at both ends. */
struct gauges {
    int strings;
    char text[READINGS_MAX][TEXT_SIZE];
};

static const struct gauges bass_found = {
    4, {".012", "30", "28", "27", "26", "13", "12", "11", "10", "2", "1.5"}};
static const struct gauges bass_reset = {
    4, {".016", "28", "27", "25", "24", "9", "8.5", "7.5", "7", "8", "7"}};
static const struct gauges leaning_found = {
    6, {".006", "17", "19", "18", "17", "15", "14", "12", "11", "11", "10", "9", "9", "12", "7"}};
/* The same, before its rod was turned. */
static const struct gauges leaning_bowed = {
    6, {".012", "17", "19", "18", "17", "15", "14", "12", "11", "11", "10", "9", "9", "12", "7"}};
static const struct gauges electric_found = {
    6, {".012", "22", "21", "19", "18", "17", "16", "7", "7", "6.5", "6.5", "6", "6", "10", "9"}};
/* The neck has gone straight; with relief let in it is what it was when it left. */
static const struct gauges winter_found = {
    6,
    {".002", "19", "18", "16", "15", "14", "12", "5", "5", "4.5", "4", "4", "3.5", "11", "10.5"}};
static const struct gauges winter_after_rod = {
    6,
    {".006", "18", "17", "16", "14", "13", "12", "6", "5.5", "5", "5", "4.5", "4", "11", "10.5"}};

static struct terminal *begin(struct bench *bench, const char *profile)
{
    bench_copy(bench, profile);
    return bench_start(bench);
}

static void begin_visit(struct terminal *terminal, const char *visit)
{
    bench_pad(terminal, "*.4");
    terminal_expect(terminal, visit);
    terminal_expect(terminal, "relief at fret");
}

/* --- reading --- */

static void read_next(struct terminal *terminal, const char *prompt, const char *text)
{
    terminal_expect(terminal, prompt);
    bench_pad(terminal, text);
    bench_pad(terminal, "\r");
}

static void read_pass(struct terminal *terminal, const struct gauges *gauges)
{
    const int strings = gauges->strings;
    const char(*text)[TEXT_SIZE] = gauges->text;
    char prompt[64];

    read_next(terminal, "relief at fret", *text++);
    for (int s = strings; s >= 1; s--) {
        snprintf(prompt, sizeof prompt, SEEN_PROMPT_GAP, s);
        read_next(terminal, prompt, *text++);
    }
    for (int s = strings; s >= 1; s--) {
        snprintf(prompt, sizeof prompt, SEEN_PROMPT_ACTION, s);
        read_next(terminal, prompt, *text++);
    }
    read_next(terminal, "bass exposure >", *text++);
    read_next(terminal, "treble exposure >", *text);
    terminal_expect(terminal, SEEN_PASS_END);
}

/* What stands in brackets in a row, as a gauge reads it: whole thousandths, or halves of a 64th. */
static void take_bracket(struct terminal *terminal, const char *row, int place,
                         char ret_text[TEXT_SIZE])
{
    const double expected = day_bracket(terminal, row, place);

    terminal_check(terminal, isfinite(expected));
    if (expected < 1)
        snprintf(ret_text, TEXT_SIZE, "%.0f", round(expected * 1000));
    else
        snprintf(ret_text, TEXT_SIZE, "%g", round(expected * 2) / 2);
}

/* The next pass reads what the one before let expect. */
static struct gauges as_expected(struct terminal *terminal, int strings)
{
    struct gauges gauges = {.strings = strings};
    char(*text)[TEXT_SIZE] = gauges.text;

    terminal_expect(terminal, "( ) is expected after");
    take_bracket(terminal, ROW_TITLED_RELIEF, 1, *text++);
    for (int k = 0; k < strings; k++)
        take_bracket(terminal, ROW_TITLED_GAP, 1 + k, *text++);
    for (int k = 0; k < strings; k++)
        take_bracket(terminal, ROW_TITLED_ACTION, 1 + k, *text++);
    /* Saddles with screws have a cell for each string between the two ends, for its travel. */
    const bool travels = bench_word(terminal, ROW_TITLED_EXPOSURE, 2)[0] == '-';
    take_bracket(terminal, ROW_TITLED_EXPOSURE, 1, *text++);
    take_bracket(terminal, ROW_TITLED_EXPOSURE, travels ? strings : 2, *text++);
    return gauges;
}

static void read_as_expected(struct terminal *terminal, int strings)
{
    const struct gauges gauges = as_expected(terminal, strings);

    read_pass(terminal, &gauges);
}

static void next_pass(struct terminal *terminal, const char *pass)
{
    bench_pad(terminal, "*02");
    terminal_expect(terminal, SEEN_BENCH);
    bench_pad(terminal, "*4");
    terminal_expect(terminal, pass);
}

/* --- marking --- */

static void turn_to_work(struct terminal *terminal)
{
    day_wait_second(terminal); /* nobody works within a second of measuring */
    bench_pad(terminal, "*07");
    terminal_expect(terminal, "[Work]");
}

static void mark(struct terminal *terminal, const char *move)
{
    char text[40];

    snprintf(text, sizeof text, "%s, what was done >", move);
    terminal_expect(terminal, text);
    bench_pad(terminal, "*4");
    snprintf(text, sizeof text, "[x] %-6s done ", move);
    terminal_expect(terminal, text);
}

static void mark_rod(struct terminal *terminal, const char *turns)
{
    mark(terminal, "rod");
    read_next(terminal, "rod, turns >", turns);
}

/* --- what must not be there --- */

static void expect_none(struct terminal *terminal, const char *const *words)
{
    terminal_settle(terminal);
    for (; *words; words++)
        if (terminal_find(terminal, *words, NULL) >= 0)
            terminal_fail_at(terminal, *words, __FILE__, __LINE__);
}

/* The last word of a row that is on target. */
static void expect_ready(struct terminal *terminal)
{
    bench_expect_row(terminal, ROW_TITLED_RELIEF, "good");
    bench_expect_row(terminal, ROW_TITLED_GAP, "good");
    bench_expect_row(terminal, ROW_TITLED_ACTION, "good");
    bench_expect_row(terminal, ROW_TITLED_EXPOSURE, "good");
    bench_expect_row(terminal, ROW_TITLED_ROD, SEEN_ON_TARGET);
    bench_expect_row(terminal, ROW_TITLED_SLOTS, SEEN_ON_TARGET);
    bench_expect_row(terminal, ROW_TITLED_SADDLE, SEEN_ON_TARGET);
    turn_to_work(terminal);
    terminal_expect(terminal, SEEN_READY);
    terminal_expect(terminal, "0 left, 0 done");
}

/* --- a neck reset --- */

static void expect_reset_alone(struct terminal *terminal)
{
    /* Words of the moves that wait, as they stand where they are due. */
    static const char *const amounts[] = {"tighten", "slacken",     "file", "fill",
                                          "shim +",  "raises",      "turn", "height \xC2\xB1",
                                          "bottom",  "then action", NULL};

    bench_expect_row(terminal, "1 reset", "neck angle ");
    bench_expect_row(terminal, "2 rod", "after the reset: then string up and read again");
    bench_expect_row(terminal, "3 slots", "after the reset");
    bench_expect_row(terminal, "4 saddle", "after the reset");
    expect_none(terminal, amounts);
}

static void a_neck_reset(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = begin(bench, BASS);

    begin_visit(terminal, "visit 3");
    read_pass(terminal, &bass_found);
    expect_reset_alone(terminal);
    bench_expect_row(terminal, "1 reset", "deg, pocket shim .");
    bench_expect_row(terminal, "then exposure", " once the action is right");
    terminal_expect(terminal, "the lowest saddles");
    turn_to_work(terminal);
    terminal_expect(terminal, SEEN_LEFT "reset; after it: rod, slots, saddle");
    mark(terminal, "reset");
    terminal_expect(terminal, SEEN_DUE_IS_DONE "after it: rod, slots, saddle");
    next_pass(terminal, "pass 2");
    terminal_expect(terminal, SEEN_READ_ALL_AGAIN);
    read_pass(terminal, &bass_reset);
    bench_expect_row(terminal, ROW_TITLED_ROD, "tighten 1/4 turn: ");
    bench_expect_row(terminal, ROW_TITLED_SLOTS, "file ");
    bench_expect_row(terminal, ROW_TITLED_SADDLE, "turns ");
    turn_to_work(terminal);
    terminal_expect(terminal, SEEN_LEFT "rod, slots, saddle");
    terminal_expect_gone(terminal, "[ ] reset");
    mark_rod(terminal, "1/4");
    mark(terminal, "slots");
    mark(terminal, "saddle");
    next_pass(terminal, "pass 3");
    read_as_expected(terminal, bass_found.strings);
    expect_ready(terminal);
}

/* A glued heel, and a neck that leans: the plan is whole on the smallest screen. */
static void a_leaning_neck(void **state)
{
    struct terminal *terminal = begin(*state, PARLOUR);

    begin_visit(terminal, "visit 3");
    read_pass(terminal, &leaning_found);
    expect_reset_alone(terminal);
    bench_expect_row(terminal, "1 reset", "deg, heel taper .");
    bench_expect_row(terminal, "then exposure", "straightedge .");
    terminal_expect(terminal, "; the neck leans:");
    terminal_expect(terminal, "over the bridge .");
    terminal_expect(terminal, "in, treble low");
    terminal_expect(terminal, "mind: heat, steam and chisels");
}

/* The rod goes back again, a reset does not: what it may come to is said beside the rod, which is
 * first, and the rest waits. */
static void no_reset_before_the_rod(void **state)
{
    struct terminal *terminal = begin(*state, PARLOUR);

    begin_visit(terminal, "visit 3");
    read_pass(terminal, &leaning_bowed);
    bench_expect_row(terminal, "1 reset", "rod first; may need neck angle 0.8");
    bench_expect_row(terminal, "2 rod", "tighten 1/4 turn, then read");
    bench_expect_row(terminal, "4 saddle", "rod first, then measure");
    turn_to_work(terminal);
    terminal_expect(terminal, SEEN_LEFT "rod; waits: reset, slots, saddle");
}

/* --- six minutes --- */

static int count_keys(struct terminal *terminal)
{
    size_t count = 0;
    const char *sent = terminal_sent(terminal, &count);
    int keys = 0;

    /* A key of the pad is three bytes, any other here one. */
    for (size_t at = 0; at < count; at += sent[at] == '\033' ? 3 : 1)
        keys++;
    return keys;
}

static void a_six_minute_electric(void **state)
{
    enum { KEYS_MOST = 120 };
    struct terminal *terminal = begin(*state, BOLT_ON);

    begin_visit(terminal, "visit 3");
    read_pass(terminal, &electric_found);
    bench_expect_row(terminal, ROW_TITLED_ROD, "tighten 1/4 turn: relief -.004");
    bench_expect_row(terminal, ROW_TITLED_SADDLE, "turns ");
    turn_to_work(terminal);
    mark_rod(terminal, "1/4");
    mark(terminal, "saddle");
    next_pass(terminal, "pass 2");
    read_as_expected(terminal, electric_found.strings);
    expect_ready(terminal);
    const int keys = count_keys(terminal);
    if (keys >= KEYS_MOST)
        print_error("%d keys\n", keys);
    assert_true(keys < KEYS_MOST);
}

/* --- back in drier air --- */

/* Words of any cut, and of a saddle that goes up. */
static const char *const cuts[] = {"file", "fill", "raise", "height \xC2\xB1", "bottom", NULL};

static void expect_rod_alone(struct terminal *terminal)
{
    bench_expect_row(terminal, ROW_TITLED_SLOTS, SEEN_SEASON);
    bench_expect_row(terminal, ROW_TITLED_SADDLE, SEEN_SEASON);
    expect_none(terminal, cuts);
}

static void a_return_in_drier_air(void **state)
{
    struct terminal *terminal = begin(*state, PARLOUR);

    begin_visit(terminal, "visit 3");
    day_turn_to(terminal, "Intake");
    day_find_cell(terminal, TERMINAL_DOWN, " humidity >");
    read_next(terminal, " humidity >", "28");
    read_next(terminal, " temperature >", "68");
    terminal_expect(terminal, "EMC 5.9 %");
    day_turn_to(terminal, "Bench");
    read_pass(terminal, &winter_found);
    bench_expect_row(terminal, ROW_TITLED_ROD, "slacken ");
    expect_rod_alone(terminal);
    turn_to_work(terminal);
    terminal_expect(terminal, SEEN_LEFT "rod; waits: slots, saddle");
    mark(terminal, "rod");
    terminal_expect(terminal, "-1/4 slackened it by a quarter");
    read_next(terminal, "rod, turns >", "-1/8");
    terminal_expect(terminal, SEEN_DUE_IS_DONE "waits: slots, saddle");
    next_pass(terminal, "pass 2");
    read_pass(terminal, &winter_after_rod);
    expect_none(terminal, cuts);
    expect_ready(terminal);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        BENCH_CASE(a_neck_reset),
        BENCH_CASE(a_leaning_neck),
        BENCH_CASE(no_reset_before_the_rod),
        BENCH_CASE(a_six_minute_electric),
        BENCH_CASE(a_return_in_drier_air),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
