/* SPDX-License-Identifier: MIT */

/*
 * A day with one hand on the number pad: from an empty shelf to the sheet that goes back with the
 * instrument. At the end every byte sent is checked: digits, the point or comma,
 * / * - + and Enter, and with Num Lock off the arrows and their neighbours; nothing else.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <sys/wait.h>

#include <cmocka.h>

#include "shop_day.h"

#define NAME      "Steel-string flat-top"
#define FILE_NAME "steel-string-flat-top.ini"
#define SEEN_MENU "a digit or letter does it"

/* The pad with Num Lock off, as terminals spell it. */
#define PAD_INSERT "\033[2~"
#define PAD_DELETE "\033[3~"
#define PAD_FIVE   "\033[E"

static const struct day_pass as_found = {.relief = ".010+.004",
                                         .gap = {"28", ",027", ".025", "22", "20", "19"},
                                         .action = {"9", "8.5", "8", "7-1/2", "7", "6,5"},
                                         .exposure = {"14", "12"}};
static const struct day_pass after_rod = {
    .relief = ".008",
    .rod_turned = "1/4",
    .gap = {"24", "23", "21", "18", "16", "15"},
    .action = {"8.25", "7.75", "7.25", "6.75", "6.25", "5.75"},
    .exposure = {"14", "12"}};
static const struct day_pass after_saddle = {.relief = ".008",
                                             .gap = {"18", "17", "16", "15", "13", "12"},
                                             .action = {"6", "5.5", "5.25", "4.75", "4.5", "4"},
                                             .exposure = {"9.5", "9"}};

/* The menu, then what is chosen there; `seen` is what comes of it. */
static void choose(struct terminal *terminal, const char *codes, const char *seen)
{
    terminal_expect_gone(terminal, SEEN_MENU);
    bench_pad(terminal, "*");
    terminal_expect(terminal, SEEN_MENU);
    bench_pad(terminal, codes);
    terminal_expect_gone(terminal, SEEN_MENU);
    terminal_expect(terminal, seen);
}

static void file_two_instruments(struct terminal *terminal)
{
    terminal_expect(terminal, "begins the first instrument");
    bench_pad(terminal, "\r1\r");
    terminal_expect(terminal, "its name > " NAME);
    bench_pad(terminal, "\r");
    terminal_expect(terminal, "1 inches  2 millimetres >");
    bench_pad(terminal, "1");
    terminal_expect(terminal, SEEN_BENCH);
    choose(terminal, "09", "[Shelf]");
    /* One too many: named by a number, then into the archive. */
    choose(terminal, "4", "which of these is it most like?");
    bench_pad(terminal, "8\r");
    terminal_expect(terminal, "its name > Ukulele");
    bench_pad(terminal, "77");
    terminal_type(terminal, PAD_DELETE);
    terminal_expect_gone(terminal, "77");
    bench_pad(terminal, "\r");
    terminal_expect(terminal, SEEN_BENCH);
    choose(terminal, "09", ">7 ");
    choose(terminal, "9", "move to archive/ ?");
    bench_pad(terminal, "*"); /* on second thoughts */
    terminal_expect_gone(terminal, "move to archive/ ?");
    choose(terminal, "9", "move to archive/ ?");
    bench_pad(terminal, "\r");
    terminal_expect(terminal, "archive/7.ini");
    terminal_expect(terminal, "1 instrument on file");
}

static void take_in(struct terminal *terminal)
{
    choose(terminal, "01", "[Intake]");
    day_find_cell(terminal, TERMINAL_DOWN, " humidity >");
    day_read(terminal, " humidity >", "46");
    terminal_expect(terminal, " temperature >");
    bench_pad(terminal, "78");
    terminal_type(terminal, PAD_DELETE); /* a slip, taken back */
    bench_pad(terminal, "0\r");
    terminal_expect(terminal, "46 % 70 F EMC 8.6 %");
    day_find_cell(terminal, TERMINAL_DOWN, " scale length >");
    day_read(terminal, " scale length >", "25,5");
    terminal_expect(terminal, "25.5 in");
    /* A choice by its number, by stepping, and by the pad's 5. */
    day_find_cell(terminal, TERMINAL_DOWN, " truss rod >");
    day_read(terminal, " truss rod >", "2");
    terminal_expect(terminal, " relief target >");
    terminal_expect(terminal, "one-way");
    terminal_key(terminal, TERMINAL_UP);
    day_read(terminal, " truss rod >", "++-");
    terminal_expect(terminal, " relief target >");
    terminal_expect(terminal, "two-way");
    terminal_key(terminal, TERMINAL_UP);
    terminal_expect(terminal, " truss rod >");
    terminal_type(terminal, PAD_FIVE);
    terminal_expect(terminal, " truss rod > 4");
    choose(terminal, "1", "What was typed is dropped");
}

