/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_BENCH_SCREEN_H
#define SILLET_TESTS_BENCH_SCREEN_H

#include <stdbool.h>
#include <stddef.h>

#include "terminal.h"
#include "tree.h"

/*
 * Shared by the tests of the bench: the real program on a temporary copy of a profile, in a
 * terminal that can be read. HOME and everything under it are in the test's own folder.
 */

/* The words on screen that the tests rely on; everything else there may change. */
#define SEEN_BENCH         "[Bench]"
#define SEEN_KEPT          "kept "
#define SEEN_NOT_KEPT      "NOT KEPT"
#define SEEN_NOT_ON_DISK   "Not on disk yet"
#define SEEN_READ_ONLY     "reading only"
#define SEEN_IN_USE        "in use by"
#define SEEN_NOT_CHANGED   "nothing was changed"
#define SEEN_OTHER_CHANGE  "else changed the file"
#define SEEN_AGAIN_QUITS   "again to quit"
#define SEEN_LOST          "last save are lost"
#define SEEN_TOO_SMALL     "needs 80x24"
#define SEEN_PREVIEW       "moves if this is taken"
#define SEEN_NEXT_MOVES    "next moves"
#define SEEN_PASS_END      "all cells done"
#define SEEN_BAD_FRACTION  "0 below the line"
#define SEEN_BAD_POINT     "one point"
#define SEEN_BAD_RANGE     "cannot be"
#define SEEN_ASKS_AGAIN    "Enter asks: "
#define SEEN_HELD_ENTRY    "Held: "
#define SEEN_HELD          "held on 3"
#define SEEN_METRIC        "metric"
#define SEEN_INCH          "inch"
#define SEEN_HELP          "Typing a reading"
#define SEEN_WHY           "What follows from it"
#define SEEN_TAKEN_BACK    "Undone: "
#define SEEN_MADE_AGAIN    "Redone: "
#define SEEN_PROMPT_RELIEF "relief at fret 6 >"
#define SEEN_PROMPT_GAP    "nut gap, string %d >"
#define SEEN_PROMPT_ACTION "action, string %d at fret 12 >"

/* Row labels, as they begin their rows. */
#define ROW_TITLED_RELIEF   "relief"
#define ROW_TITLED_GAP      "nut gap"
#define ROW_TITLED_ACTION   "action"
#define ROW_TITLED_EXPOSURE "exposure"
#define ROW_TITLED_ROD      "1 rod"
#define ROW_TITLED_SLOTS    "2 slots"
#define ROW_TITLED_SADDLE   "3 saddle"

/* A text that holds one control key. */
#define BENCH_CTRL(letter) ((const char[]){(char)((letter)&0x1F), '\0'})

struct bench {
    struct tree *tree;
    char home[300], profile[400];
    struct terminal *terminal, *other;
};

#define BENCH_CASE(function) cmocka_unit_test_setup_teardown(function, bench_open, bench_close)

/* Takes the program's path and the folder of test data; false, with a message, without. */
bool bench_set_up(int argc, char **argv);
const char *bench_program(void);
const char *bench_data(const char *name);

/* *state becomes a struct bench *, its terminals stopped at the end. */
int bench_open(void **state);
int bench_close(void **state);

/* Makes the profile a copy of one of the test data. */
void bench_copy(struct bench *bench, const char *name);

/* Opens the profile and waits for the board; in `terminal`, stopped before if it runs. */
struct terminal *bench_start(struct bench *bench);
struct terminal *bench_start_worked(struct bench *bench); /* on a copy of the worked example */
struct terminal *bench_start_with(struct bench *bench, struct terminal_setup setup);

/* A second program beside the first, in `other`. */
struct terminal *bench_start_other(struct bench *bench);

/* Text and Enter; the same by the number pad in application mode, '\r' its Enter. */
void bench_enter(struct terminal *terminal, const char *text);
void bench_pad(struct terminal *terminal, const char *text);

/* q, exit status 0, the terminal as it was. */
void bench_quit(struct terminal *terminal);
void bench_expect_restored(struct terminal *terminal);

/* The first row that begins with the label, from `first` on; -1 when none does. */
int bench_row(struct terminal *terminal, const char *label, int first);

/* Waits until the row of that label holds the text behind its label. */
void bench_expect_row_at(struct terminal *terminal, const char *label, const char *text,
                         const char *file, int line);
#define bench_expect_row(terminal, label, text)                                                    \
    bench_expect_row_at(terminal, label, text, __FILE__, __LINE__)

/* Waits for the prompt of a string's cell, SEEN_PROMPT_GAP or SEEN_PROMPT_ACTION. */
void bench_expect_gap(struct terminal *terminal, int string);
void bench_expect_action(struct terminal *terminal, int string);

/* The word at that place behind the label of a row, 0 the first; "" when there is none. */
const char *bench_word(struct terminal *terminal, const char *label, int place);

/* The number behind the first `words` on screen, from a row on; NaN when there is none. */
double bench_number_behind(struct terminal *terminal, const char *words, int first_row);

/* The profile has, or has not, such a line. */
void bench_expect_line_at(const struct bench *bench, const char *text, bool wanted,
                          const char *file, int line);
#define bench_expect_line(bench, text) bench_expect_line_at(bench, text, true, __FILE__, __LINE__)
#define bench_expect_no_line(bench, text)                                                          \
    bench_expect_line_at(bench, text, false, __FILE__, __LINE__)

#endif