static void measure(struct bench *bench, struct terminal *terminal)
{
    choose(terminal, "02", SEEN_BENCH);
    day_enter_pass(terminal, &as_found);
    terminal_expect(terminal, SEEN_KEPT);
    bench_expect_row(terminal, ROW_TITLED_RELIEF, "high");
    bench_expect_row(terminal, ROW_TITLED_ROD, "relief -.006");
    bench_expect_line(bench, "nut_gap.5 = .027 in");
    bench_expect_line(bench, "action.1 = 6.5/64 in");
    /* The last reading, taken back and made again. */
    choose(terminal, "1", SEEN_TAKEN_BACK);
    choose(terminal, ".1", SEEN_MADE_AGAIN);
    /* Edited in place: 12 becomes 12.5. */
    terminal_type(terminal, PAD_INSERT);
    terminal_expect(terminal, "> 12/64 in");
    for (int i = 0; i < 6; i++)
        terminal_key(terminal, TERMINAL_LEFT);
    bench_pad(terminal, ".5\r");
    terminal_expect(terminal, SEEN_PASS_END);
    bench_expect_row(terminal, ROW_TITLED_EXPOSURE, "12.5");
    bench_expect_line(bench, "exposure_treble = 12.5/64 in");
}

static void read_what_stands_there(struct terminal *terminal)
{
    choose(terminal, "02", SEEN_BENCH);
    terminal_key(terminal, TERMINAL_HOME);
    choose(terminal, ".5", SEEN_WHY);
    terminal_key(terminal, TERMINAL_DOWN);
    terminal_key(terminal, TERMINAL_PAGE_DOWN);
    bench_pad(terminal, "*");
    terminal_expect(terminal, SEEN_NEXT_MOVES);
    choose(terminal, ".6", SEEN_HELP);
    terminal_key(terminal, TERMINAL_PAGE_DOWN);
    terminal_expect_gone(terminal, SEEN_HELP);
    bench_pad(terminal, "\r");
    terminal_expect(terminal, SEEN_NEXT_MOVES);
    choose(terminal, "03", "[Strings]");
    choose(terminal, "4", "what if: which tuning >");
    bench_pad(terminal, "4\r");
    terminal_expect(terminal, "what if: drop D");
    choose(terminal, "8", "Retuned");
    choose(terminal, "1", SEEN_TAKEN_BACK);
    choose(terminal, "7", "what if: which set >");
    bench_pad(terminal, "+\r");
    terminal_expect(terminal, "what if: steel-extra-light");
    choose(terminal, "9", "[Strings]");
    choose(terminal, "04", "[Pitch]");
    day_read(terminal, "cents at fret 12, string 6 >", "+6");
    day_read(terminal, "cents at fret 12, string 5 >", "-2");
    choose(terminal, "05", "[Frets]");
    day_read(terminal, "buzzing notes, string 6 >", "5+6");
    choose(terminal, "6", "[Frets]");
}

static void work(struct terminal *terminal, const char *left)
{
    choose(terminal, "07", "[Work]");
    choose(terminal, "4", left);
}

static void do_the_moves(struct terminal *terminal)
{
    work(terminal, "[x] rod");
    day_read(terminal, "rod, turns >", after_rod.rod_turned);
    choose(terminal, "02", SEEN_BENCH);
    choose(terminal, "4", "pass 2");
    day_enter_pass(terminal, &after_rod);
    bench_expect_row(terminal, ROW_TITLED_RELIEF, "1/4");
    /* Nobody files a slot within a second of measuring it. */
    day_wait_second(terminal);
    work(terminal, "[x] slots");
    terminal_type(terminal, PAD_FIVE); /* a box is ticked by the 5 too */
    terminal_expect(terminal, "[x] saddle");
    /* Another line of work, in figures, which is asked about. */
    choose(terminal, "7", "own work >");
    bench_pad(terminal, "30\r");
    terminal_expect(terminal, "Held: 30: is that what was done?");
    bench_pad(terminal, "\r");
    terminal_expect(terminal, "[x] 30");
    choose(terminal, "8", "Work line taken out");
    choose(terminal, "02", SEEN_BENCH);
    choose(terminal, "4", "pass 3");
    day_enter_pass(terminal, &after_saddle);
    bench_expect_row(terminal, "2 frets", "hear it again");
    bench_expect_row(terminal, "4 saddle", "on target");
    choose(terminal, "07", "hear and tune again before it goes back: frets, pitch");
}

static void look_back_and_hand_over(struct bench *bench, struct terminal *terminal)
{
    char folder[512];

    choose(terminal, "08", "[History]");
    terminal_key(terminal, TERMINAL_LEFT);
    terminal_key(terminal, TERMINAL_DOWN);
    choose(terminal, "4", "pass 2 of 3");
    choose(terminal, ".3", "pass 3");
    snprintf(folder, sizeof folder, "%s/sheets", day_shelf(bench));
    choose(terminal, "3", "sheets/");
    assert_int_equal(tree_count(folder, "steel-string-flat-top-"), 1);
    /* It comes back one day. */
    choose(terminal, ".4", "visit 2");
    day_read(terminal, "relief at fret 7 >", ".011");
    choose(terminal, "09", "[Shelf]");
    terminal_expect(terminal, ">" NAME);
    bench_pad(terminal, "99"); /* nothing is called that */
    terminal_expect(terminal, "No instrument matches");
    choose(terminal, "1", ">" NAME);
    bench_pad(terminal, "*09");
}

/* The bytes of one key of the pad at the beginning of these; 0 for any other. */
static size_t pad_key_length(const char *bytes, size_t count)
{
    static const char *const moving[] = {"\033[A", "\033[B",   "\033[C",   "\033[D",  "\033OA",
                                         "\033OB", "\033OC",   "\033OD",   "\033[H",  "\033OH",
                                         "\033[F", "\033OF",   "\033[1~",  "\033[4~", "\033[E",
                                         "\033OE", PAD_INSERT, PAD_DELETE, "\033[5~", "\033[6~"};

    if (memchr("0123456789.,/*-+\r", bytes[0], 17))
        return 1;
    /* Digits and the rest in application mode. */
    if (count >= 3 && bytes[0] == '\033' && bytes[1] == 'O' &&
        memchr("pqrstuvwxyjklmnoM", bytes[2], 17))
        return 3;
    for (size_t i = 0; i < sizeof moving / sizeof moving[0]; i++)
        if (count >= strlen(moving[i]) && memcmp(bytes, moving[i], strlen(moving[i])) == 0)
            return strlen(moving[i]);
    return 0;
}

static void expect_the_pad_alone(const struct terminal *terminal)
{
    size_t count = 0;
    const char *sent = terminal_sent(terminal, &count);

    assert_non_null(sent);
    assert_true(count > 400);
    for (size_t at = 0; at < count;) {
        const size_t length = pad_key_length(sent + at, count - at);

        if (length == 0)
            fail_msg("byte %zu that was sent, 0x%02X, is of no key on the pad", at,
                     (unsigned)(unsigned char)sent[at]);
        at += length;
    }
}

static void a_day_on_the_pad(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = day_begin(bench, FILE_NAME);

    file_two_instruments(terminal);
    bench_pad(terminal, "\r");
    terminal_expect(terminal, SEEN_BENCH);
    take_in(terminal);
    measure(bench, terminal);
    read_what_stands_there(terminal);
    do_the_moves(terminal);
    look_back_and_hand_over(bench, terminal);
    const int status = terminal_expect_end(terminal);
    assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 0);
    bench_expect_restored(terminal);
    expect_the_pad_alone(terminal);
    bench_expect_line(bench, "relief = .010+.004 in");
    bench_expect_line(bench, "rod_turn = 1/4 turn");
    bench_expect_line(bench, "action.6 = 6/64 in");
    bench_expect_line(bench, "cents.5.12 = -2 cents");
    bench_expect_line(bench, "[visit.2.pass.1]");
    bench_expect_no_line(bench, "[visit.1.work.4]");
}

/* The check must be able to fail. */
static void what_is_no_pad_key_is_told(void **state)
{
    static const char *const other[] = {"q", "\t", "\033", "\x7F", "\033OP", "\033[Z", " ", "e"};

    (void)state;
    for (size_t i = 0; i < sizeof other / sizeof other[0]; i++)
        assert_int_equal(pad_key_length(other[i], strlen(other[i])), 0);
    assert_int_equal(pad_key_length("\033OM", 3), 3);
    assert_int_equal(pad_key_length("7", 1), 1);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {BENCH_CASE(a_day_on_the_pad),
                                       cmocka_unit_test(what_is_no_pad_key_is_told)};

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
